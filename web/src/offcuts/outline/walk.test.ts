import { describe, expect, test } from 'vitest';
import { draw, IN, MM } from './drawn.test.support.ts';
import { type Point, same } from './exact.ts';
import { crossedOn, faultsIn } from './faults.ts';
import { areaUm2, holds, type Ring } from './rings.ts';
import { closingOf, ringOf, type Step, walk } from './walk.ts';

const SQUARE = 90_000_000;
const INWARD = 270_000_000;
const side = (length: number, corner = SQUARE): Step => ({ length, corner });
const around = (steps: Step[], back = false) => {
  const walked = walk(steps);
  const closing = closingOf(steps, walked, back);
  return { walked, closing, ...ringOf(steps, walked, closing) };
};

describe('walking round', () => {
  test('a rectangle comes back to the nanometre', () => {
    const { closing, ring, of } = around([
      side(12 * IN),
      side(8 * IN),
      side(12 * IN),
      side(8 * IN),
    ]);
    expect(closing).toEqual({ is: 'closed', gap: 0 });
    expect(ring).toEqual([
      [0, 0],
      [12 * IN, 0],
      [12 * IN, 8 * IN],
      [0, 8 * IN],
    ]);
    expect(of).toEqual([0, 1, 2, 3]);
  });
  test('an L, with one corner into the sheet', () => {
    const steps = [
      side(10 * MM),
      side(4 * MM),
      side(6 * MM, INWARD),
      side(6 * MM),
      side(4 * MM),
      side(10 * MM),
    ];
    const { ring, closing } = around(steps);
    expect(closing.is).toBe('closed');
    expect(areaUm2({ outer: ring, holes: [] })).toBe(64e6);
    expect(faultsIn(ring)).toEqual([]);
  });
  test('corners of any angle: a hexagon', () => {
    const { ring, closing } = around(Array.from({ length: 6 }, () => side(100 * MM, 120_000_000)));
    expect(closing.gap).toBeLessThan(10);
    expect(['closed', 'nearly']).toContain(closing.is);
    expect(
      areaUm2({ outer: ring, holes: [] }) / ((3 * Math.sqrt(3) * 100 ** 2 * 1e6) / 2),
    ).toBeCloseTo(1, 6);
  });
  test('the last side may run straight back', () => {
    const { ring, closing, of } = around([side(300 * MM), side(200 * MM, 120_000_000)], true);
    expect(closing.is).toBe('back');
    expect(ring).toHaveLength(3);
    expect(of).toEqual([0, 1, 2]);
  });
  test('a curved side gives its chords the number of its side', () => {
    const steps = [
      side(100 * MM),
      { ...side(50 * MM), curve: { rise: 5 * MM, way: 'out' as const } },
      side(100 * MM),
      side(50 * MM),
    ];
    const { ring, of } = around(steps);
    expect(of.filter((at) => at === 1).length).toBeGreaterThan(3);
    expect(ring).toHaveLength(of.length);
    expect(faultsIn(ring)).toEqual([]);
    expect(Math.max(...ring.map(([x]) => x))).toBeLessThanOrEqual(105 * MM);
  });
});

