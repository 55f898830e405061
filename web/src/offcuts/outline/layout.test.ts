import { describe, expect, test } from 'vitest';
import { draw, IN, MM, starRing } from './drawn.test.support.ts';
import { sidesOf } from './exact.ts';
import { type Label, type Picture, picture, type ToDraw } from './layout.ts';
import { sheetRing, withCornersOff } from './plain.ts';
import type { Ring } from './rings.ts';

const drawn = (sheet: Ring, change: Partial<ToDraw> = {}): Picture =>
  picture({
    sheet,
    open: false,
    keeps: [],
    texts: sidesOf(sheet).map((side, at) => ({ side, text: `${at + 1} 1/2` })),
    faults: [],
    grain: null,
    unit: 'in',
    ...change,
  });

const numbers = (path: string): number[] => (path.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);

describe('the drawing of an outline', () => {
  test('keeps every line of it within the drawing, whatever the grain', () => {
    const between = draw(12);
    for (let n = 0; n < 16; n++) {
      const sheet = starRing(between, between(3, 16), between(20, 4000) * MM);
      for (const grain of [null, 0, 90_000_000, 33_000_000]) {
        const { width, height, sheet: path, labels } = drawn(sheet, { grain });
        for (const [at, number] of numbers(path).entries()) {
          expect(number).toBeGreaterThanOrEqual(0);
          expect(number).toBeLessThanOrEqual(at % 2 ? height : width);
        }
        for (const { x, y } of labels) {
          expect(x > 0 && x < width && y > 0 && y < height).toBe(true);
        }
      }
    }
  });

  test('figures stand apart, and read from the bottom or from the right', () => {
    const between = draw(13);
    const apart = (one: Label, other: Label): number =>
      Math.hypot(one.x - other.x, one.y - other.y);
    for (let n = 0; n < 16; n++) {
      const { labels } = drawn(starRing(between, between(3, 12), 300 * MM));
      for (const [at, label] of labels.entries()) {
        expect(label.turned).toBeGreaterThanOrEqual(-90.01);
        expect(label.turned).toBeLessThan(90);
        for (const other of labels.slice(at + 1)) expect(apart(label, other)).toBeGreaterThan(10);
      }
    }
  });

  test('sides that reach from end to end have a dimension line, and no second figure', () => {
    const off = { corner: 'top right', a: 3 * IN, b: 2 * IN } as const;
    const sheet = withCornersOff(12 * IN, 8 * IN, [off], false);
    const { labels, dimensions } = drawn(sheet);
    expect(dimensions.map(({ text }) => text)).toEqual(['12 in', '8 in']);
    expect(labels.map(({ text }) => text)).not.toContain('1 1/2');
    expect(labels.map(({ text }) => text).sort()).toEqual(['2 1/2', '3 1/2', '4 1/2']);
    const typed = drawn(sheet, { whole: ['304.8 mm', '8"'] }).dimensions;
    expect(typed.map(({ text }) => text)).toEqual(['304.8 mm', '8"']);
  });

  test('a place that is tapped is the place that was drawn', () => {
    const { box, placeAt } = drawn(sheetRing(300 * MM, 200 * MM));
    const [x, y] = placeAt(box.x + box.width / 4, box.y + box.height / 2);
    expect(Math.abs(x - 75 * MM)).toBeLessThan(MM / 100);
    expect(Math.abs(y - 100 * MM)).toBeLessThan(MM / 100);
  });

  test('a keep-out told far outside does not shrink the sheet to a dot', () => {
    const sheet = sheetRing(300 * MM, 200 * MM);
    const far: Ring = sheetRing(9 * MM, 9 * MM).map(([x, y]) => [x + 9000 * MM, y]);
    expect(drawn(sheet, { keeps: [far] }).box.width).toBeGreaterThan(150);
    const near: Ring = sheetRing(9 * MM, 9 * MM).map(([x, y]) => [x + 400 * MM, y]);
    const { keeps, width } = drawn(sheet, { keeps: [near] });
    expect(Math.max(...numbers(keeps[0] ?? ''))).toBeLessThanOrEqual(width);
  });

  test('one side alone is drawn', () => {
    const { sheet, dimensions } = drawn(
      [
        [0, 0],
        [300 * MM, 0],
      ],
      { open: true },
    );
    expect(numbers(sheet)).toHaveLength(4);
    expect(dimensions).toEqual([]);
  });
});
