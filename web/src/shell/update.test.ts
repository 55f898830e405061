import { beforeEach, describe, expect, test, vi } from 'vitest';
import { atHandover, atStart } from './update-steps.ts';

class FakeWorker extends EventTarget {
  state = 'installing';
  messages: unknown[] = [];
  postMessage(message: unknown) {
    this.messages.push(message);
  }
  become(state: string) {
    this.state = state;
    this.dispatchEvent(new Event('statechange'));
  }
}

class FakeRegistration extends EventTarget {
  active: FakeWorker | null = null;
  waiting: FakeWorker | null = null;
  installing: FakeWorker | null = null;
  update = vi.fn(async () => undefined);
}

class FakeContainer extends EventTarget {
  controller: FakeWorker | null = null;
  registration = new FakeRegistration();
  register = vi.fn(async () => this.registration);
}

class FakePage extends EventTarget {
  visibilityState = 'visible';
}

/** A fresh copy of the module (it keeps state for one page) in a browser of our own. */
async function open(set: (container: FakeContainer) => void, outboxEmpty = true) {
  vi.resetModules();
  const update = await import('./update.ts');
  const container = new FakeContainer();
  set(container);
  const page = new FakePage();
  const reload = vi.fn();
  await update.startUpdates(async () => outboxEmpty, {
    container: container as unknown as ServiceWorkerContainer,
    page: page as unknown as Document,
    reload,
  });
  return { update, container, registration: container.registration, page, reload };
}

function oneInCharge(container: FakeContainer) {
  container.controller = new FakeWorker();
  container.registration.active = container.controller;
}

function oneWaiting(container: FakeContainer) {
  oneInCharge(container);
  container.registration.waiting = new FakeWorker();
}

beforeEach(() => vi.restoreAllMocks());

describe('the first visit', () => {
  test('is ready for offline once the worker is active, and does not reload', async () => {
    const worker = new FakeWorker();
    const { update, container, reload } = await open((c) => {
      c.registration.installing = worker;
    });
    expect(update.offlineReady.value).toBe(false);
    worker.become('installed');
    expect(update.updateWaiting.value).toBe(false);
    worker.become('activated');
    container.dispatchEvent(new Event('controllerchange'));
    expect(update.offlineReady.value).toBe(true);
    expect(reload).not.toHaveBeenCalled();
  });

  test('says nothing where the page is not secure', async () => {
    vi.resetModules();
    const update = await import('./update.ts');
    const page = new FakePage() as unknown as Document;
    const noContainer = { container: undefined, page, reload: vi.fn() };
    await update.startUpdates(async () => true, noContainer);
    expect(update.offlineReady.value).toBe(false);
  });

  test('survives a server out of reach', async () => {
    const { update } = await open((c) => c.register.mockRejectedValue(new TypeError('no network')));
    expect(update.offlineReady.value).toBe(false);
  });
});

describe('a version that waits', () => {
  test('takes over at a cold start when everything is sent', async () => {
    const { registration, container, reload } = await open(oneWaiting);
    expect(registration.waiting?.messages).toEqual([{ type: 'activate', onlyIfAlone: true }]);
    container.dispatchEvent(new Event('controllerchange'));
    expect(reload).toHaveBeenCalledOnce();
  });

  test('is only offered while something has not been sent', async () => {
    const { update, registration } = await open(oneWaiting, false);
    expect(registration.waiting?.messages).toEqual([]);
    expect(update.updateWaiting.value).toBe(true);
  });

  test('found while the page is open is only offered, and restarts when told to', async () => {
    const { update, registration, container, reload } = await open(oneInCharge);
    const worker = new FakeWorker();
    registration.installing = worker;
    registration.dispatchEvent(new Event('updatefound'));
    registration.waiting = worker;
    worker.become('installed');
    expect(update.updateWaiting.value).toBe(true);
    expect(worker.messages).toEqual([]);
    update.restartNow();
    expect(worker.messages).toEqual([{ type: 'activate' }]);
    container.dispatchEvent(new Event('controllerchange'));
    expect(reload).toHaveBeenCalledOnce();
  });

  test('handed over by another page is offered here, and restarting then just reloads', async () => {
    const { update, container, reload } = await open(oneInCharge);
    container.dispatchEvent(new Event('controllerchange'));
    expect(reload).not.toHaveBeenCalled();
    expect(update.updateWaiting.value).toBe(true);
    update.restartNow();
    expect(reload).toHaveBeenCalledOnce();
  });

  test('is neither taken into use nor reloaded into in the middle of something', async () => {
    const { update, registration, container, page, reload } = await open(oneWaiting, false);
    const { begin } = await import('./middle.ts');
    const over = begin();
    update.restartNow();
    page.visibilityState = 'hidden';
    container.dispatchEvent(new Event('controllerchange'));
    expect(registration.waiting?.messages).toEqual([]);
    expect(reload).not.toHaveBeenCalled();
    over();
    over();
    update.restartNow();
    expect(registration.waiting?.messages).toEqual([{ type: 'activate' }]);
  });

  test('is looked for whenever the page is seen again', async () => {
    const { registration, page } = await open(oneInCharge);
    page.visibilityState = 'hidden';
    page.dispatchEvent(new Event('visibilitychange'));
    expect(registration.update).not.toHaveBeenCalled();
    page.visibilityState = 'visible';
    page.dispatchEvent(new Event('visibilitychange'));
    expect(registration.update).toHaveBeenCalledOnce();
  });
});

test.each([
  [{ waiting: false, outboxEmpty: true }, 'go on'],
  [{ waiting: true, outboxEmpty: false }, 'offer'],
  [{ waiting: true, outboxEmpty: true }, 'take over'],
] as const)('at the start %o: %s', (state, step) => {
  expect(atStart(state)).toBe(step);
});

test.each([
  [{ hadVersion: false, asked: true, hidden: true }, 'go on'],
  [{ hadVersion: true, asked: false, hidden: false }, 'offer'],
  [{ hadVersion: true, asked: true, hidden: false }, 'reload'],
  [{ hadVersion: true, asked: false, hidden: true }, 'reload'],
  [{ hadVersion: true, asked: false, hidden: true, inTheMiddle: true }, 'offer'],
] as const)('at a handover %o: %s', (state, step) => {
  expect(atHandover({ inTheMiddle: false, ...state })).toBe(step);
});
