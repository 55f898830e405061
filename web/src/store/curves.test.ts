import 'fake-indexeddb/auto';
import { expect, test, vi } from 'vitest';
import { type CurvePage, isCurves, KeptCurves, type Measured } from './curves.ts';
import { newId } from './ids.ts';
import { leftBehind } from './leftover.ts';
import type { Row } from './rows.ts';

const PIECE = [0, 100, 90, 0, 0, 200, 80, 5, 5];
const told = { v: 1, area_um2: 9, any: [PIECE], along: [PIECE] };

const page = (last: number, ...events: string[]): CurvePage => ({
  last,
  more: false,
  waiting: 0,
  lines: events.map((event, n) => JSON.stringify({ n, event, curve: told })),
});
const offcut = (event: string, retired = false): Row =>
  ({ sort: 'offcut', retired, fields: { shape_from: event } }) as unknown as Row;
const area = (measured: Measured | undefined): unknown =>
  measured && 'any' in measured ? measured.area_um2 : measured;

test('what was fetched is there again when the app is opened anew', async () => {
  const workshop = newId();
  const first = new KeptCurves(workshop);
  await first.load();
  expect(first.last).toBe(0);
  await first.take(page(7, 'one', 'two'));
  expect(area(first.of('one'))).toBe(9);
  const again = new KeptCurves(workshop);
  await again.load();
  expect([again.last, area(again.of('two')), again.of('three')]).toEqual([7, 9, undefined]);
});

test('packed as ten numbers a piece, the angle at its end too', async () => {
  const curves = new KeptCurves(newId());
  const turning = { ...told, any: [[...PIECE, 12]] };
  const lines = [JSON.stringify({ n: 1, event: 'one', curve: turning })];
  await curves.take({ ...page(1), lines });
  const measured = curves.of('one');
  if (!measured || !('any' in measured)) throw new Error('not measured');
  expect([...measured.any]).toEqual([...PIECE, 12]);
  expect([...measured.along]).toEqual([...PIECE, 0]);
});

test('why one cannot be measured is kept too', async () => {
  const curves = new KeptCurves(newId());
  const curve = { v: 1, why: 'Side 1 crosses side 3.' };
  await curves.take({ ...page(1), lines: [JSON.stringify({ n: 1, event: 'one', curve })] });
  expect(curves.of('one')).toEqual({ why: 'Side 1 crosses side 3.' });
});

test('a line that this version cannot read is passed over, the others are kept', async () => {
  const curves = new KeptCurves(newId());
  const newer = JSON.stringify({ n: 1, event: 'new', curve: { ...told, v: 2 } });
  const lines = ['{"half', newer, 'null', '{}', ...page(1, 'good').lines];
  await curves.take({ ...page(5), lines });
  expect(curves.of('new')).toBeUndefined();
  expect(area(curves.of('good'))).toBe(9);
});

test('what no offcut shows any more is dropped', async () => {
  const workshop = newId();
  const curves = new KeptCurves(workshop);
  await curves.take(page(3, 'shown', 'changed', 'used up'));
  const rows = [offcut('shown'), offcut('used up', true), offcut('new')];
  expect(curves.missing(rows)).toEqual(['new']);
  await curves.drop(rows);
  expect([curves.of('changed'), curves.of('used up')]).toEqual([undefined, undefined]);
  const again = new KeptCurves(workshop);
  await again.load();
  expect(area(again.of('shown'))).toBe(9);
  expect(again.of('changed')).toBeUndefined();
  expect(again.last).toBe(3);
});

test('without a place to keep them the phone still opens', async () => {
  const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
  const open = vi.spyOn(indexedDB, 'open').mockImplementation(() => {
    throw new Error('no');
  });
  const curves = new KeptCurves(newId());
  await curves.load();
  expect(curves.of('one')).toBeUndefined();
  open.mockRestore();
  expect(told).toHaveBeenCalled();
  told.mockRestore();
});

test('they are not taken for a workshop that was left behind', async () => {
  await new KeptCurves(newId()).take(page(1, 'one'));
  expect(isCurves('curves-x')).toBe(true);
  expect(isCurves(newId())).toBe(false);
  expect(await leftBehind(newId())).toEqual([]);
});
