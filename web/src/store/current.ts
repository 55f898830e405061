// Which workshop this browser belongs to, and its own device number. Kept in IndexedDB with
// strict durability: Chromium writes localStorage late, and a browser killed soon after pairing
// came back unpaired.
import { openDB } from 'idb';
import { STRICT } from './database.ts';

async function open() {
  return openDB<{ keep: { key: string; value: string } }>('bucktail', 1, {
    upgrade: (db) => void db.createObjectStore('keep'),
  });
}

export async function remembered(name: 'workshop' | 'device'): Promise<string | undefined> {
  const db = await open();
  const value = await db.get('keep', name);
  db.close();
  return value;
}

export async function remember(name: 'workshop' | 'device', value: string): Promise<void> {
  const db = await open();
  const transaction = db.transaction('keep', 'readwrite', STRICT);
  await transaction.store.put(value, name);
  await transaction.done;
  db.close();
}
