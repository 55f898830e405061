import { describe, expect, test } from 'vitest';
import {
  answerFor,
  cacheNameOf,
  cacheNames,
  fetchVersion,
  outdatedCaches,
  type Precache,
  type Shelves,
} from './offline.ts';

const file = (url: string, hash: string) => ({ url, hash, bytes: hash.length });
const first: Precache = {
  version: 'v1',
  files: [
    file('/index.html', 'page1'),
    file('/assets/a.js', 'code'),
    file('/assets/d.wasm', 'dec'),
  ],
};
const second: Precache = {
  version: 'v2',
  files: [
    file('/index.html', 'page2'),
    file('/assets/a.js', 'code'),
    file('/assets/d.wasm', 'dec'),
  ],
};

/** Caches in memory; the content of a file is its own hash. */
class Memory implements Shelves<string> {
  caches = new Map<string, Map<string, string>>();
  server = new Map<string, string>();
  asked: string[] = [];

  serve(precache: Precache): this {
    for (const each of precache.files) this.server.set(each.url, each.hash);
    return this;
  }
  async kept(url: string) {
    for (const cache of this.caches.values()) if (cache.has(url)) return cache.get(url) ?? null;
    return null;
  }
  async fetched(url: string) {
    this.asked.push(url);
    const content = this.server.get(url);
    if (content === undefined) throw new Error('out of reach');
    return content;
  }
  async hash(content: string) {
    return content;
  }
  async put(cacheName: string, url: string, content: string) {
    const cache = this.caches.get(cacheName) ?? new Map<string, string>();
    this.caches.set(cacheName, cache.set(url, content));
  }
  async has(cacheName: string, url: string) {
    return this.caches.get(cacheName)?.has(url) ?? false;
  }
  async drop(cacheName: string) {
    this.caches.delete(cacheName);
  }
  async names() {
    return [...this.caches.keys()];
  }
}

describe('a version is fetched whole or not at all', () => {
  test('everything in the list is kept, the decoder apart', async () => {
    const memory = new Memory().serve(first);
    await fetchVersion(first, memory);
    expect([...memory.caches.keys()].sort()).toEqual(['bucktail-app-v1', 'bucktail-decoder-dec']);
    expect(memory.caches.get('bucktail-app-v1')?.size).toBe(2);
  });

  test('one file out of reach leaves nothing behind', async () => {
    const memory = new Memory().serve(first);
    memory.server.delete('/assets/a.js');
    await expect(fetchVersion(first, memory)).rejects.toThrow('out of reach');
    expect(memory.caches.size).toBe(0);
  });

  test('a server that changed half-way through fails the version and keeps the old one', async () => {
    const memory = new Memory().serve(first);
    await fetchVersion(first, memory);
    memory.serve(second);
    memory.server.set('/index.html', 'page3');
    await expect(fetchVersion(second, memory)).rejects.toThrow('/index.html is not the file');
    expect([...memory.caches.keys()].sort()).toEqual(['bucktail-app-v1', 'bucktail-decoder-dec']);
    expect(memory.caches.get('bucktail-app-v1')?.get('/index.html')).toBe('page1');
  });

  test('the next version fetches only what changed, and the decoder never again', async () => {
    const memory = new Memory().serve(first);
    await fetchVersion(first, memory);
    memory.serve(second).asked = [];
    await fetchVersion(second, memory);
    expect(memory.asked).toEqual(['/index.html']);
    expect(memory.caches.get('bucktail-app-v2')?.get('/assets/a.js')).toBe('code');
  });

  test('a worker of the same version that fails leaves the cache in use alone', async () => {
    const memory = new Memory().serve(first);
    await fetchVersion(first, memory);
    memory.caches.get('bucktail-app-v1')?.delete('/assets/a.js');
    memory.server.clear();
    await expect(fetchVersion(first, memory)).rejects.toThrow();
    expect(memory.caches.get('bucktail-app-v1')?.get('/index.html')).toBe('page1');
  });
});

describe('which caches go', () => {
  test('only ours, and only those of other versions', () => {
    const present = ['bucktail-app-v1', 'bucktail-app-v2', 'bucktail-decoder-dec', 'other'];
    expect(outdatedCaches(present, second)).toEqual(['bucktail-app-v1']);
    expect(cacheNames(second)).toEqual(new Set(['bucktail-app-v2', 'bucktail-decoder-dec']));
  });

  test('a new decoder has a cache of its own', () => {
    expect(cacheNameOf(file('/assets/d.wasm', 'new'), second)).toBe('bucktail-decoder-new');
  });
});

describe('what a request gets', () => {
  const asked = { method: 'GET', mode: 'navigate', sameOrigin: true, path: '/' };

  test.each(['/', '/t/ABCDE12345', '/parts/1', '/apiary'])('%s opens the page', (path) => {
    expect(answerFor({ ...asked, path }, first)).toEqual({ kind: 'page' });
  });

  test('a listed file comes from the cache, however it is asked for', () => {
    const path = '/assets/a.js';
    expect(answerFor({ ...asked, mode: 'cors', path }, first)).toEqual({ kind: 'file', url: path });
  });

  test.each([
    ['the interface', { path: '/api/pull' }],
    ['the interface, opened as a page', { path: '/api' }],
    ['anything sent', { method: 'POST' }],
    ['another site', { sameOrigin: false }],
    ['an unknown file', { mode: 'no-cors', path: '/assets/unknown.js' }],
  ])('%s is left to the network', (_name, more) => {
    expect(answerFor({ ...asked, ...more }, first)).toEqual({ kind: 'network' });
  });
});
