import 'fake-indexeddb/auto';
import { describe, expect, test, vi } from 'vitest';
import { type Identity, type Kept, openDatabase } from '../store/database.ts';
import { newId } from '../store/ids.ts';
import type { Draft } from '../store/outbox.ts';
import { Phone } from '../store/phone.ts';
import { canonical, type Fact } from '../twins/facts.ts';
import { exchange } from './exchange.ts';
import { PlayedWorkshop } from './played.test.support.ts';
import { OutOfReach, Refused } from './wire.ts';

vi.setConfig({ testTimeout: 60_000 }); // a busy machine is no fault

const WORKSHOP = newId();
let number = 0;

async function newPhone(): Promise<Phone> {
  number += 1;
  // every phone of a test is another browser: a database of its own
  const identity: Identity = {
    workshop: `${WORKSHOP}-${number}`,
    device: newId(),
    person: newId(),
    name: 'w',
    unit: 'in',
  };
  return Phone.create(identity);
}
const part = (name: string, subject = newId()): Draft => ({
  kind: 'part.added.v1',
  subject,
  body: { name },
});
const upTo = (n: number): number[] => Array.from({ length: n }, (_, at) => at + 1);
const meet = (phone: Phone, workshop: PlayedWorkshop) =>
  exchange(phone, workshop, () => workshop.clock);
const names = (phone: Phone): string[] => [...phone.rows.values()].map(({ name }) => name).sort();
const texts = (all: Kept[]): string[] => all.map((one) => one.text);

