import { describe, expect, test } from 'vitest';
import { FLATS, HOLES, LAYOUTS, STACKS } from './cases.test.support.ts';
import { drawFlat } from './flat.ts';
import { drawLayout } from './layout.ts';
import { illegible } from './legible.test.support.ts';
import { blank, type Picture } from './picture.ts';
import { drawRings } from './rings.ts';
import { drawStack } from './stack.ts';

const WIDTHS = [288, 328, 358, 520]; // phones of 320, 360 and 390 px, and a desk
const drawings: [name: string, draw: (width: number) => Picture][] = [
  ...of('stack', STACKS, drawStack),
  ...of('layout', LAYOUTS, drawLayout),
  ...of('flat', FLATS, drawFlat),
  ...of('hole', HOLES, drawRings),
];

function of<T>(
  sort: string,
  cases: Record<string, T>,
  draw: (one: T, width: number) => Picture,
): [string, (width: number) => Picture][] {
  return Object.entries(cases).map(([name, one]) => [`${sort}: ${name}`, (w) => draw(one, w)]);
}

describe.each(drawings)('%s', (_name, draw) => {
  test.each(WIDTHS)('can be read at %i px', (width) => {
    const picture = draw(width);
    expect(picture.width).toBe(width);
    expect(illegible(picture)).toEqual([]);
  });
});

test('a figure on a line, on another, off the ground and on a hole is found', () => {
  const bad = blank(100);
  bad.height = 100;
  bad.figures.push({ x: 50, y: 50, text: '12', hold: 'middle' });
  bad.figures.push({ x: 55, y: 52, text: '34', hold: 'middle' });
  bad.figures.push({ x: 95, y: 90, text: '56', hold: 'start' });
  bad.strokes.push({
    look: 'thin',
    points: [
      [40, 0],
      [60, 100],
    ],
  });
  bad.circles.push({ x: 50, y: 20, radius: 25, look: 'hole' });
  expect(illegible(bad)).toEqual([
    '12 stands on 34',
    '12 stands on a line (thin)',
    '12 stands on a hole',
    '34 stands on a line (thin)',
    '56 runs off the side',
  ]);
});
