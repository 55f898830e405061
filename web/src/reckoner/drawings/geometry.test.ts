import { describe, expect, test } from 'vitest';
import { axis } from './axis.ts';
import { FLATS, IN, inch, LAYOUTS, STACKS } from './cases.test.support.ts';
import { drawFlat } from './flat.ts';
import { drawLayout, type Layout } from './layout.ts';
import { type Picture, USUAL_WIDTH } from './picture.ts';
import { place } from './placing.ts';
import { bentProfile } from './profile.ts';
import { spread } from './spread.ts';
import { drawStack } from './stack.ts';

const texts = ({ figures }: Picture): string[] => figures.map(({ text }) => text);

describe('labels moved apart', () => {
  test('stay where they belong when there is room', () => {
    expect(spread([10, 40, 80], [20, 20, 20])).toEqual([10, 40, 80]);
  });
  test('share what they have to move, and keep their order', () => {
    expect(spread([50, 50], [20, 20])).toEqual([40, 60]);
    expect(spread([50, 52, 54, 200], [20, 20, 20, 20])).toEqual([32, 52, 72, 200]);
  });
  test('stay below a limit', () => {
    expect(spread([5, 5], [20, 20], 0)).toEqual([10, 30]);
  });
});

describe('an axis', () => {
  test('is to scale when nothing is long', () => {
    const { to, size, breaks } = axis([0, 100, 40], 2);
    expect([to(0), to(40), to(70), size, breaks]).toEqual([0, 80, 140, 200, []]);
  });
  test('breaks a stretch that is too long in its middle, and keeps the rest to scale', () => {
    const { to, size, breaks, hidden } = axis([0, 10, 1000, 1010], 2, 60);
    expect([to(10), to(1000), to(1010), size]).toEqual([20, 80, 100, 100]);
    expect(breaks).toEqual([50]);
    expect(hidden).toEqual([[10, 1000]]);
  });
});

describe('the bent sheet', () => {
  test('a channel is as wide outside as its base and as high as its legs', () => {
    // FAA-H-8083-31, chapter 4, the channel of .040 with radius .16: flats .80, 1.60 and .80
    const turn = { angle: 90, radius: 0.16, up: true };
    const { outline, flats } = bentProfile([0.8, 1.6, 0.8], [turn, turn], 0.04);
    const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(2, 6);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(1, 6);
    expect(flats[1]?.square[1]).toBeCloseTo(1, 6); // the longest lies level
  });
  test('bends up and down undo each other', () => {
    const [up, down] = [
      { angle: 90, radius: 1, up: true },
      { angle: 90, radius: 1, up: false },
    ];
    const { flats } = bentProfile([5, 2, 3], [up, down], 0.5);
    expect(flats[2]?.square[0]).toBeCloseTo(0, 6);
    expect((flats[2]?.at[1] ?? 0) - (flats[0]?.at[1] ?? 0)).toBeCloseTo(2 + 2 * 1.25, 6);
  });
});

describe('the flat', () => {
  test('has running dimensions from the datum, in order, to the end', () => {
    const picture = drawFlat(FLATS.channel ?? never(), USUAL_WIDTH);
    const figures = picture.figures.filter(({ hold, x }) => hold === 'end' && x > 200);
    const running = figures.map(({ text }) => Number(text)).filter((one) => !Number.isNaN(one));
    // 3.7581: 3.20 of flats and two allowances of (0.01743 R + 0.0078 T) a degree, worked out
    expect(running).toEqual([0, 0.8, 0.9395, 0.96, 1.0791, 2.6791, 2.8186, 2.8391, 2.9581, 3.7581]);
    expect(texts(picture)).toEqual(expect.arrayContaining(['1 in', '2 in', 'grain', 'sight']));
  });
  test('is to scale where nothing is broken', () => {
    const { strokes } = drawFlat(FLATS.channel ?? never(), USUAL_WIDTH);
    const y = (look: string, at = 0): number =>
      strokes.filter((one) => one.look === look)[at]?.points[0]?.[1] ?? 0;
    const ratio = (y('centre', 1) - y('datum')) / (y('centre') - y('datum'));
    expect(ratio).toBeCloseTo(2.8186 / 0.9395, 3);
  });
});

