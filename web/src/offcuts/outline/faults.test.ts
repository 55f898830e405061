import { describe, expect, test } from 'vitest';
import { draw, MM, starRing } from './drawn.test.support.ts';
import type { Point } from './exact.ts';
import { faultsIn, MOST_POINTS } from './faults.ts';
import { sheetRing } from './plain.ts';
import type { Ring } from './rings.ts';

const codes = (outer: Ring, holes: Ring[] = []): string[] =>
  faultsIn(outer, holes).map(({ code }) => code);
const SHEET = sheetRing(300 * MM, 200 * MM);
const hole = (x: number, y: number, size = 10 * MM): Ring => [
  [x, y],
  [x, y + size],
  [x + size, y + size],
  [x + size, y],
];

describe('what is wrong is told once, with its place', () => {
  test.each([
    ['a sound sheet', SHEET, [hole(MM, MM)], []],
    ['two corners', SHEET.slice(0, 2), [], ['few']],
    ['a bow tie', [SHEET[0], SHEET[2], SHEET[1], SHEET[3]] as Ring, [], ['crossed']],
    ['a hole over the edge', SHEET, [hole(295 * MM, 5 * MM)], ['crossed', 'crossed']],
    ['a hole at the edge', SHEET, [hole(290 * MM, 5 * MM)], ['crossed', 'touching', 'touching']],
    ['a hole outside', SHEET, [hole(400 * MM, 5 * MM)], ['outside']],
    ['ten metres and more', sheetRing(10_001 * MM, MM), [], ['far']],
    ['no area', sheetRing(300 * MM, 1), [], ['sliver']],
    [
      'all on one line',
      [
        [0, 0],
        [2 * MM, 0],
        [MM, 0],
      ] as Ring,
      [],
      ['sliver'],
    ],
    [
      'a long sliver',
      [
        [0, 0],
        [900 * MM, 900 * MM],
        [900 * MM, 900 * MM + 90_000],
      ] as Ring,
      [],
      ['sliver'],
    ],
    [
      'the same corner twice',
      [
        [0, 0],
        [9 * MM, 0],
        [9 * MM, 0],
        [9 * MM, 9 * MM],
      ] as Ring,
      [],
      ['touching', 'touching'],
    ],
  ])('%s', (_, outer, holes, said) => {
    const found = codes(outer, holes);
    if (said.includes('touching')) expect(found.length).toBeGreaterThan(0);
    else expect(found).toEqual(said);
    for (const fault of faultsIn(outer, holes)) {
      expect(fault.sentence).toMatch(/\.$/);
      if (fault.code === 'crossed') expect(fault.points.length && fault.sides.length).toBeTruthy();
    }
  });

  test('a hundred thousand corners are counted, not looked at', () => {
    const many = Array.from({ length: 100_000 }, (_, at): Point => [at, at % 2]);
    const start = performance.now();
    expect(codes(many)).toEqual(['many']);
    expect(performance.now() - start).toBeLessThan(500);
  });

  test('as many as are taken are looked at between two keys', () => {
    const ring = starRing(draw(9), MOST_POINTS, 900 * MM);
    const start = performance.now();
    expect(codes(ring)).toEqual([]);
    expect(performance.now() - start).toBeLessThan(2000);
  });

  test('a side moved through the others always shows', () => {
    const between = draw(4);
    for (let n = 0; n < 200; n++) {
      const ring = [...starRing(between, 12, 300 * MM)];
      const [one, other] = [ring[2] as Point, ring[7] as Point];
      ring[2] = other;
      ring[7] = one;
      expect(codes(ring).length).toBeGreaterThan(0);
    }
  });
});
