import 'fake-indexeddb/auto';
import { expect, test } from 'vitest';
import { type Identity, openDatabase } from './database.ts';
import { newId } from './ids.ts';
import { Phone } from './phone.ts';
import { KeptPhotos } from './photos.ts';

const photo = (digest: string, at: number) => ({
  digest,
  bytes: new Blob([digest]),
  sent: false,
  at,
});

async function newPhone(): Promise<Phone> {
  const [workshop, device, person] = [newId(), newId(), newId()];
  const identity: Identity = { workshop, device, person, name: 'w', unit: 'in' };
  return Phone.create(identity);
}

const attached = (digest: string) => ({
  kind: 'photo.attached.v1',
  subject: newId(),
  body: { photo: digest, size: 1 },
});

test('a photo is to be sent from the moment it is recorded, also after a restart', async () => {
  const phone = await newPhone();
  await phone.record([attached('a')], [photo('a', 1)]);
  expect(phone.photos.toSend()).toEqual(['a']);
  const again = await Phone.open(phone.identity.workshop);
  expect(again?.photos.toSend()).toEqual(['a']);
  await again?.photos.sent('a');
  const later = await Phone.open(phone.identity.workshop);
  expect(later?.photos.toSend()).toEqual([]);
  expect(await (await later?.photos.bytes('a'))?.text()).toBe('a');
});

test('only sent photos give way, the oldest first', async () => {
  const db = await openDatabase(newId());
  for (const [digest, at] of [
    ['new', 9],
    ['old', 1],
    ['mid', 5],
    ['kept', 0],
  ] as const)
    await db.put('photos', photo(digest, at));
  const shelf = new KeptPhotos(db, 2);
  await shelf.load();
  for (const digest of ['new', 'old', 'mid']) await shelf.sent(digest);
  expect((await db.getAllKeys('photos')).sort()).toEqual(['kept', 'mid', 'new']);
  expect(shelf.toSend()).toEqual(['kept']);
});

test('a photo that the computer lost is to be sent again, one that is not here is not', async () => {
  const db = await openDatabase(newId());
  await db.put('photos', { ...photo('a', 1), sent: true });
  const shelf = new KeptPhotos(db);
  await shelf.load();
  await shelf.missed('a');
  await shelf.missed('b');
  expect(shelf.toSend()).toEqual(['a']);
});
