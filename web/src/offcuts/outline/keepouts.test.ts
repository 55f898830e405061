import { describe, expect, test } from 'vitest';
import { draw, IN, MM, starRing } from './drawn.test.support.ts';
import type { Point } from './exact.ts';
import { faultsIn } from './faults.ts';
import { type KeepOut, ringAround, without } from './keepouts.ts';
import { sheetRing, withCornersOff } from './plain.ts';
import { areaUm2, boundsOf, holds, type Region } from './rings.ts';

const SHEET = sheetRing(300 * MM, 200 * MM);
const keep = (change: Partial<KeepOut> = {}): KeepOut => ({
  round: false,
  x: 50 * MM,
  fromX: 'left',
  y: 40 * MM,
  fromY: 'bottom',
  width: 30 * MM,
  height: 20 * MM,
  ...change,
});
const inMetal = ({ outer, holes }: Region, at: Point): boolean =>
  holds(outer, at) && !holes.some((hole) => holds(hole, at));

describe('a keep-out', () => {
  test('in the middle is a hole, clockwise', () => {
    const { region, faults } = without(SHEET, [keep()]);
    expect(faults).toEqual([]);
    expect(areaUm2(region)).toBe((300 * 200 - 600) * 1e6);
    expect(region.outer).toEqual(SHEET);
    expect(region.holes).toHaveLength(1);
  });
  test.each([
    ['left', 'bottom', [50, 40]],
    ['right', 'bottom', [220, 40]],
    ['right', 'top', [220, 140]],
    ['left', 'top', [50, 140]],
  ] as const)('is measured from the %s and the %s', (fromX, fromY, [x, y]) => {
    const { x0, y0 } = boundsOf(ringAround(keep({ fromX, fromY }), SHEET));
    expect([x0, y0]).toEqual([x * MM, y * MM]);
  });
  test('at an edge is taken out of the edge', () => {
    const { region, faults } = without(SHEET, [keep({ x: 0 })]);
    expect(faults).toEqual([]);
    expect(region.holes).toEqual([]);
    expect(region.outer).toHaveLength(8);
    const spare = areaUm2(region) - (300 * 200 - 600) * 1e6;
    expect(spare).toBeLessThanOrEqual(0);
    expect(spare).toBeGreaterThan(-1e6); // a hair: less than 1 mm2
  });
  test('in a corner makes an L of it', () => {
    const { region, faults } = without(SHEET, [keep({ x: 0, y: 0 })]);
    expect(faults).toEqual([]);
    expect(region.outer).toHaveLength(6);
  });
  test('over another makes one hole of both', () => {
    const { region, faults } = without(SHEET, [keep(), keep({ x: 60 * MM, y: 50 * MM }), keep()]);
    expect(faults).toEqual([]);
    expect(region.holes).toHaveLength(1);
    expect(areaUm2(region)).toBeLessThanOrEqual((300 * 200 - 1000) * 1e6);
    expect(areaUm2(region)).toBeGreaterThan((300 * 200 - 1002) * 1e6);
  });
  test('outside is told, and drawn where it was told to be', () => {
    const { faults } = without(SHEET, [keep(), keep({ x: 400 * MM })]);
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatchObject({ code: 'outside', points: [[400 * MM, 40 * MM]] });
    expect(faults[0]?.sentence).toMatch(/^Keep-out 2 lies outside the sheet/);
    expect(faults[0]?.sides).toHaveLength(4);
  });
  test('across the whole sheet parts it', () => {
    const across = keep({ y: 0, height: 200 * MM });
    expect(without(SHEET, [across]).faults[0]).toMatchObject({ code: 'parted' });
    const crumb = keep({ x: 2 * MM, y: 0, height: 200 * MM });
    const { faults, remarks, region } = without(SHEET, [crumb]);
    expect(faults).toEqual([]);
    expect(remarks).toHaveLength(1);
    expect(areaUm2(region)).toBeLessThanOrEqual((300 - 32) * 200 * 1e6);
  });
  test('over all of it leaves nothing', () => {
    const all = keep({ x: 0, y: 0, width: 400 * MM, height: 400 * MM });
    expect(without(SHEET, [all]).faults[0]).toMatchObject({ code: 'all' });
  });
  test('round, over a slanted edge', () => {
    const sheet = withCornersOff(
      12 * IN,
      8 * IN,
      [{ corner: 'top right', a: 3 * IN, b: 3 * IN }],
      false,
    );
    const hole = keep({ round: true, x: 10.5 * IN, y: 6.5 * IN, width: IN });
    const { region, faults } = without(sheet, [hole]);
    expect(faults).toEqual([]);
    expect(faultsIn(region.outer, region.holes)).toEqual([]);
    expect(inMetal(region, [10.5 * IN, 6.2 * IN])).toBe(false);
    expect(inMetal(region, [10 * IN, 5.9 * IN])).toBe(true);
  });

  test('anywhere on any outline: nothing of it stays, and nothing else goes', () => {
    const between = draw(2);
    let looked = 0;
    for (let n = 0; n < 120; n++) {
      const sheet = starRing(between, between(3, 24), 300 * MM);
      const { x0, y0, x1, y1 } = boundsOf(sheet);
      const keeps = Array.from({ length: between(1, 4) }, () =>
        keep({
          round: between(0, 1) === 0,
          x: between(0, x1 - x0),
          y: between(0, y1 - y0),
          width: between(1, 90) * MM,
          height: between(1, 90) * MM,
          fromX: between(0, 1) ? 'left' : 'right',
          fromY: between(0, 1) ? 'bottom' : 'top',
        }),
      );
      const { region, faults } = without(sheet, keeps);
      expect(faultsIn(region.outer, region.holes)).toEqual([]);
      if (faults.length) continue;
      looked++;
      const rings = keeps.map((one) => ringAround(one, sheet));
      const grown = keeps.map((one) => ringAround(one, sheet, 60_000));
      let lost = 0;
      for (let m = 0; m < 200; m++) {
        const at: Point = [between(x0, x1), between(y0, y1)];
        if (rings.some((ring) => holds(ring, at))) expect(inMetal(region, at)).toBe(false);
        else if (!holds(sheet, at)) expect(inMetal(region, at)).toBe(false);
        else if (!grown.some((ring) => holds(ring, at)) && !inMetal(region, at)) lost++;
      }
      // only what a keep-out parts from the sheet may be gone as well
      expect(lost).toBeLessThan(20);
    }
    expect(looked).toBeGreaterThan(40);
  });
});
