import 'fake-indexeddb/auto';
import { expect, test, vi } from 'vitest';
import { newId } from '../store/ids.ts';
import type { Draft } from '../store/outbox.ts';
import { Phone } from '../store/phone.ts';
import { type Exchanged, exchange } from './exchange.ts';
import { PlayedWorkshop } from './played.test.support.ts';
import { OutOfReach } from './wire.ts';

vi.setConfig({ testTimeout: 60_000 }); // a busy machine is no fault

const newPhone = (): Promise<Phone> =>
  Phone.create({ workshop: newId(), device: newId(), person: newId(), name: 'w', unit: 'in' });
const meet = (phone: Phone, workshop: PlayedWorkshop): Promise<Exchanged> =>
  exchange(phone, workshop, () => workshop.clock);

const PIECE = [0, 100, 90, 0, 0, 200, 80, 5, 5];
const curve = { v: 1, area_um2: 9, any: [PIECE], along: [PIECE] };
const outline = {
  kind: 'outline',
  outer: [
    [0, 0],
    [9_000_000, 0],
    [0, 9_000_000],
  ],
  holes: [],
  entered: { way: 'triangle', texts: {} },
};
const odd = (subject = newId()): Draft => ({
  kind: 'offcut.added.v1',
  subject,
  body: { clad: 'bare', shape: outline } as never,
});

async function enter(phone: Phone, many = 1): Promise<string[]> {
  const kept = await phone.record(Array.from({ length: many }, () => odd()));
  return kept.map(({ id }) => id);
}
/** The workshop's computer has measured what it held back. */
function measure(workshop: PlayedWorkshop, ...events: string[]): void {
  for (const event of events) {
    workshop.measured.push({ n: (workshop.measured.at(-1)?.n ?? 0) + 1, event, curve });
  }
  workshop.toMeasure = 0;
}
const known = (phone: Phone, events: string[]): boolean[] =>
  events.map((event) => phone.curves.of(event) !== undefined);

test('what is measured after the outline was sent comes with a later exchange', async () => {
  const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
  const events = await enter(phone, 2);
  workshop.toMeasure = 2;
  expect(await meet(phone, workshop)).toMatchObject({ toMeasure: 2, measured: false });
  expect(known(phone, events)).toEqual([false, false]);
  measure(workshop, ...events);
  expect(await meet(phone, workshop)).toMatchObject({ toMeasure: 0, measured: true });
  expect(known(phone, events)).toEqual([true, true]);
  const asked = workshop.asked.length;
  await meet(phone, workshop); // nothing is new: nothing is asked
  expect(workshop.asked.length).toBe(asked);
});

test('page by page, and after a break where it was', async () => {
  const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
  const events = await enter(phone, 5);
  workshop.pageSize = 2;
  await meet(phone, workshop);
  measure(workshop, ...events);
  const honest = workshop.curves.bind(workshop);
  workshop.curves = async (after) => {
    if (after === 2) throw new OutOfReach('lost on the way');
    return honest(after);
  };
  await expect(meet(phone, workshop)).rejects.toThrow(OutOfReach);
  expect(known(phone, events)).toEqual([true, true, false, false, false]);
  workshop.curves = honest;
  workshop.asked = [];
  await meet(phone, workshop);
  expect(workshop.asked).toEqual([2, 4]);
  expect(known(phone, events)).toEqual([true, true, true, true, true]);
});

test('an outline that is changed asks for another curve, and lets go of the first', async () => {
  const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
  const subject = newId();
  const [first] = await phone.record([odd(subject)]);
  await meet(phone, workshop);
  measure(workshop, first?.id ?? '');
  await meet(phone, workshop);
  const body = { shape: { ...outline, entered: { way: 'walked', texts: {} } } };
  const [second] = await phone.record([
    { kind: 'offcut.described.v1', subject, body: body as never },
  ]);
  await meet(phone, workshop);
  measure(workshop, second?.id ?? '');
  await meet(phone, workshop);
  expect(known(phone, [first?.id ?? '', second?.id ?? ''])).toEqual([false, true]);
});

test('one that was dropped and is shown again is fetched again, once', async () => {
  const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
  const events = await enter(phone, 2);
  await meet(phone, workshop);
  measure(workshop, ...events);
  await meet(phone, workshop);
  await phone.curves.drop([]); // nothing was shown any more
  workshop.asked = [];
  await meet(phone, workshop);
  expect(known(phone, events)).toEqual([true, true]);
  expect(workshop.asked).toEqual([2, 0]);
});

test('what is nowhere to be had is looked for from the start only once', async () => {
  const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
  const events = await enter(phone, 2);
  workshop.toMeasure = 2;
  await meet(phone, workshop);
  measure(workshop, events[0] ?? '');
  workshop.asked = [];
  for (let n = 0; n < 3; n += 1) await meet(phone, workshop);
  expect(workshop.asked).toEqual([0, 0, 1, 1]);
  expect(known(phone, events)).toEqual([true, false]);
});

test('a record that was restored counts from an earlier number', async () => {
  const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
  const events = await enter(phone, 3);
  await meet(phone, workshop);
  measure(workshop, ...events);
  await meet(phone, workshop);
  expect(phone.curves.last).toBe(3);
  workshop.measured.splice(1);
  await meet(phone, workshop);
  expect(phone.curves.last).toBe(1);
  const later = await enter(phone);
  await meet(phone, workshop);
  measure(workshop, ...later);
  await meet(phone, workshop);
  expect(known(phone, [...events, ...later])).toEqual([true, true, true, true]);
});

test('a phone that cannot keep them exchanges all the rest', async () => {
  const [workshop, phone] = [new PlayedWorkshop(), await newPhone()];
  const events = await enter(phone);
  await meet(phone, workshop);
  measure(workshop, ...events);
  const said = vi.spyOn(console, 'error').mockImplementation(() => undefined);
  vi.spyOn(phone.curves, 'take').mockRejectedValue(new Error('full'));
  await enter(phone);
  expect(await meet(phone, workshop)).toMatchObject({ sent: 1 });
  expect(said).toHaveBeenCalled();
  said.mockRestore();
});
