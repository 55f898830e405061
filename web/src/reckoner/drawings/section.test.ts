import { describe, expect, test } from 'vitest';
import { inch, STACKS } from './cases.test.support.ts';
import { section } from './section.ts';
import type { Stack } from './stack.ts';

function cutOf(name: string) {
  const stack = STACKS[name] as Stack;
  return { stack, cut: section(stack.layers, stack.rivet.diameter, stack.rivet.head) };
}
const HALF = (50 * Math.PI) / 180; // half of the 100-degree head

describe('dimpled sheets nest', () => {
  test.each(['both dimpled', 'three dimpled', '.016 with 1/4 flush'])('%s', (name) => {
    const { stack, cut } = cutOf(name);
    for (const [at, sheet] of cut.sheets.entries()) {
      const below = cut.sheets[at + 1];
      if (below) expect(below.upper).toEqual(sheet.lower);
      const [, upper] = sheet.upper;
      const [, lower] = sheet.lower;
      const down = (lower?.[1] ?? 0) - (upper?.[1] ?? 0);
      // square to its face a sheet is as thick in the dimple as beside it: worked out
      expect(down * Math.sin(HALF)).toBeCloseTo(stack.layers[at]?.thickness ?? 0, 0);
    }
    // the upper face follows the head, from its edge down to the shank
    const { head, diameter } = stack.rivet;
    expect(cut.sheets[0]?.upper[0]).toEqual([head.diameter / 2, 0]);
    const deep = (head.diameter - diameter) / 2 / Math.tan(HALF);
    expect(cut.sheets[0]?.upper[1]?.[1]).toBeCloseTo(deep, 3);
    expect(cut.rim).toBeGreaterThan(cut.grip);
  });

  test('the height of a 1/8 head is what its angle gives: .042, worked out', () => {
    const { cut } = cutOf('countersunk');
    expect((cut.sheets[0]?.upper[1]?.[1] ?? 0) / 25_400_000).toBeCloseTo(0.042, 3);
  });
});

describe('a countersink is metal cut away', () => {
  test('the lower face stays flat, and what is left has an edge at the hole', () => {
    const { cut, stack } = cutOf('countersunk');
    const [sheet] = cut.sheets;
    expect(sheet?.knife).toBe(false);
    expect(sheet?.lower).toEqual([[stack.rivet.diameter / 2, inch(0.063)]]);
    expect(cut.rim).toBe(cut.grip);
  });

  test('too thin a sheet ends in a knife edge, outside the hole', () => {
    const { cut, stack } = cutOf('knife edge');
    const [sheet, below] = cut.sheets;
    expect(sheet?.knife).toBe(true);
    expect(sheet?.lower).toEqual([]);
    const [radius, depth] = sheet?.upper[1] ?? [0, 0];
    expect(depth).toBe(inch(0.032));
    expect(radius).toBeGreaterThan(stack.rivet.diameter / 2);
    // and the head goes on into the sheet beneath, which has no room for it
    expect(below?.clash).toBe(true);
  });

  test('3/32 in .032 dimpled goes through .040 countersunk: it would need .0455 and more', () => {
    expect(cutOf('dimple over thin countersink').cut.sheets[1]?.knife).toBe(true);
    expect(cutOf('dimple over countersink').cut.sheets[1]?.knife).toBe(false);
  });
});

test('what does not belong together is said: a dimple on a plain sheet, a flush head in one', () => {
  expect(cutOf('dimple over plain').cut.sheets.map(({ clash }) => clash)).toEqual([false, true]);
  const proud = cutOf('flush in plain').cut;
  expect(proud.sheets.map(({ clash }) => clash)).toEqual([true, false]);
  expect(proud.proud / 25_400_000).toBeCloseTo(0.042, 3);
  expect(cutOf('two sheets').cut.sheets.some(({ clash, knife }) => clash || knife)).toBe(false);
});
