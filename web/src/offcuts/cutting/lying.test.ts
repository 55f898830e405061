import { describe, expect, test } from 'vitest';
import { type Asked, anywhere, liesOn, lyingOn } from './lying.ts';
import { boundsOf, boxRing, doubledArea, type Region, sheetOf } from './rings.ts';

const IN = 25_400_000;
const MM = 1_000_000;
const asked = (more: Partial<Asked>): Asked => ({
  width: 4 * IN,
  height: 3 * IN,
  count: 1,
  clearance: 0,
  kerf: 0,
  way: 'any',
  ...more,
});
const ell: Region = {
  outer: [
    [0, 0],
    [10 * IN, 0],
    [10 * IN, 4 * IN],
    [4 * IN, 4 * IN],
    [4 * IN, 10 * IN],
    [0, 10 * IN],
  ],
  holes: [],
};

describe('whether a blank lies on metal', () => {
  test('flush with an edge it does, a nanometre over it does not', () => {
    expect(liesOn(ell, boxRing(0, 6 * IN, 4 * IN, 10 * IN))).toBe(true);
    expect(liesOn(ell, boxRing(0, 6 * IN, 4 * IN + 10, 10 * IN))).toBe(false);
  });
  test('not across the corner of an L, not beside it, not over a keep-out', () => {
    expect(liesOn(ell, boxRing(3 * IN, 3 * IN, 6 * IN, 6 * IN))).toBe(false);
    expect(liesOn(ell, boxRing(5 * IN, 5 * IN, 9 * IN, 9 * IN))).toBe(false);
    const hole = [...boxRing(IN, IN, 2 * IN, 2 * IN)].reverse();
    const holed = { ...ell, holes: [hole] };
    expect(liesOn(holed, boxRing(0, 0, 3 * IN, 3 * IN))).toBe(false);
    expect(liesOn(holed, boxRing(2 * IN, 0, 4 * IN, 3 * IN))).toBe(true);
  });
  test('not round a keep-out that it does not touch', () => {
    const hole = [...boxRing(5 * IN, IN, 6 * IN, 2 * IN)].reverse();
    expect(liesOn({ ...ell, holes: [hole] }, boxRing(4 * IN, 0, 8 * IN, 4 * IN))).toBe(false);
  });
});

describe('where blanks may lie', () => {
  test('on a rectangle both ways round, or the one that the grain leaves', () => {
    const sheet = sheetOf(12 * IN, 8 * IN);
    const both = lyingOn(sheet, true, asked({}));
    expect(both.map(({ block }) => boundsOf(block).x1)).toEqual([4 * IN, 3 * IN]);
    const one = lyingOn(sheet, true, asked({ way: 'width along b' }));
    expect(one.map(({ block }) => boundsOf(block).x1)).toEqual([3 * IN]);
  });
  test('in from the edges by the clearance, and not where that leaves no room', () => {
    const sheet = sheetOf(5 * IN, 4 * IN);
    const [first] = lyingOn(sheet, true, asked({ clearance: IN / 2 }));
    expect(boundsOf(first?.block ?? [])).toEqual({
      x0: IN / 2,
      y0: IN / 2,
      x1: 4.5 * IN,
      y1: 3.5 * IN,
    });
    expect(lyingOn(sheet, true, asked({ clearance: IN }))).toEqual([]);
  });
  test('several in one row, a cut apart, either way along', () => {
    const rows = lyingOn(sheetOf(13 * IN, 20 * IN), true, asked({ count: 3, kerf: MM }));
    expect(rows.length).toBe(4);
    for (const { blanks, block } of rows) {
      expect(blanks).toHaveLength(3);
      const made = blanks.reduce((sum, one) => sum + doubledArea(one), 0n);
      const cuts = doubledArea(block) - made;
      expect([BigInt(3 * IN), BigInt(4 * IN)].map((side) => 4n * side * BigInt(MM))).toContain(
        cuts,
      );
    }
  });
  test('askew only where it fits no other way', () => {
    const tight = asked({ width: 9 * IN, height: IN });
    const [only, ...more] = lyingOn(sheetOf(8 * IN, 7 * IN), true, tight);
    expect(more).toEqual([]);
    expect(liesOn(sheetOf(8 * IN, 7 * IN), only?.block ?? [])).toBe(true);
    expect(lyingOn(sheetOf(8 * IN, 7 * IN), true, { ...tight, way: 'width along a' })).toEqual([]);
  });
  test('on an odd outline flush with its corners, and nowhere that is not metal', () => {
    const found = lyingOn(ell, false, asked({ width: 9 * IN, height: 4 * IN }));
    expect(found.length).toBeGreaterThan(1);
    for (const { block } of found) expect(liesOn(ell, block)).toBe(true);
    expect(lyingOn(ell, false, asked({ width: 9 * IN, height: 5 * IN }))).toEqual([]);
  });
  test('corners in whichever order are put in order', () => {
    const [a, b, c, d] = boxRing(0, 0, 4 * IN, 3 * IN);
    if (!a || !b || !c || !d) throw new Error('four corners');
    expect(doubledArea(anywhere([c, b, a, d]).block)).toBe(2n * 12n * BigInt(IN) * BigInt(IN));
  });
});
