// What an update of the app leaves alone: a phone opened by the next build, and by the one before.
import 'fake-indexeddb/auto';
import { describe, expect, test, vi } from 'vitest';
import { exchange } from '../sync/exchange.ts';
import { PlayedWorkshop } from '../sync/played.test.support.ts';
import { OutOfReach } from '../sync/wire.ts';
import { COPIES_VERSION } from './copies.ts';
import type { Identity } from './database.ts';
import { newId } from './ids.ts';
import type { Draft } from './outbox.ts';
import { Phone } from './phone.ts';

vi.setConfig({ testTimeout: 60_000 }); // a busy machine is no fault

const NEXT = COPIES_VERSION + 1;
const KEPT = ['outbox', 'sent', 'photos'] as const;
const upTo = (n: number): number[] => Array.from({ length: n }, (_, at) => at + 1);
const part = (name: string, subject = newId()): Draft => ({
  kind: 'part.added.v1',
  subject,
  body: { name },
});
const meet = (phone: Phone, workshop: PlayedWorkshop) =>
  exchange(phone, workshop, () => workshop.clock);
const open = async (phone: Phone, version: number): Promise<Phone> => {
  phone.db.close();
  return (await Phone.open(phone.identity.workshop, version)) as Phone;
};
const names = (phone: Phone): string[] => [...phone.rows.values()].map(({ name }) => name).sort();

async function newPhone(): Promise<Phone> {
  const [workshop, device, person] = [newId(), newId(), newId()];
  const identity: Identity = { workshop, device, person, name: 'w', unit: 'in' };
  return Phone.create(identity);
}

// Everything that exists nowhere else, as text.
async function keptText(phone: Phone): Promise<string> {
  const stores = [];
  for (const store of KEPT) {
    const all = await phone.db.getAll(store);
    stores.push(await Promise.all(all.map(async (row) => ({ ...row, bytes: await textOf(row) }))));
  }
  const meta = [];
  for (const key of ['identity', 'seq', 'head', 'sentLast', 'people'])
    meta.push(await phone.db.get('meta', key));
  return JSON.stringify([stores, meta]);
}
const textOf = (row: object): Promise<string> | null =>
  'bytes' in row ? (row.bytes as Blob).text() : null;

// A phone that has sent 6 entries, holds a photo and has 50 entries to send.
async function withFifty(): Promise<{ phone: Phone; workshop: PlayedWorkshop; subject: string }> {
  const [phone, workshop, subject] = [await newPhone(), new PlayedWorkshop(), newId()];
  await phone.record([part('Skin', subject)]);
  for (const n of upTo(5)) await phone.record([part(`p${n}`)]);
  await meet(phone, workshop);
  const photo = { digest: 'a', bytes: new Blob(['jpeg']), sent: false, at: 1 };
  await phone.record(
    [{ kind: 'photo.attached.v1', subject, body: { photo: 'a', size: 4 } }],
    [photo],
  );
  for (const n of upTo(49))
    await phone.record([
      { kind: 'part.described.v1', subject, body: { name: `Skin ${n}`, note: '🛩️' } },
    ]);
  expect(await phone.outboxCount()).toBe(50);
  return { phone, workshop, subject };
}

describe.each([
  ['the next build', COPIES_VERSION, NEXT],
  ['the build before', NEXT, COPIES_VERSION],
])('50 unsent entries opened by %s', (_, first, second) => {
  test('are kept byte for byte, shown, added to, and sent', async () => {
    const made = await withFifty();
    const { workshop, subject } = made;
    const phone = await open(made.phone, first);
    await meet(phone, { ...offline(workshop) }).catch(() => undefined);
    const before = await keptText(phone);
    const seen = names(phone);

    const other = await open(phone, second);
    expect(await keptText(other)).toBe(before);
    expect(names(other)).toEqual(seen);
    expect((await other.card(subject))?.state.name).toBe('Skin 49');
    await other.record([part('made with the other build')]);
    expect(await other.outboxCount()).toBe(51);
    await meet(other, workshop);
    expect(workshop.events.map(({ fact }) => fact.seq)).toEqual(upTo(57));
    expect(await other.outboxCount()).toBe(0);
    expect(names(other)).toContain('made with the other build');

    const back = await open(other, first);
    await meet(back, workshop);
    expect(names(back)).toEqual(names(other));
    expect((await back.db.getAll('sent')).length).toBe(57);
  });
});

