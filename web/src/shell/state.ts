// What every screen may read: the open phone, and how it stands with the workshop's computer.
import { signal } from '@preact/signals';
import { remember, remembered } from '../store/current.ts';
import type { KeptPhoto } from '../store/database.ts';
import { type Draft, NoRoom } from '../store/outbox.ts';
import { Phone } from '../store/phone.ts';
import { exchange } from '../sync/exchange.ts';
import { sendPhotos } from '../sync/photos.ts';
import { photoHttp } from '../sync/photowire.ts';
import { http, OutOfReach, Refused } from '../sync/wire.ts';

export type SyncState = 'never' | 'busy' | 'done' | 'out of reach' | 'refused';

export const phone = signal<Phone | null>(null);
export const version = signal(0); // rises whenever rows or cards may have changed
export const unsent = signal(0);
export const syncState = signal<SyncState>('never');
export const syncSentence = signal('');
export const needsPairing = signal(false); // no workshop on this browser yet
export const pairAgain = signal(false); // there is one, but the computer does not know this browser
export const people = signal<Record<string, string>>({});
export const asideReasons = signal<string[]>([]);
export const toMeasure = signal(0); // outlines that the workshop's computer has yet to measure
export const exchangedAt = signal<number | null>(null); // when it last went through, ms

const tabs = new BroadcastChannel('bucktail');

export async function openPhone(): Promise<void> {
  const workshop = await remembered('workshop');
  const opened = workshop ? await Phone.open(workshop) : null;
  if (!opened) {
    needsPairing.value = true;
    return;
  }
  await usePhone(opened);
}

export async function usePhone(opened: Phone): Promise<void> {
  await remember('workshop', opened.identity.workshop);
  people.value = ((await opened.db.get('meta', 'people')) as Record<string, string>) ?? {};
  exchangedAt.value = ((await opened.db.get('meta', 'exchanged')) as number | undefined) ?? null;
  phone.value = opened;
  needsPairing.value = false;
  pairAgain.value = false;
  await changed();
  tabs.onmessage = async () => {
    await opened.load();
    await changed();
  };
  void navigator.storage?.persist?.();
  void sync();
}

async function changed(): Promise<void> {
  const open = phone.value;
  unsent.value = open ? (await open.outboxCount()) + open.photos.toSend().length : 0;
  version.value += 1;
}

export function openedPhone(): Phone {
  if (!phone.value) throw new Error('no workshop is open on this phone');
  return phone.value;
}

// Records drafts as one: resolves when they are on the disk. Only then may anything sound.
export async function record(drafts: Draft[], photos: KeptPhoto[] = []): Promise<string[]> {
  const kept = await openedPhone().record(drafts, photos);
  await changed();
  tabs.postMessage('changed');
  void sync();
  return kept.map((one) => one.id);
}

let waiting = false;

// Sends and fetches, one tab at a time; asked again while it runs, it runs once more after.
// Never throws for a computer out of reach: the state says how it went.
export async function sync(): Promise<void> {
  if (waiting || !phone.value) return;
  waiting = true;
  await navigator.locks.request('bucktail-sync', async () => {
    waiting = false;
    const open = openedPhone();
    syncState.value = 'busy';
    try {
      const done = await exchange(open, http, Date.now, () => void changed());
      if (Object.keys(done.people).length) {
        people.value = done.people;
        await open.db.put('meta', done.people, 'people');
      }
      const { agreed } = done;
      if (agreed) await open.agree(agreed.name, agreed.unit, agreed.sawing);
      exchangedAt.value = Date.now();
      await open.db.put('meta', exchangedAt.value, 'exchanged');
      if (done.aside.length) asideReasons.value = [...asideReasons.value, ...done.aside];
      if (done.fetched || done.measured) tabs.postMessage('changed');
      askForMeasured(done.toMeasure);
      const photos = await sendPhotos(
        open.photos,
        photoHttp,
        () => waiting,
        () => void changed(),
      );
      syncSentence.value = photos.refused[0] ?? '';
      syncState.value = photos.refused.length ? 'refused' : 'done';
    } catch (problem) {
      told(problem);
    }
    await changed();
  });
}

const SOON_MS = 1500;
const LATER_MS = 30_000; // by then it is asked anyway
let pause = SOON_MS;

// What is being measured is asked for again before long, less often the longer it takes.
function askForMeasured(left: number): void {
  pause = left > 0 && left === toMeasure.value ? pause * 2 : SOON_MS;
  toMeasure.value = left;
  if (left > 0 && pause < LATER_MS) setTimeout(() => void sync(), pause);
}

function told(problem: unknown): void {
  syncSentence.value = problem instanceof Error ? problem.message : String(problem);
  if (problem instanceof OutOfReach) syncState.value = 'out of reach';
  else if (problem instanceof Refused) {
    syncState.value = 'refused';
    if (problem.word === 'not paired') pairAgain.value = true;
  } else {
    syncState.value = 'refused';
    if (!(problem instanceof NoRoom)) console.error(problem);
  }
}

export function keepInStep(): void {
  const wake = (): void => {
    if (document.visibilityState === 'visible') void sync();
  };
  document.addEventListener('visibilitychange', wake);
  window.addEventListener('online', wake);
  setInterval(wake, 30_000);
}
