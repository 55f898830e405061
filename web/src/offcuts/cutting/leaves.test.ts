import { describe, expect, test } from 'vitest';
import { chose, firstChoice, readRemnant } from './choosing.ts';
import { length, shapeOf, sizeWords, waysToCut } from './leaves.ts';
import { doubledAreaOf, type Region, sheetOf, um2 } from './rings.ts';

const IN = 25_400_000;
const MM = 1_000_000;
const UM2_PER_SQ_IN = 645_160_000;
const corner: Region = {
  outer: [
    [0, 0],
    [12 * IN, 0],
    [12 * IN, 5 * IN],
    [9 * IN, 8 * IN],
    [0, 8 * IN],
  ],
  holes: [],
};
const asked = {
  width: 4 * IN,
  height: 3 * IN,
  count: 1,
  clearance: 0,
  kerf: 0,
  way: 'any',
} as const;

describe('what a cut leaves', () => {
  test('all of the area is made, left or dust, however it is cut', () => {
    for (const sheet of [sheetOf(12 * IN, 8 * IN), corner])
      for (const count of [1, 2])
        for (const kerf of [0, MM]) {
          const ways = waysToCut(sheet, { ...asked, count, kerf }, IN);
          expect(ways.length).toBeGreaterThan(1);
          for (const { remnants, dust } of ways) {
            const left = remnants.reduce((sum, one) => sum + one.area, 0);
            const whole = um2(doubledAreaOf(sheet));
            expect(Math.abs(whole - left - dust - count * 12 * UM2_PER_SQ_IN)).toBeLessThan(5);
          }
        }
  });
  test('the way that leaves the largest useful piece comes first', () => {
    const [best] = waysToCut(sheetOf(12 * IN, 8 * IN), asked, IN);
    expect(best?.remnants[0]?.area).toBe(72 * UM2_PER_SQ_IN); // laid upright: 9 x 8 in
  });
  test('a row is parted by cuts of its own', () => {
    const [best] = waysToCut(sheetOf(12 * IN, 3 * IN), { ...asked, count: 3 }, IN);
    expect(best?.remnants).toEqual([]);
    expect(best?.cuts).toHaveLength(2);
  });
  test('narrow pieces are marked', () => {
    const [best] = waysToCut(sheetOf(4.5 * IN, 8 * IN), asked, IN);
    expect(best?.remnants.map(({ narrow }) => narrow).sort()).toEqual([false, true]);
  });
});

describe('how it is recorded', () => {
  test('a rectangle by its sides, anything else by its corners from its own corner', () => {
    const box: Region = {
      outer: sheetOf(3 * IN, 2 * IN).outer.map(([x, y]) => [x + 7, y + 9]),
      holes: [],
    };
    expect(shapeOf(box, 'in')).toEqual({
      kind: 'rectangle',
      a: { nm: 3 * IN, text: '3' },
      b: { nm: 2 * IN, text: '2' },
    });
    const triangle: Region = {
      outer: [
        [IN, IN],
        [3 * IN, IN],
        [IN, 2 * IN],
      ],
      holes: [],
    };
    expect(shapeOf(triangle, 'in')).toEqual({
      kind: 'outline',
      outer: [
        [0, 0],
        [2 * IN, 0],
        [0, IN],
      ],
      holes: [],
      entered: { way: 'remnant', texts: { unit: 'in' } },
    });
    expect(sizeWords(triangle, 'in')).toBe('a triangle within 2 × 1 in');
  });
  test('a length is written bare only where that says it exactly', () => {
    expect(length(IN / 2, 'in').text).toBe('1/2');
    expect(length(IN + 1, 'in').text).toMatch(/in$/);
    expect(length(12_300_000, 'mm').text).toBe('12.3');
  });
});

describe('what is decided of each piece', () => {
  const sheet = sheetOf(12 * IN, 8 * IN);
  const [way] = waysToCut(sheet, asked, 4 * IN);
  const remnants = way?.remnants ?? [];
  const [first, second] = remnants;
  const tag = { code: '0123456789', on: 'metal' } as const;
  if (!first || !second) throw new Error('two pieces stay');

  test('the tag goes on with the largest, and narrow ones are offered for recycling', () => {
    const all = firstChoice(remnants, tag);
    expect(all.A).toMatchObject({ stays: true, tag: 'same' });
    expect(all.B).toMatchObject({ stays: false, tag: 'none' }); // 3 x 4 in, and 4 in are kept
  });
  test('the tag can be on one of them only', () => {
    const all = chose(firstChoice(remnants, tag), 'B', { tag: 'same' });
    expect(all.A?.tag).toBe('none');
    expect(all.B?.tag).toBe('same');
  });
  test('one that is recycled counts as lost, one measured smaller for the difference', () => {
    const all = firstChoice(remnants, null);
    if (!all.A || !all.B) throw new Error('two choices');
    expect(readRemnant(second, all.B, null, sheet, 'in').lost).toBe(second.area);
    const smaller = readRemnant(first, { ...all.A, a: '8 1/2' }, null, sheet, 'in');
    expect(smaller.shape).toMatchObject({ a: { text: '8 1/2' } });
    expect(smaller.lost).toBe(4 * UM2_PER_SQ_IN);
    expect(readRemnant(first, { ...all.A, a: '13' }, null, sheet, 'in').problem).toMatch(
      /more than/,
    );
    expect(readRemnant(first, { ...all.A, a: 'x' }, null, sheet, 'in').problem).not.toBe('');
  });
  test('a new tag has to be scanned, and how it is fixed be said', () => {
    const all = firstChoice(remnants, null);
    if (!all.A) throw new Error('a choice');
    const read = (change: object) =>
      readRemnant(first, { ...(all.A as typeof all.A & object), ...change }, null, sheet, 'in');
    expect(read({ tag: 'new' }).problem).toMatch(/Scan the new tag/);
    expect(read({ tag: 'new', code: '1' }).problem).toMatch(/how the tag is fixed/);
    expect(read({ tag: 'new', code: '1', on: 'tied' }).tag).toEqual({ code: '1', on: 'tied' });
  });
});
