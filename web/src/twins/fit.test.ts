import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/vectors/fit.json';
import { fits, LONGEST_NM, place, type Way } from './fit';

type Case = [number, number, number, number, number, Way, number];
type Answer = [string, number, number[], [number, number], number] | null;
const rows = vectors as unknown as [Case, Answer][];

const IN = 25_400_000;

describe('the vectors written from Python', () => {
  test('there are enough of them, tight ones and both answers', () => {
    expect(rows.length).toBeGreaterThan(3000);
    expect(rows.filter(([, answer]) => answer === null).length).toBeGreaterThan(1000);
    expect(rows.filter(([, answer]) => answer?.[0] === 'askew').length).toBeGreaterThan(500);
  });
  test('every placement is the same to the nanometre', () => {
    for (const [given, answer] of rows) {
      const found = place(...given);
      const gives = found && [
        found.laid,
        found.tenths,
        found.corners.flat(),
        found.left,
        found.spoiled,
      ];
      expect(gives, JSON.stringify(given)).toEqual(answer);
    }
  });
  test('it fits at some angle wherever a placement is found', () => {
    for (const [[width, height, a, b, clearance, way], answer] of rows) {
      if (clearance === 0 && way === 'any') expect(fits(width, height, a, b)).toBe(answer !== null);
    }
  });
});

describe('published', () => {
  // Mathematics Magazine 73 (2000), page 204
  test('9 x 4 does not fit in 8 x 6', () => {
    expect(fits(9 * IN, 4 * IN, 8 * IN, 6 * IN)).toBe(false);
  });
  test('a square does not fit in a smaller square', () => {
    expect(fits(10 * IN, 10 * IN, 8 * IN, 8 * IN)).toBe(false);
  });
});

test('what is no size is refused', () => {
  expect(() => fits(0, 1, 1, 1)).toThrow('more than zero');
  expect(() => fits(1, 1, LONGEST_NM + 1, 1)).toThrow('at most 10 m');
  expect(() => fits(1.5, 1, 2, 2)).toThrow(RangeError);
  expect(() => place(1, 1, 2, 2, -1)).toThrow('0 or more');
  expect(() => place(1, 1, 2, 2, 0, 'any', -1)).toThrow('0 or more');
});
