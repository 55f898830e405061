// Rings of corners in whole nm: areas counted exactly, bounds, turning, moving. Pure.
import { type Point, same, sidesOf, turn } from './exact.ts';

export type Ring = readonly Point[];
/** Outer corners counter-clockwise, those of each hole clockwise; the first is not repeated. */
export interface Region {
  readonly outer: Ring;
  readonly holes: readonly Ring[];
}
export interface Bounds {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}

/** Twice the area in nm2; below zero for clockwise corners. */
export function doubledArea(ring: Ring): bigint {
  return sidesOf(ring).reduce(
    (sum, [[x, y], [u, v]]) => sum + BigInt(x) * BigInt(v) - BigInt(u) * BigInt(y),
    0n,
  );
}

/** The area of metal in whole um2, holes taken off, rounded down. */
export function areaUm2({ outer, holes }: Region): number {
  const doubled = holes.reduce((sum, hole) => sum + doubledArea(hole), doubledArea(outer));
  return Number(doubled / 2_000_000n);
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

/** How far an outline reaches along x and along y. */
export function sizeOf(ring: Ring): { width: number; height: number } {
  const { x0, y0, x1, y1 } = boundsOf(ring);
  return { width: x1 - x0, height: y1 - y0 };
}

/** The same corners, counter-clockwise. */
export function anticlockwise(ring: Ring): Ring {
  return doubledArea(ring) < 0n ? [...ring].reverse() : ring;
}

export function clockwise(ring: Ring): Ring {
  return doubledArea(ring) > 0n ? [...ring].reverse() : ring;
}

/** The region moved so that its lowest x and its lowest y are 0. */
export function toCorner({ outer, holes }: Region): Region {
  const { x0, y0 } = boundsOf(outer);
  const moved = (ring: Ring): Ring => ring.map(([x, y]): Point => [x - x0, y - y0]);
  return { outer: moved(outer), holes: holes.map(moved) };
}

/** Whether a point lies inside a ring; either answer for one exactly on it. */
export function holds(ring: Ring, point: Point): boolean {
  let inside = false;
  for (const [one, other] of sidesOf(ring)) {
    if (one[1] > point[1] === other[1] > point[1]) continue;
    if (turn(one, other, point) > 0 === other[1] > one[1]) inside = !inside;
  }
  return inside;
}

/** A ring without corners named twice in a row or on the straight between their neighbours. */
export function tidied(ring: Ring): Ring {
  const kept: Point[] = [];
  const needless = (middle: Point, next: Point): boolean => {
    const before = kept.at(-2);
    return same(middle, next) || (before !== undefined && between(before, middle, next));
  };
  for (const corner of [...ring, ...ring.slice(0, 1)]) {
    for (let last = kept.at(-1); last && needless(last, corner); last = kept.at(-1)) kept.pop();
    kept.push(corner);
  }
  kept.pop(); // the first again
  const [first, second] = kept;
  const last = kept.at(-1);
  if (kept.length > 3 && first && second && last && between(last, first, second)) kept.shift();
  return kept;
}

function between(one: Point, middle: Point, other: Point): boolean {
  if (turn(one, middle, other) !== 0) return false;
  const on = (middle[0] - one[0]) * (other[0] - middle[0]);
  return on + (middle[1] - one[1]) * (other[1] - middle[1]) >= 0;
}

const MICRO = 1_000_000; // angles are whole millionths of a degree
const QUARTER = 90 * MICRO;

/** Cosine and sine; exact for whole quarter turns. */
export function direction(udeg: number): Point {
  const quarters = udeg / QUARTER;
  if (Number.isInteger(quarters)) {
    const exact = [1, 0, -1, 0, 1];
    const at = ((quarters % 4) + 4) % 4;
    return [exact[at] as number, exact[(at + 3) % 4] as number];
  }
  const angle = (udeg / MICRO) * (Math.PI / 180);
  return [Math.cos(angle), Math.sin(angle)];
}

/** The region turned so that what ran at this angle runs along x, its lowest x and y at 0. */
export function turnedBack({ outer, holes }: Region, udeg: number): Region {
  const [cos, sin] = direction(udeg);
  const back = (ring: Ring): Ring =>
    ring.map(([x, y]): Point => [nm(x * cos + y * sin), nm(y * cos - x * sin)]);
  return toCorner({ outer: back(outer), holes: holes.map(back) });
}

/** To the nearest nm, and never minus zero. */
export function nm(value: number): number {
  return Math.round(value) + 0;
}
