// Registers the service worker and says two things about it: whether the app opens without a
// network by now, and whether a new version waits to be restarted into.
import { type ReadonlySignal, signal } from '@preact/signals';
import { inTheMiddle } from './middle.ts';
import type { ActivateMessage } from './offline.ts';
import { atHandover, atStart } from './update-steps.ts';

const ready = signal(false);
const waiting = signal(false);

/** The whole app is on this phone: it opens without a network. */
export const offlineReady: ReadonlySignal<boolean> = ready;
/** A new version is on this phone and waits for `restartNow`. */
export const updateWaiting: ReadonlySignal<boolean> = waiting;

/** The parts of the browser this needs; tests give their own. */
export interface UpdateBrowser {
  /** Absent where the page is not secure: then nothing is kept and nothing is said. */
  container: ServiceWorkerContainer | undefined;
  page: Document;
  reload(): void;
}

let registration: ServiceWorkerRegistration | undefined;
let browser: UpdateBrowser | undefined;
let asked = false;

function thisBrowser(): UpdateBrowser {
  return {
    container: window.isSecureContext ? navigator.serviceWorker : undefined,
    page: document,
    reload: () => location.reload(),
  };
}

/**
 * Start once, when the page starts. A version that already waits takes over at once if
 * `outboxEmpty` says that nothing is left to send and no other page of this site is open.
 */
export async function startUpdates(
  outboxEmpty: () => Promise<boolean>,
  using: UpdateBrowser = thisBrowser(),
): Promise<void> {
  browser = using;
  const { container } = using;
  if (!container) return;
  watchHandover(container, using);
  try {
    registration = await container.register('/sw.js', { scope: '/', updateViaCache: 'none' });
  } catch {
    return; // the server is out of reach and the app is not on this phone yet; the next start tries again
  }
  watchRegistration(registration, container);
  lookAgainWhenSeen(registration, using.page);
  const step = atStart({
    waiting: registration.waiting !== null,
    outboxEmpty: registration.waiting !== null && (await outboxEmpty()),
  });
  if (step === 'take over') ask(registration.waiting, { type: 'activate', onlyIfAlone: true });
}

/** Take the waiting version into use; the page starts again with it. Not in the middle of a run. */
export function restartNow(): void {
  if (inTheMiddle.value) return;
  if (registration?.waiting) ask(registration.waiting, { type: 'activate' });
  else browser?.reload(); // another page has already handed over
}

function ask(worker: ServiceWorker | null, message: ActivateMessage): void {
  asked = true;
  worker?.postMessage(message);
}

function watchHandover(container: ServiceWorkerContainer, using: UpdateBrowser): void {
  let hadVersion = container.controller !== null;
  container.addEventListener('controllerchange', () => {
    const hidden = using.page.visibilityState === 'hidden';
    const step = atHandover({ hadVersion, asked, hidden, inTheMiddle: inTheMiddle.value });
    hadVersion = true;
    if (step === 'reload') using.reload();
    if (step === 'offer') waiting.value = true;
  });
}

function watchRegistration(
  registered: ServiceWorkerRegistration,
  container: ServiceWorkerContainer,
): void {
  ready.value = registered.active !== null;
  waiting.value = registered.waiting !== null;
  if (registered.installing) watchWorker(registered.installing, container);
  registered.addEventListener('updatefound', () => {
    if (registered.installing) watchWorker(registered.installing, container);
  });
}

function watchWorker(worker: ServiceWorker, container: ServiceWorkerContainer): void {
  worker.addEventListener('statechange', () => {
    if (worker.state === 'activated') ready.value = true;
    if (worker.state === 'installed' && container.controller) waiting.value = true;
  });
}

/** The app may stay open for weeks, so it looks for a new version each time it is seen again. */
function lookAgainWhenSeen(registered: ServiceWorkerRegistration, page: Document): void {
  page.addEventListener('visibilitychange', () => {
    if (page.visibilityState !== 'visible') return;
    registered.update().catch(() => {
      // no network; the next time will do
    });
  });
}
