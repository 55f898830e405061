// Which way three points turn, and how two sides meet: exact for whole nm. Ordinary numbers decide
// where they are far from the edge, whole numbers (BigInt) where it is close. Pure.
import type { Point } from '../../twins/fit.ts';

export type { Point };
export type Side = readonly [Point, Point];

/** 1 where c lies to the left of the line from a to b, -1 to the right, 0 on it. */
export function turn(a: Point, b: Point, c: Point): -1 | 0 | 1 {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]];
  const [one, other] = [ux * vy, uy * vx];
  const spare = one - other;
  // two roundings in the sixteenth figure: a hundred times that is safe to decide on
  if (Math.abs(spare) > 1e-14 * (Math.abs(one) + Math.abs(other))) return spare > 0 ? 1 : -1;
  const exact = BigInt(ux) * BigInt(vy) - BigInt(uy) * BigInt(vx);
  return exact > 0n ? 1 : exact < 0n ? -1 : 0;
}

export const same = (one: Point, other: Point): boolean =>
  one[0] === other[0] && one[1] === other[1];

/** Whether a point on the line through a side lies within that side, ends included. */
function within([a, b]: Side, [x, y]: Point): boolean {
  return (
    Math.min(a[0], b[0]) <= x &&
    x <= Math.max(a[0], b[0]) &&
    Math.min(a[1], b[1]) <= y &&
    y <= Math.max(a[1], b[1])
  );
}

export type Meeting = { how: 'cross' | 'touch' | 'along'; at: Point };

/** How two sides meet; null where they do not. `at` is to the nearest nm where they cross. */
export function meet(one: Side, other: Side): Meeting | null {
  if (apart(one, other)) return null;
  const [a, b] = one;
  const [c, d] = other;
  const ends = [turn(a, b, c), turn(a, b, d), turn(c, d, a), turn(c, d, b)] as const;
  if (ends.every((way) => way === 0)) return along(one, other);
  const [ofC, ofD, ofA, ofB] = ends;
  if (ofC * ofD > 0 || ofA * ofB > 0) return null;
  if (ofC * ofD < 0 && ofA * ofB < 0) return { how: 'cross', at: crossing(one, other) };
  const at = ofC === 0 ? c : ofD === 0 ? d : ofA === 0 ? a : b;
  return { how: 'touch', at };
}

function apart([a, b]: Side, [c, d]: Side): boolean {
  return (
    Math.max(a[0], b[0]) < Math.min(c[0], d[0]) ||
    Math.max(c[0], d[0]) < Math.min(a[0], b[0]) ||
    Math.max(a[1], b[1]) < Math.min(c[1], d[1]) ||
    Math.max(c[1], d[1]) < Math.min(a[1], b[1])
  );
}

/** Of two sides on one line: along each other, or end to end. */
function along(one: Side, other: Side): Meeting | null {
  const [a, b] = one;
  const [c, d] = other;
  const shared = [
    ...[c, d].filter((end) => within(one, end)),
    ...[a, b].filter((end) => within(other, end)),
  ];
  const [first] = shared;
  if (!first) return null;
  const more = shared.find((end) => !same(end, first));
  return { how: more ? 'along' : 'touch', at: first };
}

/** Where the lines through two sides cross, to the nearest nm. They must not be parallel. */
export function crossing([a, b]: Side, [c, d]: Side): Point {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]].map(BigInt) as [
    bigint,
    bigint,
    bigint,
    bigint,
  ];
  const below = ux * vy - uy * vx;
  const above = BigInt(c[0] - a[0]) * vy - BigInt(c[1] - a[1]) * vx;
  return [a[0] + share(ux * above, below), a[1] + share(uy * above, below)];
}

function share(above: bigint, below: bigint): number {
  const [top, bottom] = below < 0n ? [-above, -below] : [above, below];
  const doubled = 2n * top + bottom;
  const whole = doubled / (2n * bottom);
  return Number(doubled < 0n && whole * 2n * bottom !== doubled ? whole - 1n : whole);
}

export function sidesOf(ring: readonly Point[]): Side[] {
  return ring.map((corner, at): Side => [corner, ring[(at + 1) % ring.length] as Point]);
}

export function distance(one: Point, other: Point): number {
  return Math.hypot(other[0] - one[0], other[1] - one[1]);
}