describe('sending', () => {
  test('what one phone records another fetches, and nothing stays unsent', async () => {
    const [workshop, one, two] = [new PlayedWorkshop(), await newPhone(), await newPhone()];
    await one.record([part('Rib 4')]);
    expect(await meet(one, workshop)).toMatchObject({ sent: 1, fetched: 1, aside: [] });
    await meet(two, workshop);
    expect(names(two)).toEqual(['Rib 4']);
    expect(await one.outboxCount()).toBe(0);
    expect(await one.db.getAll('cards')).toEqual(await two.db.getAll('cards'));
  });

  test('bytes go out as they were kept, and stay so in what was sent', async () => {
    const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
    await phone.record([part('=1+1 "🛩️"\n')]);
    const kept = texts(await phone.db.getAll('outbox'));
    await meet(phone, workshop);
    expect(workshop.pushed).toEqual([kept]);
    expect(texts(await phone.db.getAll('sent'))).toEqual(kept);
  });

  test('a request that is lost is sent again', async () => {
    const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
    await phone.record([part('one')]);
    workshop.trouble = ['request'];
    await expect(meet(phone, workshop)).rejects.toThrow(OutOfReach);
    expect(await phone.outboxCount()).toBe(1);
    await meet(phone, workshop);
    expect(workshop.events.length).toBe(1);
  });

  test('an answer that is lost costs nothing: the second time all is known', async () => {
    const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
    await phone.record([part('one'), part('two')]);
    workshop.trouble = ['answer'];
    await expect(meet(phone, workshop)).rejects.toThrow(OutOfReach);
    expect(await phone.outboxCount()).toBe(2);
    // the phone is shut off in between
    const again = (await Phone.open(phone.identity.workshop)) as Phone;
    await meet(again, workshop);
    expect(workshop.pushed.length).toBe(2);
    expect(workshop.pushed[1]).toEqual(workshop.pushed[0]);
    expect(workshop.events.length).toBe(2);
    expect(await again.outboxCount()).toBe(0);
    expect((await again.db.getAll('sent')).map((one) => one.position)).toEqual([1, 2]);
    expect(names(again)).toEqual(['one', 'two']);
  });

  test('shut off between the answer and the fetching, the phone still shows what it sent', async () => {
    const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
    await phone.record([part('one')]);
    workshop.trouble = ['pull'];
    await expect(meet(phone, workshop)).rejects.toThrow(OutOfReach);
    expect(await phone.outboxCount()).toBe(0);
    const again = (await Phone.open(phone.identity.workshop)) as Phone;
    expect(names(again)).toEqual(['one']);
    await meet(again, workshop);
    expect(names(again)).toEqual(['one']);
  });

  test('what is recorded together is never split between two requests', async () => {
    const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
    for (const n of upTo(195)) await phone.record([part(`single ${n}`)]);
    await phone.record(upTo(12).map((n) => part(`of twelve ${n}`)));
    await phone.record(upTo(450).map((n) => part(`of many ${n}`)));
    await phone.record(upTo(3).map((n) => part(`of three ${n}`)));
    await meet(phone, workshop);
    expect(workshop.pushed.map((texts) => texts.length)).toEqual([207, 450, 3]);
    for (const texts of workshop.pushed) {
      const groups = texts.map((text) => JSON.parse(text).group).filter(Boolean);
      for (const other of workshop.pushed.filter((one) => one !== texts))
        for (const text of other) expect(groups).not.toContain(JSON.parse(text).group);
    }
    expect(workshop.events.map(({ fact }) => fact.seq)).toEqual(upTo(660));
  });

  test('requests stay small where entries are long', async () => {
    const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
    const note = 'x'.repeat(1_500_000);
    for (const n of upTo(4))
      await phone.record([{ ...part(`p${n}`), body: { name: `p${n}`, note } }]);
    await meet(phone, workshop);
    expect(workshop.pushed.map((texts) => texts.length)).toEqual([2, 2]);
  });

  test('what is set aside never blocks what follows, and is told once', async () => {
    const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
    workshop.refused.add('part.split.v1');
    const subject = newId();
    await phone.record([part('bag', subject)]);
    await phone.record([{ kind: 'part.split.v1', subject, body: { into: [] } }]);
    await phone.record([part('next')]);
    const done = await meet(phone, workshop);
    expect(done.aside).toEqual(['not today']);
    expect(names(phone)).toEqual(['bag', 'next']);
    expect((await meet(phone, workshop)).aside).toEqual([]);
    const aside = (await phone.db.getAll('sent')).filter((one) => one.aside !== null);
    expect(aside.map((one) => [one.seq, one.aside])).toEqual([[2, 'not today']]);
  });

  test('an answer for something else settles nothing', async () => {
    const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
    await phone.record([part('one')]);
    const honest = workshop.push.bind(workshop);
    workshop.push = async (...given) =>
      (await honest(...given)).map((one) => ({ ...one, id: newId() }));
    await expect(meet(phone, workshop)).rejects.toThrow('something else');
    workshop.push = async () => [];
    await expect(meet(phone, workshop)).rejects.toThrow('something else');
    expect(await phone.outboxCount()).toBe(1);
  });

  test('what another tab records goes out with the next exchange, in order', async () => {
    const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
    const tab = (await Phone.open(phone.identity.workshop)) as Phone;
    await phone.record([part('one')]);
    await tab.record([part('two')]);
    await phone.record([part('three')]);
    await meet(tab, workshop);
    expect(workshop.events.map(({ fact }) => fact.body?.name)).toEqual(['one', 'two', 'three']);
    await phone.load(); // the tabs tell each other
    expect(names(phone)).toEqual(['one', 'three', 'two']);
    expect(await phone.outboxCount()).toBe(0);
  });

  test('a device counts on where its browser has forgotten how far it was', async () => {
    const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
    const honest = workshop.pull.bind(workshop);
    workshop.pull = async (from) => ({ ...(await honest(from)), seq: 41 });
    await meet(phone, workshop);
    expect((await phone.record([part('one')])).map((one) => one.seq)).toEqual([42]);
  });
});