describe('a walk that does not come back', () => {
  test('by a little is closed', () => {
    expect(
      around([side(300 * MM), side(200 * MM), side(301 * MM), side(200 * MM)]).closing,
    ).toEqual({
      is: 'nearly',
      gap: MM,
    });
  });
  test('by more is open, with how far', () => {
    const { closing } = around([side(300 * MM), side(200 * MM), side(280 * MM), side(200 * MM)]);
    expect(closing).toEqual({ is: 'open', gap: 20 * MM });
    // of a large sheet as of a small one: no more than a gap that measuring leaves
    expect(
      around([side(3000 * MM), side(900 * MM), side(3004 * MM), side(900 * MM)]).closing.is,
    ).toBe('open');
    expect(around([side(30 * MM), side(20 * MM), side(31 * MM), side(20 * MM)]).closing.is).toBe(
      'open',
    );
  });

  test('closed on the safe side: only what is metal wherever the corner is', () => {
    const between = draw(5);
    let crossings = 0;
    for (let n = 0; n < 150; n++) {
      const [w, h] = [between(200, 400) * MM, between(200, 400) * MM];
      const lean = between(70, 110) * 1_000_000;
      const steps = [
        side(w, lean),
        side(h, 2 * SQUARE - lean),
        side(w + between(-1000, 1000) * 1000, lean + between(-100_000, 100_000)),
        side(h + between(-1000, 1000) * 1000),
      ];
      const walked = walk(steps);
      const closing = closingOf(steps, walked, false);
      if (closing.is !== 'nearly') continue;
      const { ring } = ringOf(steps, walked, closing);
      expect(faultsIn(ring)).toEqual([]);
      const asStarted: Ring = walked.ends.slice(0, -1);
      const asEnded: Ring = [walked.ends.at(-1) as Point, ...walked.ends.slice(1, -1)];
      for (const other of [asStarted, asEnded])
        expect(areaUm2({ outer: ring, holes: [] })).toBeLessThanOrEqual(
          areaUm2({ outer: other, holes: [] }) + 2,
        );
      const [cx, cy] = walked.ends[0] as Point;
      const [began, ended] = [walked.ends[0], walked.ends.at(-1)] as [Point, Point];
      if (!ring.some((corner) => same(corner, began) || same(corner, ended))) crossings++;
      for (let m = 0; m < 60; m++) {
        const at: Point = [cx + between(-3 * MM, 3 * MM), cy + between(-3 * MM, 3 * MM)];
        const both = holds(asStarted, at) && holds(asEnded, at);
        if (!both) expect(holds(ring, at)).toBe(false);
      }
    }
    expect(crossings).toBeGreaterThan(8);
  });

  test('so too where it begins in the inner corner of an L', () => {
    const between = draw(8);
    let joints = 0;
    for (let n = 0; n < 100; n++) {
      const off = (): number => between(-800, 800) * 1000;
      const steps = [100, 100, 200, 200, 100, 100].map((length, at) =>
        side(length * MM + (at > 3 ? off() : 0), SQUARE),
      );
      const walked = walk(steps);
      const closing = closingOf(steps, walked, false);
      if (closing.is !== 'nearly') continue;
      const { ring, of } = ringOf(steps, walked, closing);
      expect(faultsIn(ring)).toEqual([]);
      expect(of).toHaveLength(ring.length);
      if (ring.length > 6) joints++;
      const [began, ended] = [walked.ends[0], walked.ends.at(-1)] as [Point, Point];
      for (let m = 0; m < 60; m++) {
        const at: Point = [began[0] + between(-MM, MM), began[1] + between(-MM, MM)];
        const both = [began, ended].every((from) => holds([from, ...walked.ends.slice(1, -1)], at));
        if (!both) expect(holds(ring, at)).toBe(false);
      }
    }
    expect(joints).toBeGreaterThan(8);
  });
});

describe('what is wrong with a walk', () => {
  const called = {
    side: (at: number) => `side ${at + 1}`,
    hole: (at: number) => `keep-out ${at + 1}`,
  };
  test('sides that cross, at their place', () => {
    const steps = [side(100 * MM), side(60 * MM), side(50 * MM), side(90 * MM)];
    const [fault] = crossedOn(walk(steps).ends, called);
    expect(fault).toMatchObject({ code: 'crossed', points: [[50 * MM, 0]] });
    expect(fault?.sentence).toBe(
      'Side 4 crosses side 1. Look at the lengths and corners that lead there.',
    );
  });
  test('out and back on itself', () => {
    const steps = [side(100 * MM, 2 * SQUARE), side(50 * MM, 0), side(40 * MM)];
    expect(crossedOn(walk(steps).ends, called)[0]?.sentence).toContain(
      'Side 3 runs back along side 2',
    );
  });
});
