// The phone's database. `outbox`, `sent`, `photos` and `meta` hold what exists nowhere else and
// are never transformed; `cards` and `rows` are copies that can be fetched again.
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
export interface Identity {
  workshop: string;
  device: string;
  person: string;
  name: string;
  unit: 'in' | 'mm';
  device_name?: string;
  person_name?: string;
}

export interface Tables extends DBSchema {
  outbox: { key: number; value: Kept };
  sent: { key: number; value: Sent };
  photos: { key: string; value: KeptPhoto };
  meta: { key: string; value: unknown };
  cards: { key: string; value: StoredCard };
  rows: { key: string; value: { id: string; [field: string]: unknown } };
}
export type Database = IDBPDatabase<Tables>;
export const STRICT = { durability: 'strict' } as const;

// Raise this when the shape of `cards` or `rows` changes: they are dropped and fetched again.
const DERIVED_VERSION = 1;

export async function openDatabase(workshop: string): Promise<Database> {
  return openDB<Tables>(`bucktail-${workshop}`, DERIVED_VERSION, {
    upgrade(db) {
      const have = db.objectStoreNames;
      if (!have.contains('outbox')) db.createObjectStore('outbox', { keyPath: 'seq' });
      if (!have.contains('sent')) db.createObjectStore('sent', { keyPath: 'seq' });
      if (!have.contains('photos')) db.createObjectStore('photos', { keyPath: 'digest' });
      if (!have.contains('meta')) db.createObjectStore('meta');
      if (!have.contains('cards')) db.createObjectStore('cards', { keyPath: 'id' });
      if (!have.contains('rows')) db.createObjectStore('rows', { keyPath: 'id' });
    },
    // an older page still open must let a newer one go ahead
    blocking(_now, _next, event) {
      (event.target as IDBDatabase).close();
    },
  });
}