// The workshop's computer out of reach.
function offline(workshop: PlayedWorkshop) {
  const gone = async (): Promise<never> => {
    throw new OutOfReach('away');
  };
  return Object.assign(Object.create(workshop), { push: gone, pull: gone });
}

describe('copies of another version', () => {
  async function filled(parts = 7): Promise<{ phone: Phone; workshop: PlayedWorkshop }> {
    const [phone, workshop] = [await newPhone(), new PlayedWorkshop()];
    for (const n of upTo(parts)) await phone.record([part(`p${n}`)]);
    await meet(phone, workshop);
    return { phone, workshop };
  }

  test('stay while the workshop computer is out of reach, however often the app starts', async () => {
    const { phone, workshop } = await filled();
    let next = await open(phone, NEXT);
    const cards = await next.db.getAll('cards');
    for (const _ of upTo(3)) {
      await expect(meet(next, offline(workshop))).rejects.toThrow('away');
      next = await open(next, NEXT);
    }
    expect(await next.db.getAll('cards')).toEqual(cards);
    expect(names(next)).toEqual(upTo(7).map((n) => `p${n}`));
  });

  test('are read through their facts: what another version made of them does not count', async () => {
    const { phone } = await filled(1);
    const [card] = await phone.db.getAll('cards');
    const state = { sort: 'part', name: 'of another shape' };
    if (card)
      await phone.db.put('cards', {
        ...card,
        text: JSON.stringify({ ...JSON.parse(card.text), state }),
      });
    await phone.db.put('rows', { id: card?.id ?? '', nonsense: true });
    const next = await open(phone, NEXT);
    await next.db.delete('meta', 'rowsBy'); // as another build would find it
    await next.load();
    expect(names(next)).toEqual(['p1']);
    expect((await next.card(card?.id ?? ''))?.state.name).toBe('p1');
  });

  test('give way only to a whole fresh copy, which a break does not start over', async () => {
    const { phone, workshop } = await filled();
    const next = await open(phone, NEXT);
    const old = await next.db.getAll('cards');
    workshop.pageSize = 2;
    const asked: number[] = [];
    const honest = workshop.pull.bind(workshop);
    workshop.pull = (from) => {
      asked.push(from.position);
      return honest(from);
    };
    let pages = 0;
    workshop.afterPull = () => {
      pages += 1;
      if (pages === 2) workshop.trouble = ['pull'];
    };
    await expect(meet(next, workshop)).rejects.toThrow('lost on the way');
    expect(await next.db.getAll('cards')).toEqual(old);
    expect(await next.db.count('incoming')).toBe(4);
    expect(await next.head()).toEqual({ position: 7, chain: workshop.chainAt(7) });

    const again = await open(next, NEXT);
    expect(names(again)).toEqual(upTo(7).map((n) => `p${n}`));
    await meet(again, workshop);
    // position 4 was asked for twice, because that request was lost
    expect(asked).toEqual([0, 2, 4, 4, 6]);
    expect(await again.db.count('incoming')).toBe(0);
    expect(names(again)).toEqual(upTo(7).map((n) => `p${n}`));
    await meet(again, workshop);
    expect(asked.at(-1)).toBe(7);
  });

  test('a fresh copy that one build began is not gone on with by another', async () => {
    const { phone, workshop } = await filled();
    const next = await open(phone, NEXT);
    workshop.pageSize = 2;
    workshop.afterPull = () => {
      workshop.afterPull = () => undefined;
      workshop.trouble = ['pull'];
    };
    await expect(meet(next, workshop)).rejects.toThrow('lost on the way');
    expect(await next.db.count('incoming')).toBe(2);
    await next.db.put('incoming', { id: 'left over', text: '{"id":"left over"}' });
    const other = await open(next, NEXT + 1);
    await meet(other, workshop);
    expect(await other.db.count('cards')).toBe(7);
    expect(await other.db.get('cards', 'left over')).toBeUndefined();
  });
});

test('cards that the computer made anew are fetched anew, and none that is gone stays', async () => {
  const [phone, workshop] = [await newPhone(), new PlayedWorkshop()];
  for (const n of upTo(5)) await phone.record([part(`p${n}`)]);
  await meet(phone, workshop);
  await phone.db.put('cards', { id: 'gone', text: '{"id":"gone","facts":[],"state":{}}' });
  await phone.record([part('new')]);
  workshop.edition = 'second';
  workshop.pageSize = 2;
  await meet(phone, workshop);
  expect(await phone.db.count('cards')).toBe(6);
  expect(phone.rows.size).toBe(6);
  expect(await phone.db.getAll('cards')).toEqual(
    workshop
      .subjects()
      .sort()
      .map((id) => ({ id, text: workshop.card(id) })),
  );
});

