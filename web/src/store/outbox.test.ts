import 'fake-indexeddb/auto';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { type Identity, NoRoom, openDatabase } from './database.ts';
import { newId } from './ids.ts';
import type { Draft } from './outbox.ts';
import { Phone } from './phone.ts';

function identity(): Identity {
  const [workshop, device, person] = [newId(), newId(), newId()];
  return { workshop, device, person, name: 'w', unit: 'in' };
}
const part = (name: string, subject = newId()): Draft => ({
  kind: 'part.added.v1',
  subject,
  body: { name },
});
const seqs = async (phone: Phone): Promise<number[]> =>
  (await phone.db.getAll('outbox')).map((one) => one.seq);
const upTo = (n: number): number[] => Array.from({ length: n }, (_, at) => at + 1);

afterEach(() => void vi.restoreAllMocks());

describe('numbers', () => {
  test('follow each other without a gap, whoever records at the same time', async () => {
    const one = await Phone.create(identity());
    const two = (await Phone.open(one.identity.workshop)) as Phone;
    await Promise.all(
      upTo(30).map((n) => (n % 2 ? one : two).record([part(`a${n}`), part(`b${n}`)])),
    );
    expect(await seqs(one)).toEqual(upTo(60));
    const events = (await one.db.getAll('outbox')).map((kept) => JSON.parse(kept.text));
    expect(events.map((event) => event.seq)).toEqual(upTo(60));
    // what was recorded together got numbers that follow each other
    for (let at = 0; at < 60; at += 2) expect(events[at].group).toBe(events[at + 1].group);
    expect(new Set(events.map((event) => event.group)).size).toBe(30);
    expect(new Set(events.map((event) => event.id)).size).toBe(60);
  });

  test('go on after a restart, also when everything was sent', async () => {
    const phone = await Phone.create(identity());
    const [kept] = await phone.record([part('first')]);
    if (kept) await phone.settle([{ ...kept, position: 1, aside: null, at: 0 }]);
    const again = (await Phone.open(phone.identity.workshop)) as Phone;
    await again.record([part('second')]);
    expect(await seqs(again)).toEqual([2]);
  });
});

describe('durable', () => {
  test('every transaction on what exists nowhere else is strict', async () => {
    const asked = vi.spyOn(IDBDatabase.prototype, 'transaction');
    const phone = await Phone.create(identity());
    const photo = { digest: 'a', bytes: new Blob(['a']), sent: false, at: 1 };
    const kept = await phone.record([part('one'), part('two')], [photo]);
    await phone.settle(kept.map((one, at) => ({ ...one, position: at + 1, aside: null, at: 0 })));
    await phone.photos.sent('a');
    await phone.startOver();
    await phone.agree('new name', 'mm');
    const writing = asked.mock.calls.filter(([, mode]) => mode === 'readwrite');
    expect(writing.length).toBeGreaterThan(5);
    for (const [stores, , options] of writing)
      expect(options?.durability, String(stores)).toBe('strict');
    const outbox = writing.filter(([stores]) => [stores].flat().includes('outbox'));
    expect(outbox.length).toBeGreaterThanOrEqual(3);
  });

  test('an entry is on the disk when record resolves, and its row is shown', async () => {
    const phone = await Phone.create(identity());
    const draft = part('Rib 4');
    const [kept] = await phone.record([draft]);
    const other = await openDatabase(phone.identity.workshop);
    expect(await other.get('outbox', 1)).toEqual(kept);
    expect(phone.rows.get(draft.subject)?.name).toBe('Rib 4');
  });

  test('record does not resolve before its transaction has ended', async () => {
    const phone = await Phone.create(identity());
    const ended: string[] = [];
    const real = IDBDatabase.prototype.transaction;
    vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (
      this: IDBDatabase,
      ...given
    ) {
      const transaction = real.apply(this, given);
      if (given[1] === 'readwrite')
        transaction.addEventListener('complete', () => ended.push('transaction'));
      return transaction;
    });
    await phone.record([part('one')]).then(() => ended.push('record'));
    expect(ended).toEqual(['transaction', 'record']);
  });
});

