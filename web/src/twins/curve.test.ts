import { expect, test } from 'vitest';
import vectors from '../../../tests/vectors/curve.json';
import { type Curve, claims, curveFrom, type Stand, tallest, widest, witness } from './curve';

type Asked = [number, number, 'any' | 'along' | 'across', number[][] | null];
const all = vectors as unknown as { curve: unknown; asked: Asked[] }[];

const curveOf = (told: unknown): Curve => {
  const curve = curveFrom(told);
  if (!curve) throw new Error('no curve');
  return curve;
};

/** What is asked, as the look-up takes it: across the grain, the blank lies the other way round. */
function look<T>(
  ask: (curve: Curve, w: number, h: number, along: boolean) => T,
  curve: Curve,
  [w, h, way]: Asked,
): T {
  return way === 'across' ? ask(curve, h, w, true) : ask(curve, w, h, way === 'along');
}

function cornersOf({ angle, w, h, x, y }: Stand): number[][] {
  const radians = (angle * Math.PI) / 180e6;
  const [cos, sin] = [Math.cos(radians), Math.sin(radians)];
  const ring = [
    [0, 0],
    [w, 0],
    [w, h],
    [0, h],
  ] as const;
  return ring.map(([u, v]) => [(x + u * cos - v * sin) * 1000, (y + u * sin + v * cos) * 1000]);
}

test('the same claims as on the workshop computer, at the same places', () => {
  let [yes, no] = [0, 0];
  for (const { curve: told, asked } of all) {
    const curve = curveOf(told);
    for (const one of asked) {
      const corners = one[3];
      expect(look(claims, curve, one), JSON.stringify(one)).toBe(corners !== null);
      const stand = look(witness, curve, one);
      if (!stand || !corners) {
        expect(stand).toBe(corners);
        no += 1;
        continue;
      }
      yes += 1;
      // the same rectangle, from whichever corner it is told
      const off = cornersOf(stand).map(([x = 0, y = 0]) =>
        Math.min(...corners.map(([cx = 0, cy = 0]) => Math.hypot(cx - x, cy - y))),
      );
      expect(Math.max(...off), JSON.stringify(one)).toBeLessThan(2);
    }
  }
  expect(yes).toBeGreaterThan(1000);
  expect(no).toBeGreaterThan(1000);
});

test('the widest and the tallest that still fit are claimed, and nothing more', () => {
  for (const { curve: told, asked } of all) {
    const curve = curveOf(told);
    for (const [w, h] of asked) {
      const most = widest(curve.along, h);
      const high = tallest(curve.along, w);
      if (most > 0) expect(claims(curve, most, h, true)).toBe(true);
      expect(claims(curve, most + 1, h, true)).toBe(false);
      if (high > 0) expect(claims(curve, w, high, true)).toBe(true);
      expect(claims(curve, w, high + 1, true)).toBe(false);
    }
  }
});

test('what is no curve of a version known here says nothing', () => {
  const good = all[0]?.curve as Record<string, unknown>;
  expect(curveFrom(good)).not.toBeNull();
  for (const bad of [
    null,
    'curve',
    { ...good, v: 2 },
    { ...good, any: undefined },
    { ...good, any: [[1, 2, 3]] },
    { ...good, any: [[1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]] },
    { ...good, along: [[0, 1, 2, 3, 4, 5.5, 6, 7, 8]] },
    { ...good, along: [[0, 1, 2, 3, 4, '5', 6, 7, 8]] },
    { ...good, area_um2: 'large' },
  ])
    expect(curveFrom(bad)).toBeNull();
});

test('nothing fits in an outline in which nothing fits', () => {
  const none = curveOf({ v: 1, area_um2: 5, any: [], along: [] });
  expect(claims(none, 1, 1)).toBe(false);
  expect([widest(none.any, 1), tallest(none.any, 1)]).toEqual([0, 0]);
});