describe('fetching', () => {
  test('goes on page by page, and after a break where it was', async () => {
    const [workshop, one, two] = [new PlayedWorkshop(), await newPhone(), await newPhone()];
    for (const n of upTo(23)) await one.record([part(`p${n}`)]);
    await meet(one, workshop);
    workshop.pageSize = 5;
    let pages = 0;
    workshop.afterPull = () => {
      pages += 1;
      if (pages === 2) workshop.trouble = ['pull'];
    };
    await expect(meet(two, workshop)).rejects.toThrow(OutOfReach);
    expect(two.rows.size).toBe(10);
    await meet(two, workshop);
    expect(names(two)).toEqual(names(one));
    expect(await two.head()).toEqual({ position: 23, chain: workshop.chainAt(23) });
  });

  test('an entry made while the answer was on its way is not lost from sight', async () => {
    const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
    const subject = newId();
    await phone.record([part('Rib', subject)]);
    workshop.afterPull = async () => {
      workshop.afterPull = () => undefined;
      await phone.record([{ kind: 'part.described.v1', subject, body: { name: 'Rib 4' } }]);
    };
    await meet(phone, workshop);
    expect(names(phone)).toEqual(['Rib 4']);
    await meet(phone, workshop);
    expect(names(phone)).toEqual(['Rib 4']);
  });

  test('nothing is shown twice however recording, sending and loading meet', async () => {
    const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
    const subject = newId();
    await phone.record([part('Skin', subject)]);
    const body = { op: 'countersink', result: 'all', done: null, of: 20 };
    const work = upTo(6).map(() => phone.record([{ kind: 'step.recorded.v1', subject, body }]));
    await Promise.all([...work, phone.load(), meet(phone, workshop), phone.load(), phone.load()]);
    const card = await phone.card(subject);
    const ids = card?.facts.map((fact) => fact.id) ?? [];
    expect(ids.length).toBe(7);
    expect(new Set(ids).size).toBe(7);
    expect(card?.state.marks?.countersink).toMatchObject({ is: 'done', doubt: false });
  });
});

describe('a record that was restored from an archive', () => {
  async function restored() {
    const [workshop, phone, other] = [new PlayedWorkshop(), await newPhone(), await newPhone()];
    for (const n of upTo(6)) await phone.record([part(`p${n}`)]);
    await meet(phone, workshop);
    await other.record([part('of the other')]);
    await meet(other, workshop);
    await meet(phone, workshop);
    workshop.restore(4);
    return { workshop, phone, other };
  }

  test('gets back what it lost, in the order it was written', async () => {
    const { workshop, phone, other } = await restored();
    await phone.record([part('since')]);
    await meet(phone, workshop);
    expect(workshop.events.map(({ fact }) => fact.seq)).toEqual(upTo(7));
    await meet(other, workshop);
    await meet(phone, workshop);
    const all = ['of the other', 'p1', 'p2', 'p3', 'p4', 'p5', 'p6', 'since'];
    expect(names(phone)).toEqual(all);
    expect(names(other)).toEqual(all);
    expect(await phone.outboxCount()).toBe(0);
  });

  test('takes nothing up before what came first, not even the newest', async () => {
    const { workshop, phone } = await restored();
    await phone.record([part('since')]);
    const first = workshop.pushed.length;
    await meet(phone, workshop);
    // the push of the newest alone was refused; then all went out together
    expect(workshop.pushed.slice(first).map((texts) => texts.length)).toEqual([7]);
  });

  test('the old copies are shown until the fresh one is whole', async () => {
    const { workshop, phone } = await restored();
    workshop.pageSize = 2;
    let pages = 0;
    workshop.afterPull = () => {
      pages += 1;
      if (pages === 2) workshop.trouble = ['pull'];
    };
    await expect(meet(phone, workshop)).rejects.toThrow(OutOfReach);
    const old = ['of the other', 'p1', 'p2', 'p3', 'p4', 'p5', 'p6'];
    expect(names(phone)).toEqual(old);
    const again = (await Phone.open(phone.identity.workshop)) as Phone;
    expect(names(again)).toEqual(old);
    await meet(again, workshop);
    expect(names(again)).toEqual(['p1', 'p2', 'p3', 'p4', 'p5', 'p6']);
    expect(await again.db.count('incoming')).toBe(0);
  });

  test('what was set aside is not sent again', async () => {
    const { workshop, phone } = await restored();
    workshop.refused.add('part.split.v1');
    await phone.record([{ kind: 'part.split.v1', subject: newId(), body: { into: [] } }]);
    await meet(phone, workshop);
    const first = workshop.pushed.length;
    workshop.restore(2);
    await meet(phone, workshop);
    const kinds = workshop.pushed.slice(first).flat();
    expect(kinds.map((text) => JSON.parse(text).kind)).not.toContain('part.split.v1');
  });

  test('that is restored again at once is told, not tried for ever', async () => {
    const { workshop, phone } = await restored();
    workshop.pull = async () => {
      throw new Refused(409, 'restored', 'again');
    };
    await expect(meet(phone, workshop)).rejects.toThrow('again');
    expect(await (await openDatabase(phone.identity.workshop)).count('outbox')).toBe(0);
  });
});

