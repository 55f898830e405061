// Pieces of sheet by their corners, in whole nm, with areas counted exactly. Pure.
import type { Point } from '../../twins/fit.ts';

export type { Point };
export type Ring = readonly Point[];
/** Outer corners counter-clockwise, those of each hole clockwise; the first is not repeated. */
export interface Region {
  readonly outer: Ring;
  readonly holes: readonly Ring[];
}

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

/** Twice the area in nm2; negative for clockwise corners. */
export function doubledArea(ring: Ring): bigint {
  let sum = 0n;
  let [x, y] = (ring.at(-1) ?? [0, 0]).map(BigInt) as [bigint, bigint];
  for (const corner of ring) {
    const [u, v] = corner.map(BigInt) as [bigint, bigint];
    sum += x * v - u * y;
    [x, y] = [u, v];
  }
  return sum;
}

export function doubledAreaOf({ outer, holes }: Region): bigint {
  return holes.reduce((sum, hole) => sum + doubledArea(hole), doubledArea(outer));
}

/** Twice an area in nm2 as whole um2, to the nearest; never below zero. */
export function um2(doubled: bigint): number {
  if (doubled <= 0n) return 0;
  return Number((doubled + DOUBLED_UM2 / 2n) / DOUBLED_UM2);
}

export interface Bounds {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}

export function boundsOf(ring: Ring): Bounds {
  const bounds = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };
  for (const [x, y] of ring) {
    bounds.x0 = Math.min(bounds.x0, x);
    bounds.y0 = Math.min(bounds.y0, y);
    bounds.x1 = Math.max(bounds.x1, x);
    bounds.y1 = Math.max(bounds.y1, y);
  }
  return bounds;
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

/** The region moved so that its lowest x and its lowest y are 0. */
export function toCorner({ outer, holes }: Region): Region {
  const { x0, y0 } = boundsOf(outer);
  const moved = (ring: Ring): Ring => ring.map(([x, y]): Point => [x - x0, y - y0]);
  return { outer: moved(outer), holes: holes.map(moved) };
}

/** Whether a point lies inside the corners; one on a side may be told either way. */
export function holds(ring: Ring, [x, y]: Point): boolean {
  let inside = false;
  let before = ring.at(-1) as Point;
  for (const corner of ring) {
    const [u, v] = corner;
    const [s, t] = before;
    if (v > y !== t > y && x < ((s - u) * (y - v)) / (t - v) + u) inside = !inside;
    before = corner;
  }
  return inside;
}

export function middleOf(ring: Ring): Point {
  const sum = ring.reduce(([x, y], [u, v]) => [x + u, y + v] as const, [0, 0] as const);
  return [sum[0] / ring.length, sum[1] / ring.length];
}

/** Corners without those that repeat the one before or lie on the straight between their neighbours. */
export function tidied(ring: Ring): Ring {
  let corners = [...ring];
  for (let before = -1; corners.length !== before; ) {
    before = corners.length;
    corners = corners.filter((corner, at) => {
      const last = corners.at(at - 1) as Point;
      return corner[0] !== last[0] || corner[1] !== last[1];
    });
    // one at a time: two neighbours that each lie on the other's straight must not both go
    const straight = corners.findIndex((corner, at) => {
      const last = corners.at(at - 1) as Point;
      const next = corners[(at + 1) % corners.length] as Point;
      return corners.length > 3 && doubledArea([last, corner, next]) === 0n;
    });
    if (straight >= 0) corners.splice(straight, 1);
  }
  return corners;
}