describe('a phone that is full', () => {
  // the nth entry written from now on does not fit
  function fullAt(nth: number, method: 'add' | 'put' = 'add'): void {
    const real = IDBObjectStore.prototype[method];
    let written = 0;
    vi.spyOn(IDBObjectStore.prototype, method).mockImplementation(function (
      this: IDBObjectStore,
      ...given
    ) {
      written += 1;
      if (written === nth) throw new DOMException('full', 'QuotaExceededError');
      return real.apply(this, given);
    });
  }

  test.each([
    ['the first entry', 1, 'add'],
    ['the second entry', 2, 'add'],
    ['the photo', 1, 'put'],
    ['the number', 2, 'put'],
  ] as const)('keeps all or nothing where %s does not fit', async (_, nth, method) => {
    const phone = await Phone.create(identity());
    await phone.record([part('before')]);
    fullAt(nth, method);
    const photo = { digest: 'a', bytes: new Blob(['a']), sent: false, at: 1 };
    const failed = phone.record([part('one'), part('two')], [photo]);
    await expect(failed).rejects.toThrow(NoRoom);
    await expect(failed).rejects.toThrow('Make room');
    vi.restoreAllMocks();
    expect(await seqs(phone)).toEqual([1]);
    expect(await phone.db.count('photos')).toBe(0);
    expect(phone.rows.size).toBe(1);
    await phone.record([part('after')]);
    expect(await seqs(phone)).toEqual([1, 2]);
  });
});

describe('what cannot be recorded', () => {
  test('leaves nothing behind and nothing blocked', async () => {
    const phone = await Phone.create(identity());
    const bad: Draft = { kind: 'step.recorded.v1', subject: newId(), body: { done: 1.5 } };
    await expect(phone.record([part('one'), bad])).rejects.toThrow('whole numbers');
    expect(await seqs(phone)).toEqual([]);
    await phone.record([part('two')]);
    expect(await seqs(phone)).toEqual([1]);
  });

  test('more at once than one request carries is refused', async () => {
    const phone = await Phone.create(identity());
    const many = Array.from({ length: 501 }, (_, at) => part(`p${at}`));
    await expect(phone.record(many)).rejects.toThrow('At most 500');
    expect(await phone.outboxCount()).toBe(0);
  });

  test('a fault in showing an entry does not make it look as if it were not kept', async () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const phone = await Phone.create(identity());
    // a line without its line: the fold of such a thing fails
    const odd: Draft = { kind: 'line.set.v1', subject: newId(), body: { layers: 7 } };
    await expect(phone.record([odd])).resolves.toHaveLength(1);
    expect(told).toHaveBeenCalled();
    const next = part('next');
    await phone.record([next]);
    expect(await seqs(phone)).toEqual([1, 2]);
    expect(phone.rows.get(next.subject)?.name).toBe('next');
    const again = await Phone.open(phone.identity.workshop);
    expect(again?.rows.get(next.subject)?.name).toBe('next');
  });
});

test('an event is written as the record wants it', async () => {
  const phone = await Phone.create(identity());
  const subject = newId();
  await phone.record([{ ...part('Rib "4" 🛩️', subject), via: 'ABCDEFGH12' }]);
  const [kept] = await phone.db.getAll('outbox');
  const event = JSON.parse(kept?.text ?? '');
  expect(Object.keys(event)).toEqual(
    'at base body by device group id kind seq subject tz via workshop'.split(' '),
  );
  expect(event).toMatchObject({
    base: { chain: '', position: 0 },
    body: { name: 'Rib "4" 🛩️' },
    device: phone.identity.device,
    group: null,
    seq: 1,
    subject,
    via: 'ABCDEFGH12',
  });
  expect(event.id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-/);
});