// What the phone shows of what it has not sent is what the workshop's computer makes of it, as
// long as nobody else wrote in between.
describe('what a phone shows before it has sent', () => {
  const kinds = 'step step step step metal steps described moved withdrawn'.split(' ');

  function draft(draw: (n: number) => number, subject: string, known: Fact[]): Draft {
    const one = <T>(list: T[]): T => list[draw(list.length)] as T;
    const kind = one(kinds);
    if (kind === 'metal') {
      const body = { change: one(['holes added', 'holes enlarged', 'trimmed']), holes: 4 };
      return { kind: 'metal.changed.v1', subject, body };
    }
    if (kind === 'steps') {
      const ops = { deburr: 'do', countersink: 'do', prime: one(['do', 'bare']) };
      const holes = { count: one([20, 24]), supplied: 'final' };
      return { kind: 'steps.set.v1', subject, body: { ops, holes, window_h: 1 } };
    }
    if (kind === 'described')
      return { kind: 'part.described.v1', subject, body: { name: one(['a', 'b']) } };
    if (kind === 'moved')
      return { kind: 'thing.moved.v1', subject, body: { to: one([newId(), null]) } };
    if (kind === 'withdrawn' && known.length > 1)
      return { kind: 'event.withdrawn.v1', subject, body: { event: one(known.slice(1)).id } };
    const op = one(['deburr', 'countersink', 'clean', 'prime', 'rivet']);
    const body = { op, result: one(['all', 'some', 'none']), done: one([null, 10]), of: null };
    return { kind: 'step.recorded.v1', subject, body };
  }

  test.each(upTo(40))('history %i', async (seed) => {
    let state = seed;
    const draw = (n: number): number => {
      state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
      return Math.floor((state / 2_147_483_648) * n);
    };
    const workshop = new PlayedWorkshop();
    const phones = [await newPhone(), await newPhone()];
    const subjects = [newId(), newId()];
    const clocks = [0, draw(3) * 5_000_000 - 5_000_000]; // how wrong each phone's clock is
    const talk = (at: number) =>
      exchange(phones[at] as Phone, workshop, () => workshop.clock + (clocks[at] ?? 0));
    const now = Date.now;
    try {
      for (let turn = 0; turn < 30; turn += 1) {
        const at = draw(2);
        const phone = phones[at] as Phone;
        workshop.clock += draw(3) * 1000;
        if (draw(20) === 0) clocks[at] = (clocks[at] ?? 0) - 3_000; // set by hand
        Date.now = () => workshop.clock + (clocks[at] ?? 0);
        const subject = subjects[draw(2)] as string;
        const known = (await phone.card(subject))?.facts ?? [];
        const first = known.length === 0;
        await phone.record([first ? part('first', subject) : draft(draw, subject, known)]);
        if (draw(3) > 0) continue;
        // fetch first, so that nothing intervenes between what is shown and what is sent
        const page = await workshop.pull(phone.from);
        await phone.takePage(page, page.now - Date.now(), phone.from);
        const shown = await Promise.all(subjects.map((id) => phone.card(id)));
        await talk(at);
        for (const [i, id] of subjects.entries()) {
          const card = shown[i];
          if (!card) continue;
          expect(canonical(card.state)).toBe(canonical(JSON.parse(workshop.card(id)).state));
          expect(await phone.card(id)).toEqual(JSON.parse(workshop.card(id)));
        }
      }
    } finally {
      Date.now = now;
    }
  });
});
