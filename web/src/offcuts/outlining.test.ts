import { describe, expect, test } from 'vitest';
import type { Point } from '../twins/fit.ts';
import { textWidth, WIDTH } from './drawing.ts';
import { type CutShape, layOutOutline } from './outlining.ts';

const MM = 1_000_000;
const mm = (points: [number, number][]): Point[] => points.map(([x, y]) => [x * MM, y * MM]);
const ELL = mm([
  [0, 0],
  [400, 0],
  [400, 80],
  [90, 80],
  [90, 300],
  [0, 300],
]);
const show = (nm: number): string => String(nm / MM);
const whole = (nm: number): string => `${nm / MM} mm`;
const lay = (cut?: CutShape, outer = ELL) =>
  layOutOutline({ outer, holes: [], grain: 'a', show, whole, ...(cut ? { cut } : {}) });
const box = (x: number, y: number, w: number, h: number): Point[] =>
  mm([
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ]);

test('to scale, within the drawing, each corner where it belongs', () => {
  const { sheet, path, height } = lay();
  expect(sheet.width / sheet.height).toBeCloseTo(400 / 300, 6);
  expect(sheet.x + sheet.width).toBeLessThanOrEqual(WIDTH);
  expect(path.match(/[ML]/g)).toHaveLength(6);
  expect(path.startsWith(`M${sheet.x},${sheet.y + sheet.height}`)).toBe(true);
  expect(height).toBeGreaterThan(sheet.y + sheet.height);
});

describe('a cut that lies square', () => {
  const texts = (cut: Point[]): string[] =>
    lay({ corners: cut, upright: true, stays: null }).dimensions.map(({ text }) => text);
  test('in the corner has its sides alone', () => {
    expect(texts(box(0, 0, 60, 40))).toEqual(['400 mm', '300 mm', '60', '40']);
  });
  test('further in it says where it begins, from both datum lines', () => {
    expect(texts(box(20, 150, 60, 40))).toEqual(['400 mm', '300 mm', '60', '40', '20', '150']);
  });
  test('nearer than can be measured it lies on the line', () => {
    expect(texts(box(0.1, 0.15, 60, 40))).toHaveLength(4);
  });
});

test('of a cut that lies askew both ends of its width are marked and measured', () => {
  const cut: CutShape = {
    corners: mm([
      [120, 10],
      [150, 30],
      [130, 60],
      [100, 40],
    ]),
    upright: false,
    stays: null,
  };
  const { dimensions, marks } = lay(cut);
  expect(dimensions.map(({ text }) => text)).toEqual([
    '400 mm',
    '300 mm',
    '120',
    '150',
    '10',
    '30',
  ]);
  expect(new Set(dimensions.map(({ side, at }) => `${side} ${at}`)).size).toBe(6);
  expect(marks.map(({ letter }) => letter)).toEqual(['A', 'B']);
});

// figures as long as they come: fractions of an inch
const long = (nm: number): string => `${Math.floor(nm / 1e7)} ${nm / MM}/64`;

test.each([
  ['short', show],
  ['long', long],
])('no two %s figures on a line stand on each other, wherever the cut lies', (_, figures) => {
  for (let x = 0; x <= 340; x += 7) {
    for (const w of [5, 20, 60]) {
      for (const corners of [box(x, 10, w, 4), box(10, Math.min(x, 240), 40, w)]) {
        const cut = { corners, upright: true, stays: null };
        const drawn = { outer: ELL, holes: [], grain: 'a', show: figures, whole, cut } as const;
        const { dimensions, width, height } = layOutOutline(drawn);
        for (const one of dimensions) {
          const half = textWidth(one.text) / 2;
          expect(one.middle - half).toBeGreaterThan(0);
          expect(one.middle + half).toBeLessThanOrEqual(one.side === 'below' ? width : height);
          for (const other of dimensions) {
            if (other === one || other.side !== one.side || other.at !== one.at) continue;
            const apart = Math.abs(other.middle - one.middle);
            expect(apart, JSON.stringify([one, other])).toBeGreaterThanOrEqual(
              half + textWidth(other.text) / 2,
            );
          }
        }
      }
    }
  }
});