test('an entry made while a fresh copy is on its way is shown throughout', async () => {
  const [phone, workshop, subject] = [await newPhone(), new PlayedWorkshop(), newId()];
  await phone.record([part('Rib', subject)]);
  for (const n of upTo(5)) await phone.record([part(`p${n}`)]);
  await meet(phone, workshop);
  workshop.edition = 'second';
  workshop.pageSize = 2;
  const shown: unknown[] = [];
  let pages = 0;
  workshop.afterPull = async () => {
    pages += 1;
    if (pages === 2)
      await phone.record([{ kind: 'part.described.v1', subject, body: { name: 'Rib 4' } }]);
    shown.push(phone.rows.get(subject)?.name);
  };
  await meet(phone, workshop);
  expect(shown).toEqual(['Rib', ...Array(shown.length - 1).fill('Rib 4')]);
  expect(phone.rows.get(subject)?.name).toBe('Rib 4');
});

test('a phone too full for a fresh copy keeps and shows the old one', async () => {
  const [phone, workshop] = [await newPhone(), new PlayedWorkshop()];
  for (const n of upTo(3)) await phone.record([part(`p${n}`)]);
  await meet(phone, workshop);
  const old = await phone.db.getAll('cards');
  workshop.edition = 'second';
  const put = IDBObjectStore.prototype.put;
  let written = 0;
  const full = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (
    this: IDBObjectStore,
    ...given
  ) {
    written += this.name === 'cards' ? 1 : 0;
    if (written === 2) throw new DOMException('full', 'QuotaExceededError');
    return put.apply(this, given);
  });
  await expect(meet(phone, workshop)).rejects.toThrow('Make room');
  full.mockRestore();
  expect(await phone.db.getAll('cards')).toEqual(old);
  expect(names(phone)).toEqual(['p1', 'p2', 'p3']);
  await meet(phone, workshop);
  expect(names(phone)).toEqual(['p1', 'p2', 'p3']);
});

// The shape of the database as the first release made it, written out here: it must open for ever.
test('the database of the first release opens, and its number has not risen', async () => {
  const name = newId();
  const [device, person] = [newId(), newId()];
  const [id, subject] = [newId(), newId()];
  const text =
    `{"at":1790000000000,"base":{"chain":"","position":0},"body":{"name":"Rib 4"},"by":"${person}",` +
    `"device":"${device}","group":null,"id":"${id}","kind":"part.added.v1","seq":7,` +
    `"subject":"${subject}","tz":"Europe/Oslo","via":null,"workshop":"${name}"}`;
  await new Promise<void>((done, failed) => {
    const asked = indexedDB.open(`bucktail-${name}`, 1);
    asked.onupgradeneeded = () => {
      const db = asked.result;
      for (const store of ['outbox', 'sent']) db.createObjectStore(store, { keyPath: 'seq' });
      db.createObjectStore('photos', { keyPath: 'digest' });
      const meta = db.createObjectStore('meta');
      for (const store of ['cards', 'rows', 'incoming'])
        db.createObjectStore(store, { keyPath: 'id' });
      meta.put({ workshop: name, device, person, name: 'w', unit: 'in' }, 'identity');
      meta.put(7, 'seq');
      meta.put({ position: 0, chain: '' }, 'head');
    };
    asked.onerror = () => failed(asked.error);
    asked.onsuccess = () => {
      const adding = asked.result.transaction('outbox', 'readwrite');
      adding.objectStore('outbox').add({ seq: 7, id, subject, group: null, text });
      adding.oncomplete = () => {
        asked.result.close();
        done();
      };
    };
  });
  const phone = (await Phone.open(name)) as Phone;
  expect(phone.db.version).toBe(1);
  expect([...phone.db.objectStoreNames]).toEqual(
    'cards incoming meta outbox photos rows sent'.split(' '),
  );
  expect((await phone.nextToSend(9)).map((one) => one.text)).toEqual([text]);
  expect(names(phone)).toEqual(['Rib 4']);
  expect((await phone.record([part('next')])).map((one) => one.seq)).toEqual([8]);
});
