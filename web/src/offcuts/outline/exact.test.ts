import { describe, expect, test } from 'vitest';
import { draw } from './drawn.test.support.ts';
import { crossing, meet, type Point, type Side, turn } from './exact.ts';

const LONG = 10_000_000_000;

describe('which way three points turn', () => {
  test('is told to the nanometre over ten metres', () => {
    const [a, b]: [Point, Point] = [
      [0, 0],
      [LONG, LONG - 1],
    ];
    expect(turn(a, b, [LONG - 1, LONG - 2])).toBe(-1);
    expect(turn(a, b, [LONG / 2, LONG / 2])).toBe(1);
    expect(turn([0, 0], [3, 1], [LONG - 1, (LONG - 1) / 3])).toBe(0);
  });
  test('is the same from every corner, and the other way round for two swapped', () => {
    const between = draw(7);
    for (let n = 0; n < 2000; n++) {
      const [a, b] = [0, 1].map((): Point => [between(0, LONG), between(0, LONG)]) as [
        Point,
        Point,
      ];
      const share = between(0, 1000) / 1000;
      // close to the line, where ordinary numbers alone would guess
      const c: Point = [
        Math.round(a[0] + (b[0] - a[0]) * share) + between(-1, 1),
        Math.round(a[1] + (b[1] - a[1]) * share) + between(-1, 1),
      ];
      const exact =
        BigInt(b[0] - a[0]) * BigInt(c[1] - a[1]) - BigInt(b[1] - a[1]) * BigInt(c[0] - a[0]);
      const way = exact > 0n ? 1 : exact < 0n ? -1 : 0;
      expect(turn(a, b, c)).toBe(way);
      expect(turn(b, c, a)).toBe(way);
      expect(turn(b, a, c)).toBe(way === 0 ? 0 : -way);
    }
  });
});

describe('how two sides meet', () => {
  const side = (x0: number, y0: number, x1: number, y1: number): Side => [
    [x0, y0],
    [x1, y1],
  ];
  test.each([
    ['cross', side(0, 0, 10, 10), side(0, 10, 10, 0), [5, 5]],
    ['touch', side(0, 0, 10, 0), side(5, 0, 5, 9), [5, 0]],
    ['touch', side(0, 0, 10, 0), side(10, 0, 20, 0), [10, 0]],
    ['touch', side(0, 0, 10, 0), side(10, 0, 12, 7), [10, 0]],
    ['along', side(0, 0, 10, 0), side(4, 0, 20, 0), [4, 0]],
    ['along', side(0, 0, 10, 0), side(8, 0, 2, 0), [8, 0]],
  ] as const)('%s', (how, one, other, at) => {
    expect(meet(one, other)).toMatchObject({ how });
    expect(meet(other, one)).toMatchObject({ how });
    expect(meet(one, other)?.at).toEqual(at);
  });
  test.each([
    [side(0, 0, 10, 0), side(0, 1, 10, 1)],
    [side(0, 0, 10, 0), side(11, 0, 20, 0)],
    [side(0, 0, 10, 10), side(6, 5, 20, 5)],
    [side(0, 0, 10, 10), side(5, 4, 9, -9)],
  ])('not at all', (one, other) => {
    expect(meet(one, other)).toBeNull();
  });
  test('the crossing is within half a nanometre of both', () => {
    expect(crossing(side(0, 0, LONG, 1), side(0, 1, LONG, 0))).toEqual([LONG / 2, 1]);
    expect(crossing(side(0, 0, 3, 3), side(0, 1, 3, 1))).toEqual([1, 1]);
    expect(crossing(side(0, 0, -3, -3), side(0, -2, -3, -2))).toEqual([-2, -2]);
  });
});
