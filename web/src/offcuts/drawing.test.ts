import { describe, expect, test } from 'vitest';
import { place } from '../twins/fit.ts';
import { layOut, textWidth, WIDTH } from './drawing.ts';

const IN = 25_400_000;
const m = (inches: number) => ({ nm: inches * IN, text: `${inches} 1/64 in` });
const show = (nm: number) => `${nm / IN}`;

describe('the drawing is to scale and stays on its ground', () => {
  test.each([
    [12, 8],
    [8, 12],
    [120, 1],
    [1, 120],
    [1, 1],
  ])('a sheet of %s by %s', (a, b) => {
    for (const grain of ['a', 'b', 'unknown'] as const) {
      const { sheet, height, dimensions } = layOut({ a: m(a), b: m(b), grain });
      expect(sheet.width / sheet.height).toBeCloseTo(a / b, 6);
      expect(sheet.x).toBeGreaterThan(20);
      expect(sheet.x + sheet.width).toBeLessThanOrEqual(WIDTH - 8 + 1e-9);
      expect(sheet.y + sheet.height).toBeLessThan(height - 20);
      const [along, up] = dimensions;
      expect(along && along.to - along.from).toBeCloseTo(sheet.width, 6);
      expect(up && up.from - up.to).toBeCloseTo(sheet.height, 6);
      for (const { side, middle, text } of dimensions) {
        expect(middle - textWidth(text) / 2).toBeGreaterThan(0);
        expect(middle + textWidth(text) / 2).toBeLessThan(side === 'left' ? height : WIDTH);
      }
    }
  });
});

describe('the cut', () => {
  const cutOf = (w: number, h: number, a: number, b: number) => {
    const placement = place(w * IN, h * IN, a * IN, b * IN);
    if (!placement) throw new Error('it fits');
    return layOut({ a: m(a), b: m(b), grain: 'a', cut: { placement, show } });
  };

  test('has its own figures nearer than those of the sheet', () => {
    const { dimensions, sheet, cut, left } = cutOf(4, 3, 12, 6);
    expect(dimensions.map((one) => [one.side, one.text])).toEqual([
      ['below', '12 1/64 in'],
      ['left', '6 1/64 in'],
      ['below', '3'],
      ['left', '4'],
    ]);
    const [, , near] = dimensions;
    expect(near?.at).toBeLessThan(dimensions[0]?.at ?? 0);
    const scale = sheet.width / 12;
    expect(Math.max(...(cut ?? []).map(([x]) => x)) - sheet.x).toBeCloseTo(3 * scale, 6);
    // the strip beside it, over the whole height, is what stays
    expect(left?.width).toBeCloseTo(9 * scale, 6);
    expect(left?.height).toBeCloseTo(6 * scale, 6);
    expect((left?.x ?? 0) + (left?.width ?? 0)).toBeCloseTo(sheet.x + sheet.width, 6);
  });

  test('where the strip above is larger, that one is drawn', () => {
    const { left, sheet } = cutOf(6, 2, 7, 12);
    expect(left?.y).toBeCloseTo(sheet.y, 6);
    expect(left?.width).toBeCloseTo(sheet.width, 6);
  });

  test('askew, the figures say where its lowest and its leftmost corner are', () => {
    const { dimensions, cut, sheet } = cutOf(12.5, 1, 12, 6);
    const scale = sheet.width / 12;
    const lowest = (cut ?? []).reduce((best, one) => (one[1] > best[1] ? one : best));
    const leftmost = (cut ?? []).reduce((best, one) => (one[0] < best[0] ? one : best));
    expect(Number(dimensions[2]?.text)).toBeCloseTo((lowest[0] - sheet.x) / scale, 4);
    expect(Number(dimensions[3]?.text)).toBeCloseTo(
      (sheet.y + sheet.height - leftmost[1]) / scale,
      4,
    );
  });
});
