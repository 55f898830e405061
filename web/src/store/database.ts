// The phone's database. `outbox`, `sent`, `photos` and `meta` hold what exists nowhere else and
// are never transformed; `cards`, `rows` and `incoming` are copies that can be fetched again.
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';

export interface Kept {
  seq: number;
  id: string;
  subject: string;
  group: string | null;
  text: string; // the event, byte for byte as it goes to the workshop's computer
}
export interface Sent extends Kept {
  position: number | null;
  effective?: number | null; // the time it counts as having happened, as the computer decided
  aside: string | null; // why the workshop's computer set it aside, if it did
  at: number; // when it was sent, so that it can be dropped long after
}
export interface KeptPhoto {
  digest: string;
  bytes: Blob;
  sent: boolean;
  at?: number; // when it was taken, UTC ms
}
export interface StoredCard {
  id: string;
  text: string;
}
export interface Head {
  position: number;
  chain: string;
}
/** What the workshop says its saw takes; what is left out is as common practice has it. */
export type Sawing = Partial<
  Record<'kerf' | 'dress_off' | 'shortest' | 'narrowest', { nm: number; text: string }>
>;
export interface Identity {
  workshop: string;
  device: string;
  person: string;
  name: string;
  unit: 'in' | 'mm';
  device_name?: string;
  person_name?: string;
  sawing?: Sawing;
}

export interface Tables extends DBSchema {
  outbox: { key: number; value: Kept };
  sent: { key: number; value: Sent };
  photos: { key: string; value: KeptPhoto };
  meta: { key: string; value: unknown };
  cards: { key: string; value: StoredCard };
  rows: { key: string; value: { id: string; [field: string]: unknown } };
  incoming: { key: string; value: StoredCard }; // cards of a fresh copy that is not whole yet
}
export type Database = IDBPDatabase<Tables>;
export const STRICT = { durability: 'strict' } as const;

// This number never rises. A browser refuses an older version of the app a database with a higher
// one, and what such a phone has not sent could not be read any more. The stores above are all
// there will be; what is new goes into `meta`, or into a database of its own. That the copies have
// another shape than this version wants is written in `meta` (see copies.ts).
const DATABASE_VERSION = 1;

export async function openDatabase(workshop: string): Promise<Database> {
  return openDB<Tables>(`bucktail-${workshop}`, DATABASE_VERSION, {
    upgrade(db) {
      db.createObjectStore('outbox', { keyPath: 'seq' });
      db.createObjectStore('sent', { keyPath: 'seq' });
      db.createObjectStore('photos', { keyPath: 'digest' });
      db.createObjectStore('meta');
      db.createObjectStore('cards', { keyPath: 'id' });
      db.createObjectStore('rows', { keyPath: 'id' });
      db.createObjectStore('incoming', { keyPath: 'id' });
    },
  });
}

// The phone is full. What was written before stands; this was not kept.
export class NoRoom extends Error {}

// Does some work in a transaction and waits for its end: all of it is kept, or nothing.
export async function wholly<T>(
  transaction: { abort(): void; done: Promise<void>; error: DOMException | null },
  work: () => Promise<T>,
  ifFull = 'This phone is full. Make room on it, then record this again.',
): Promise<T> {
  try {
    const result = await work();
    await transaction.done;
    return result;
  } catch (problem) {
    try {
      transaction.abort();
    } catch {
      // it has ended by itself
    }
    await transaction.done.catch(() => undefined);
    const names = [(problem as DOMException).name, transaction.error?.name];
    if (names.includes('QuotaExceededError')) throw new NoRoom(ifFull);
    throw problem;
  }
}
