// What the service worker decides, without a service worker: which cache a file belongs in, what a
// request gets, how a whole version is fetched or nothing of it. Pure; `sw.ts` supplies the browser.

/** One file of the build: its address, the sha256 of its content in hexadecimal, its size. */
export interface PrecachedFile {
  url: string;
  hash: string;
  bytes: number;
}

/** Everything the app needs without a network; `version` changes when any file does. */
export interface Precache {
  version: string;
  files: PrecachedFile[];
}

/** Where things are kept: one cache per version of the app, one per version of the decoder. */
export const CACHE_PREFIX = 'bucktail-';
export const PAGE = '/index.html';

/** The message with which a page asks a waiting version to take over. */
export interface ActivateMessage {
  type: 'activate';
  /** Only if no other page of this site is open. */
  onlyIfAlone?: boolean;
}

/** What a request gets: the page, its file from the cache, or nothing from us. */
export type Answer = { kind: 'page' } | { kind: 'file'; url: string } | { kind: 'network' };

/** The little of a request that the decision needs. */
export interface AskedFor {
  method: string;
  /** `navigate` when the browser opens a page. */
  mode: string;
  sameOrigin: boolean;
  path: string;
}

/** The decoder is large and seldom changes, so it lives in a cache named by its own hash. */
function isDecoder(file: PrecachedFile): boolean {
  return file.url.endsWith('.wasm');
}

export function cacheNameOf(file: PrecachedFile, precache: Precache): string {
  return isDecoder(file)
    ? `${CACHE_PREFIX}decoder-${file.hash.slice(0, 16)}`
    : `${CACHE_PREFIX}app-${precache.version}`;
}

/** The caches of this version; every other one of ours may go once this version is in charge. */
export function cacheNames(precache: Precache): Set<string> {
  return new Set(precache.files.map((file) => cacheNameOf(file, precache)));
}

/** Which of the caches on this phone belong to versions that are gone. */
export function outdatedCaches(present: string[], precache: Precache): string[] {
  const current = cacheNames(precache);
  return present.filter((name) => name.startsWith(CACHE_PREFIX) && !current.has(name));
}

/** Pages come from the cache whatever their path, so that every link opens without a network. */
export function answerFor(asked: AskedFor, precache: Precache): Answer {
  if (!asked.sameOrigin || asked.method !== 'GET') return { kind: 'network' };
  if (asked.path === '/api' || asked.path.startsWith('/api/')) return { kind: 'network' };
  if (precache.files.some((file) => file.url === asked.path)) {
    return { kind: 'file', url: asked.path };
  }
  return asked.mode === 'navigate' ? { kind: 'page' } : { kind: 'network' };
}

/** What fetching a version needs from the browser. */
export interface Shelves<Content> {
  /** Content kept earlier, in any cache, for this address; null when there is none. */
  kept(url: string): Promise<Content | null>;
  /** Fresh content from the server; throws when it cannot be had. */
  fetched(url: string): Promise<Content>;
  /** sha256 in hexadecimal. */
  hash(content: Content): Promise<string>;
  put(cacheName: string, url: string, content: Content): Promise<void>;
  /** Whether a cache already holds this address. */
  has(cacheName: string, url: string): Promise<boolean>;
  drop(cacheName: string): Promise<void>;
  /** Names of all caches of this site. */
  names(): Promise<string[]>;
}

/**
 * Fill the caches of one version, or leave nothing of it behind. A file whose content is already on
 * this phone is taken from there. Content that is not what the list says (the server was updated
 * half-way through) fails the whole version; the browser tries again later and the old one stays.
 * A cache that was there before is never dropped: another worker of the same version may be using it.
 */
export async function fetchVersion<C>(precache: Precache, shelves: Shelves<C>): Promise<void> {
  const before = await shelves.names();
  const results = await Promise.allSettled(
    precache.files.map((file) => fill(file, cacheNameOf(file, precache), shelves)),
  );
  const failed = results.find((result) => result.status === 'rejected');
  if (!failed) return;
  for (const name of cacheNames(precache)) if (!before.includes(name)) await shelves.drop(name);
  throw failed.reason;
}

async function fill<C>(file: PrecachedFile, cacheName: string, shelves: Shelves<C>): Promise<void> {
  if (await shelves.has(cacheName, file.url)) return;
  const kept = await shelves.kept(file.url);
  if (kept !== null && (await shelves.hash(kept)) === file.hash) {
    return shelves.put(cacheName, file.url, kept);
  }
  const fresh = await shelves.fetched(file.url);
  if ((await shelves.hash(fresh)) !== file.hash) {
    throw new Error(`${file.url} is not the file this version lists`);
  }
  await shelves.put(cacheName, file.url, fresh);
}