describe('a piece with its holes', () => {
  const room = { left: 80, top: 20, across: 240 };
  const placed = (name: string) => place(LAYOUTS[name] ?? never(), room);

  test('is drawn whole, to scale, where its holes can be seen', () => {
    const { left, right, top, bottom, holes, along, across, x, radius } =
      placed('two rows of four');
    expect([along, across]).toEqual([[], []]);
    expect(holes.map((row) => row.length)).toEqual([4, 4]);
    expect((right - left) / (bottom - top)).toBeCloseTo(2, 6);
    expect(x(inch(0.5)) - left).toBeCloseTo((right - left) / 5, 6);
    expect(radius * 2).toBeCloseTo((0.1285 * (right - left)) / 2.5, 6);
  });

  test('else some of two hundred holes are left out, and the pitch is still to scale', () => {
    const { left, right, holes, along, across, x, radius } = placed('two hundred along a skin');
    expect([along.length, across.length]).toEqual([1, 1]);
    expect(right - left).toBeLessThanOrEqual(240);
    expect(holes[0]?.length).toBeGreaterThanOrEqual(3);
    expect(holes[0]?.length).toBeLessThan(12);
    const pitch = x(inch(0.85)) - x(inch(0.25));
    expect(pitch / radius).toBeCloseTo(0.6 / 0.049, 6);
  });

  test('says how many holes at what pitch', () => {
    const name = 'two rows of thirty-seven';
    const picture = drawLayout(LAYOUTS[name] ?? never(), USUAL_WIDTH);
    expect(texts(picture)).toEqual(expect.arrayContaining(['37 holes', '36 × 14.29 mm']));
  });

  test('draws what fails with two bold lines and says by how much, and nothing else so', () => {
    const layout = LAYOUTS['one hole near its edges'] ?? never();
    const failing = drawLayout(layout, USUAL_WIDTH);
    expect(failing.strokes.filter(({ look }) => look === 'heavy')).toHaveLength(2);
    expect(texts(failing).filter((text) => text.includes('short'))).toEqual(['1/16 in short']);
    const { short: _, ...meets } = layout;
    const passing = drawLayout(meets satisfies Layout, USUAL_WIDTH);
    expect(passing.strokes.some(({ look }) => look === 'heavy')).toBe(false);
    expect(texts(passing).some((text) => text.includes('short'))).toBe(false);
  });
});

describe('the joint', () => {
  test('is to scale: what sticks out against the shop head', () => {
    const stack = STACKS['two sheets'] ?? never();
    const { solids } = drawStack(stack, USUAL_WIDTH);
    const [before, , shop] = solids.filter(({ look }) => look === 'rivet');
    const extent = (points: readonly (readonly [number, number])[] = [], axis: 0 | 1) =>
      Math.max(...points.map((one) => one[axis])) - Math.min(...points.map((one) => one[axis]));
    const scale = extent(shop?.points, 0) / stack.rivet.diameter / 1.5;
    expect(extent(shop?.points, 1) / scale).toBeCloseTo(stack.rivet.diameter / 2, 0);
    const long = 0.054 + 0.072 + 0.1875; // head, grip and what sticks out
    expect(extent(before?.points, 1) / scale / IN).toBeCloseTo(long, 5);
  });
  test('says the grip, every sheet, what sticks out in lengths and diameters, and the shop head', () => {
    const said = texts(drawStack(STACKS['two sheets, mm'] ?? never(), USUAL_WIDTH));
    for (const text of [
      'grip 1.829 mm',
      '0.813',
      '1.016',
      '4.76 mm',
      '1.5 D',
      '4.76 × 1.59 mm',
      '1.5 D × 0.5 D',
    ])
      expect(said).toContain(text);
  });
  test('hatches what is new and says so, and shows the stack as it was', () => {
    const picture = drawStack(STACKS['a shim put in'] ?? never(), USUAL_WIDTH);
    expect(picture.solids.some(({ look }) => look === 'new')).toBe(true);
    expect(texts(picture)).toEqual(expect.arrayContaining(['new', 'as it was', 'grip .072 in']));
  });
});

function never(): never {
  throw new Error('there is no such case');
}
