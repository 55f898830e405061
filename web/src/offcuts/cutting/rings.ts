// Pieces of sheet as they are cut: what outline/rings.ts has, and what cutting asks besides. Pure.

import type { Point } from '../../twins/fit.ts';
import { type Bounds, boundsOf, doubledArea, type Region, type Ring } from '../outline/rings.ts';

export { boundsOf, doubledArea, holds, tidied, toCorner } from '../outline/rings.ts';
export type { Bounds, Point, Region, Ring };

const DOUBLED_UM2 = 2_000_000n; // nm2

/** A sheet of a x b with its corner at the origin. */
export function sheetOf(a: number, b: number): Region {
  return { outer: boxRing(0, 0, a, b), holes: [] };
}

export function boxRing(x0: number, y0: number, x1: number, y1: number): Ring {
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
}

/** Twice the area of metal in nm2, holes taken off. */
export function doubledAreaOf({ outer, holes }: Region): bigint {
  return holes.reduce((sum, hole) => sum + doubledArea(hole), doubledArea(outer));
}

/** Twice the area inside corners, to sixteen figures: to tell which way round, and which is larger. */
export function roughArea(ring: Ring): number {
  const [x0, y0] = ring[0] ?? [0, 0];
  let sum = 0;
  let [x, y] = [0, 0];
  for (const corner of ring) {
    const [u, v] = [corner[0] - x0, corner[1] - y0];
    sum += x * v - u * y;
    [x, y] = [u, v];
  }
  return sum;
}

const known = new WeakMap<Region, number>();
/** The same of a piece, holes taken off; reckoned once for each piece. */
export function roughAreaOf(region: Region): number {
  const before = known.get(region);
  if (before !== undefined) return before;
  const area = region.holes.reduce((sum, hole) => sum + roughArea(hole), roughArea(region.outer));
  known.set(region, area);
  return area;
}

/** Twice an area in nm2 as whole um2, to the nearest; never below zero. */
export function um2(doubled: bigint): number {
  if (doubled <= 0n) return 0;
  return Number((doubled + DOUBLED_UM2 / 2n) / DOUBLED_UM2);
}

/** How wide it is the narrower way, along x or y. */
export function narrowest(region: Region): number {
  const { x0, y0, x1, y1 } = boundsOf(region.outer);
  return Math.min(x1 - x0, y1 - y0);
}

/** Whether it is a rectangle along x and y, without a hole. */
export function isBox({ outer, holes }: Region): boolean {
  if (outer.length !== 4 || holes.length) return false;
  const { x0, y0, x1, y1 } = boundsOf(outer);
  return outer.every(([x, y]) => (x === x0 || x === x1) && (y === y0 || y === y1));
}

export function middleOf(ring: Ring): Point {
  const sum = ring.reduce(([x, y], [u, v]) => [x + u, y + v] as const, [0, 0] as const);
  return [Math.round(sum[0] / ring.length), Math.round(sum[1] / ring.length)];
}
