import { describe, expect, test } from 'vitest';
import { alongCurve, aroundCircle } from './curves.ts';
import { draw, IN, MM, starRing } from './drawn.test.support.ts';
import { distance, type Point, sidesOf } from './exact.ts';
import { faultsIn } from './faults.ts';
import { lengthsOf, sheetRing, tooMuchOff, triangleOf, withCornersOff } from './plain.ts';
import {
  areaUm2,
  boundsOf,
  doubledArea,
  holds,
  type Ring,
  sizeOf,
  tidied,
  turnedBack,
} from './rings.ts';

const area = (ring: Ring): number => areaUm2({ outer: ring, holes: [] });

describe('corners off', () => {
  const off = { corner: 'top right', a: 3 * IN, b: 2 * IN } as const;
  test('cut straight across', () => {
    expect(withCornersOff(12 * IN, 8 * IN, [off], false)).toEqual([
      [0, 0],
      [12 * IN, 0],
      [12 * IN, 6 * IN],
      [9 * IN, 8 * IN],
      [0, 8 * IN],
    ]);
  });
  test('a square one taken out makes an L', () => {
    expect(withCornersOff(12 * IN, 8 * IN, [off], true)).toEqual([
      [0, 0],
      [12 * IN, 0],
      [12 * IN, 6 * IN],
      [9 * IN, 6 * IN],
      [9 * IN, 8 * IN],
      [0, 8 * IN],
    ]);
  });
  test.each(['bottom left', 'bottom right', 'top right', 'top left'] as const)('%s', (corner) => {
    for (const square of [false, true]) {
      const ring = withCornersOff(12 * MM, 8 * MM, [{ corner, a: 3 * MM, b: 2 * MM }], square);
      expect(area(ring)).toBe((96 - (square ? 6 : 3)) * 1e6);
      expect(faultsIn(ring)).toEqual([]);
      const [x, y] = [
        corner.endsWith('left') ? 1 : 12 * MM - 1,
        corner.startsWith('bottom') ? 1 : 8 * MM - 1,
      ];
      expect(holds(ring, [x, y])).toBe(false);
    }
  });
  test('two that meet leave a point, and more than there is of a side is told', () => {
    const offs = [off, { corner: 'top left', a: 9 * IN, b: IN } as const];
    expect(withCornersOff(12 * IN, 8 * IN, offs, false)).toHaveLength(5);
    expect(tooMuchOff(12 * IN, 8 * IN, offs)).toEqual([]);
    expect(tooMuchOff(11 * IN, 8 * IN, offs)).toEqual(['top right', 'top left']);
  });
});

describe('a triangle by its sides', () => {
  test('goes back down from the apex', () => {
    expect(triangleOf(4 * IN, 3 * IN, 5 * IN)).toEqual([
      [0, 0],
      [4 * IN, 0],
      [4 * IN, 3 * IN],
    ]);
  });
  test('has its sides as they were told', () => {
    const between = draw(3);
    for (let n = 0; n < 500; n++) {
      const sides = [between(MM, 900 * MM), between(MM, 900 * MM), between(MM, 900 * MM)] as const;
      const ring = triangleOf(...sides);
      const longest = Math.max(...sides);
      if (2 * longest >= sides[0] + sides[1] + sides[2]) expect(ring).toBeNull();
      else if (ring && area(ring) > MM)
        for (const [at, length] of lengthsOf(ring).entries())
          expect(Math.abs(length - (sides[at] as number))).toBeLessThan(20);
    }
    expect(triangleOf(3, 3, 6)).toBeNull();
  });
});

