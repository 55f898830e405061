// The service worker: keeps the app on the phone so that it opens without a network, and hands over
// to a new version only when a page asks for it. It never touches what the builder recorded.
import {
  type ActivateMessage,
  answerFor,
  cacheNameOf,
  fetchVersion,
  outdatedCaches,
  PAGE,
  type Precache,
  type Shelves,
} from './shell/offline.ts';

declare const __PRECACHE__: Precache;
const precache = __PRECACHE__;
const sw = self as unknown as ServiceWorkerGlobalScope;

/** A file as kept: its bytes with the headers that matter to a page (type, content policy). */
interface Kept {
  body: ArrayBuffer;
  headers: Headers;
}

async function keptFrom(response: Response): Promise<Kept> {
  const headers = new Headers(response.headers);
  // the bytes are plain now, whatever they travelled as
  for (const name of ['content-encoding', 'content-length', 'vary', 'set-cookie']) {
    headers.delete(name);
  }
  return { body: await response.arrayBuffer(), headers };
}

const shelves: Shelves<Kept> = {
  async kept(url) {
    const found = await caches.match(url, { ignoreVary: true });
    return found ? keptFrom(found) : null;
  },
  async fetched(url) {
    const response = await fetch(url, { cache: 'no-cache', credentials: 'same-origin' });
    if (!response.ok) throw new Error(`${url}: the server said ${response.status}`);
    return keptFrom(response);
  },
  async hash({ body }) {
    const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', body));
    return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
  },
  async put(cacheName, url, { body, headers }) {
    const cache = await caches.open(cacheName);
    await cache.put(url, new Response(body, { status: 200, headers }));
  },
  async has(cacheName, url) {
    return (await caches.has(cacheName)) && !!(await (await caches.open(cacheName)).match(url));
  },
  async drop(cacheName) {
    await caches.delete(cacheName);
  },
  names() {
    return caches.keys();
  },
};

/** This version's own copy of a file; never another version's. */
async function ownCopy(url: string): Promise<Response | undefined> {
  const file = precache.files.find((each) => each.url === url);
  if (!file) return undefined;
  const cache = await caches.open(cacheNameOf(file, precache));
  return cache.match(url, { ignoreVary: true });
}

async function takeOver(): Promise<void> {
  const outdated = outdatedCaches(await caches.keys(), precache);
  await Promise.all(outdated.map((name) => caches.delete(name)));
  await sw.clients.claim();
}

async function activateIfAsked(message: ActivateMessage): Promise<void> {
  if (message.onlyIfAlone) {
    const open = await sw.clients.matchAll({ includeUncontrolled: true, type: 'window' });
    if (open.length > 1) return;
  }
  await sw.skipWaiting();
}

sw.addEventListener('install', (event) => {
  event.waitUntil(fetchVersion(precache, shelves));
});

sw.addEventListener('activate', (event) => {
  event.waitUntil(takeOver());
});

sw.addEventListener('message', (event) => {
  const message = event.data as Partial<ActivateMessage> | null;
  if (message?.type === 'activate') event.waitUntil(activateIfAsked(message as ActivateMessage));
});

sw.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  const asked = {
    method: request.method,
    mode: request.mode,
    sameOrigin: url.origin === sw.location.origin,
    path: url.pathname,
  };
  const answer = answerFor(asked, precache);
  if (answer.kind === 'network') return;
  const wanted = answer.kind === 'page' ? PAGE : answer.url;
  event.respondWith(ownCopy(wanted).then((copy) => copy ?? fetch(request)));
});
