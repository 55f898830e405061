import { describe, expect, it } from 'vitest';
import type { Point } from '../../twins/fit.ts';
import { cutCount, layOutPage, numbered } from './pages.ts';
import type { Cut, Sheet } from './plan.ts';

const MM = 1_000_000;
const ring = (x: number, y: number, w: number, h: number): Point[] =>
  [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ].map(([a = 0, b = 0]) => [a * MM, b * MM]);
const cut = (x: number, y: number): Cut => ({
  want: 'shim',
  nth: 1,
  corners: ring(x, y, 50, 20),
  along: [x * MM, (x + 50) * MM],
  off: [y * MM, (y + 20) * MM],
});
const sheet: Sheet = {
  stock: 'one',
  datum: { start: [0, 0], end: [200 * MM, 0], edge: true },
  cuts: [cut(0, 0), cut(52, 0)],
  straight: true,
};

describe('a page of a cut plan', () => {
  const page = layOutPage([ring(0, 0, 200, 100), ring(150, 60, 20, 20).reverse()], sheet);

  it('is to scale, with the lower left of the metal below', () => {
    expect(page.width).toBe(360);
    expect(page.corner).toEqual([18, 18 + 162]);
    expect(page.datum[1]).toEqual([342, 180]);
    expect(page.pieces[0]?.points).toBe('18.0,180.0 99.0,180.0 99.0,147.6 18.0,147.6');
  });

  it('draws every ring closed', () => {
    expect(page.metal.match(/M/g)).toHaveLength(2);
    expect(page.metal.match(/Z/g)).toHaveLength(2);
  });

  it('puts the number of a piece in its middle', () => {
    expect(page.pieces[0]?.at[0]).toBeCloseTo(18 + 25 * 1.62);
    expect(page.pieces[0]?.at[1]).toBeCloseTo(180 - 10 * 1.62);
  });

  it('keeps a tall one within its height', () => {
    const tall = layOutPage([ring(0, 0, 20, 1000)], { ...sheet, cuts: [] });
    expect(tall.height).toBe(18 + 320 + 18);
  });

  it('numbers the pieces in the order of cutting and counts them', () => {
    expect(numbered(sheet.cuts).map(({ number }) => number)).toEqual([1, 2]);
    expect(cutCount([sheet, sheet])).toBe(4);
  });
});