describe('curves are taken on the safe side', () => {
  const far = ([one, other]: readonly [Point, Point], at: Point): number => {
    const length = distance(one, other);
    const along =
      ((at[0] - one[0]) * (other[0] - one[0]) + (at[1] - one[1]) * (other[1] - one[1])) / length;
    const share = Math.min(Math.max(along / length, 0), 1);
    return distance(at, [
      one[0] + (other[0] - one[0]) * share,
      one[1] + (other[1] - one[1]) * share,
    ]);
  };
  test.each([2 * MM, 25 * MM, 300 * MM, 9_000 * MM])('a hole of %i is never told smaller', (d) => {
    const ring = aroundCircle([0, 0], d);
    expect(doubledArea(ring) > 0n).toBe(true);
    for (const side of sidesOf(ring)) expect(far(side, [0, 0])).toBeGreaterThanOrEqual(d / 2);
    const most = Math.max(...ring.map((corner) => distance(corner, [0, 0])));
    if (d < 300 * MM) expect(most - d / 2).toBeLessThan(0.6 * MM);
  });
  test.each([
    ['out', 50 * MM],
    ['out', 3 * MM],
    ['in', 50 * MM],
    ['in', 3 * MM],
  ] as const)('a side curved %s by %i never holds more metal', (way, rise) => {
    const [from, to]: [Point, Point] = [
      [0, 0],
      [100 * MM, 0],
    ];
    const chain = [from, ...alongCurve(from, to, rise, way), to];
    const half = 50 * MM;
    const radius = (half * half + rise * rise) / (2 * rise);
    // out of the metal is downwards here: the metal is to the left of the walk
    const centre: Point = [half, way === 'out' ? radius - rise : rise - radius];
    for (let n = 1; n < chain.length; n++) {
      const side = [chain[n - 1] as Point, chain[n] as Point] as const;
      const ends = side.map((end) => distance(end, centre));
      if (way === 'out') for (const end of ends) expect(end).toBeLessThanOrEqual(radius + 1);
      else expect(far(side, centre)).toBeGreaterThanOrEqual(radius - 1);
    }
    const depth = Math.max(...chain.map(([, y]) => Math.abs(y)));
    expect(Math.abs(depth - rise)).toBeLessThan(0.1 * MM);
    expect(Math.sign((chain[1] as Point)[1])).toBe(way === 'out' ? -1 : 1);
  });
});

describe('rings', () => {
  test('needless corners are left out, wherever the ring begins', () => {
    const ring: Ring = [
      [5, 0],
      [10, 0],
      [10, 0],
      [10, 10],
      [7, 10],
      [0, 10],
      [0, 0],
    ];
    for (let n = 0; n < ring.length; n++) {
      const left = tidied([...ring.slice(n), ...ring.slice(0, n)]);
      expect(left).toHaveLength(4);
      expect(doubledArea(left)).toBe(200n);
    }
  });
  test('turning back keeps the area to a hair and puts it in the corner', () => {
    const between = draw(11);
    for (let n = 0; n < 200; n++) {
      const ring = starRing(between, between(3, 20), 400 * MM);
      const turned = turnedBack({ outer: ring, holes: [] }, between(0, 180_000_000));
      const { x0, y0 } = boundsOf(turned.outer);
      expect([x0, y0]).toEqual([0, 0]);
      expect(Math.abs(areaUm2(turned) / area(ring) - 1)).toBeLessThan(1e-6);
    }
    const strip = sheetRing(100 * MM, 20 * MM);
    expect(sizeOf(turnedBack({ outer: strip, holes: [] }, 90_000_000).outer)).toEqual({
      width: 20 * MM,
      height: 100 * MM,
    });
  });
  test('what ran at the angle runs along x', () => {
    const slanted: Ring = [
      [0, 0],
      [40 * MM, 30 * MM],
      [10 * MM, 70 * MM],
    ];
    const angle = Math.round((Math.atan2(3, 4) * 180e6) / Math.PI);
    const [one, other] = turnedBack({ outer: slanted, holes: [] }, angle).outer as [Point, Point];
    expect(Math.abs(one[1] - other[1])).toBeLessThan(2);
    expect(other[0] - one[0]).toBeCloseTo(50 * MM, -1);
  });
});
