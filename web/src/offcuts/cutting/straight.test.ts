import { describe, expect, test } from 'vitest';
import vectors from '../../../../tests/vectors/cuts.json';
import {
  boundsOf,
  boxRing,
  doubledArea,
  doubledAreaOf,
  isBox,
  type Region,
  sheetOf,
  um2,
} from './rings.ts';
import { cutFree, waysToFree } from './straight.ts';

type Box = [number, number, number, number];
type Case = [number, number, Box, number, 'x' | 'y'];
const rows = vectors as unknown as [Case, Box[], number][];
const IN = 25_400_000;
const MM = 1_000_000;
const ORDERS = { x: [3, 1, 0, 2], y: [0, 2, 3, 1] };

const boxOf = ({ outer }: Region): Box => {
  const { x0, y0, x1, y1 } = boundsOf(outer);
  return [x0, y0, x1, y1];
};
const inOrder = (boxes: Box[]): Box[] =>
  boxes.sort((one, other) => {
    const at = one.findIndex((value, i) => value !== other[i]);
    return at < 0 ? 0 : (one[at] as number) - (other[at] as number);
  });
const boxesOf = (regions: Region[]): Box[] => inOrder(regions.map(boxOf));

describe('rectangles, as written from Python', () => {
  test('there are enough of them, with saws and without', () => {
    expect(rows.length).toBe(800);
    expect(rows.filter(([[, , , kerf]]) => kerf > 1).length).toBeGreaterThan(200);
    expect(rows.filter(([, boxes]) => boxes.length === 4).length).toBeGreaterThan(100);
  });
  test('the same pieces stay and the same area is dust', () => {
    const wrong = rows.filter(([[a, b, blank, kerf, first], boxes, dust]) => {
      const freed = cutFree(sheetOf(a, b), boxRing(...blank), kerf, ORDERS[first]);
      const found = [freed.remnants.every(isBox), boxesOf(freed.remnants), um2(freed.doubledDust)];
      return JSON.stringify(found) !== JSON.stringify([true, inOrder(boxes), dust]);
    });
    expect(wrong).toEqual([]);
  }, 20_000);
});

describe('the ways to cut', () => {
  const corner = boxRing(0, 0, 4 * IN, 3 * IN);
  test('a blank in a corner: two ways, the one that leaves the larger piece first', () => {
    const [best, other, ...more] = waysToFree(sheetOf(12 * IN, 8 * IN), corner, 0, IN);
    expect(more).toEqual([]);
    // 8 x 8 in beats 12 x 5 in
    expect(boxesOf(best?.remnants ?? [])).toContainEqual([4 * IN, 0, 12 * IN, 8 * IN]);
    expect(boxesOf(other?.remnants ?? [])).toContainEqual([0, 3 * IN, 12 * IN, 8 * IN]);
    expect(best?.cuts).toHaveLength(2);
  });
  test('the larger piece does not count where it is narrower than what is kept', () => {
    const sheet = sheetOf(40 * IN, 4 * IN);
    const blank = boxRing(0, 0, 10 * IN, 3.5 * IN);
    const [best] = waysToFree(sheet, blank, 0, IN);
    expect(boxesOf(best?.remnants ?? [])).toContainEqual([10 * IN, 0, 40 * IN, 4 * IN]);
  });
  test('a blank as wide as the sheet takes one cut, and one that is the sheet none', () => {
    const [one] = waysToFree(sheetOf(4 * IN, 8 * IN), corner, 0, IN);
    expect(one?.cuts).toHaveLength(1);
    const [none] = waysToFree(sheetOf(4 * IN, 3 * IN), corner, MM, IN);
    expect(none).toMatchObject({ cuts: [], remnants: [], doubledDust: 0n });
  });
  test('a hair of metal beside the blank is dust, not a piece', () => {
    const [way] = waysToFree(sheetOf(4 * IN + 50_000, 3 * IN), corner, 0, IN);
    expect(way?.remnants).toEqual([]);
    expect(way?.doubledDust).toBe(2n * 50_000n * BigInt(3 * IN));
  });
});

describe('outlines', () => {
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
  test('a cut across one leg of an L leaves the other alone', () => {
    const [way] = waysToFree(ell, boxRing(0, 8 * IN, 4 * IN, 10 * IN), 0, IN);
    expect(way?.cuts).toHaveLength(1);
    expect(way?.remnants.map((one) => doubledAreaOf(one))).toEqual([2n * 56n * BigInt(IN * IN)]);
  });
  test('a blank in the middle of a leg parts the L in two', () => {
    const freed = cutFree(ell, boxRing(0, 5 * IN, 4 * IN, 7 * IN), 0, [0, 2]);
    expect(freed.remnants).toHaveLength(2);
    expect(freed.doubledDust).toBe(0n);
  });
  test('a keep-out that lies in the way is cut through', () => {
    const holed: Region = {
      outer: boxRing(0, 0, 10 * IN, 10 * IN),
      holes: [[...boxRing(3 * IN, 6 * IN, 5 * IN, 8 * IN)].reverse()],
    };
    const freed = cutFree(holed, boxRing(0, 0, 4 * IN, 4 * IN), 0, [1, 2]);
    expect(freed.remnants).toHaveLength(2);
    expect(freed.doubledDust).toBe(0n);
    const [right, above] = freed.remnants;
    expect(right?.outer).toHaveLength(8); // with a notch where the keep-out was
    expect(above?.outer).toHaveLength(8);
  });
  test('a keep-out that is not met goes with the piece that it is in', () => {
    const holed: Region = {
      outer: boxRing(0, 0, 10 * IN, 10 * IN),
      holes: [[...boxRing(6 * IN, 6 * IN, 7 * IN, 7 * IN)].reverse()],
    };
    const freed = cutFree(holed, boxRing(0, 0, 4 * IN, 4 * IN), MM, [1, 2]);
    expect(freed.remnants.map(({ holes }) => holes.length)).toEqual([1, 0]);
  });
  test('a blank that lies askew leaves triangles', () => {
    const sheet = sheetOf(8 * IN, 8 * IN);
    const half = 4 * IN;
    const blank: [number, number][] = [
      [half, 0],
      [8 * IN, half],
      [half, 8 * IN],
      [0, half],
    ];
    const freed = cutFree(sheet, blank, 0, [0, 1, 2, 3]);
    expect(freed.remnants.map(({ outer }) => outer.length)).toEqual([3, 3, 3, 3]);
    const left = freed.remnants.reduce((sum, one) => sum + doubledAreaOf(one), 0n);
    expect(left).toBe(doubledArea(blank));
    expect(freed.doubledDust).toBe(0n);
  });
});
