// A cut along a straight line parts a piece of sheet. Pure.
//
// The line is walked along; a piece is parted only on those stretches of it that meet the side of
// the blank, so that the other leg of a U is left alone. A keep-out that lies in the way is cut
// through. Corners on the line count as lying to its left.
import {
  doubledArea,
  holds,
  type Point,
  type Region,
  type Ring,
  roughArea,
  tidied,
} from './rings.ts';

export interface Parted {
  /** what lies to the left of the line where it cuts, and to the right */
  left: Region[];
  right: Region[];
  /** the cut itself, from where it enters metal to where it leaves it last */
  from: Point;
  to: Point;
}

interface Crossing {
  ring: number;
  edge: number;
  point: Point;
  /** how far along the line, and how that changes towards its right */
  at: number;
  slope: number;
  partner?: Crossing;
  down?: boolean; // it goes on to the right of the line
}
const TOUCHES_NM = 0.5;

/**
 * Parts `region` along the straight through `p` and `q`, where it meets the stretch between them.
 * Null where no metal lies beyond it there.
 */
export function part(region: Region, p: Point, q: Point): Parted | null {
  const line = lineThrough(p, q);
  const rings = [region.outer, ...region.holes];
  const crossings = rings.flatMap((ring, at) => crossingsOf(ring, at, line));
  const cut = chosen(crossings, line.length);
  const [first, last] = [cut[0], cut.at(-1)];
  if (!first || !last) return null;
  for (let at = 0; at + 1 < cut.length; at += 2) {
    const [one, other] = [cut[at] as Crossing, cut[at + 1] as Crossing];
    one.partner = other;
    other.partner = one;
  }
  return { ...assembled(rings, cut), from: first.point, to: last.point };
}

interface Line {
  side: (point: Point) => number; // above zero to the left
  along: (point: Point) => number;
  length: number;
}

function lineThrough(p: Point, q: Point): Line {
  const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
  const length = Math.hypot(dx, dy);
  return {
    length,
    along: ([x, y]) => ((x - p[0]) * dx + (y - p[1]) * dy) / length,
    side: (point) => {
      const [one, other] = [dx * (point[1] - p[1]), dy * (point[0] - p[0])];
      const found = one - other;
      // rounding may not decide on which side a corner lies
      if (Math.abs(found) > 1e-12 * (Math.abs(one) + Math.abs(other))) return found / length;
      return Number(doubledArea([p, q, point])) / length;
    },
  };
}

function crossingsOf(ring: Ring, index: number, { side, along }: Line): Crossing[] {
  const found: Crossing[] = [];
  ring.forEach((corner, edge) => {
    const next = ring[(edge + 1) % ring.length] as Point;
    const [here, there] = [side(corner), side(next)];
    if (here >= 0 === there >= 0) return;
    const share = here / (here - there);
    const point: Point = [
      Math.round(corner[0] + (next[0] - corner[0]) * share),
      Math.round(corner[1] + (next[1] - corner[1]) * share),
    ];
    const [start, end] = [along(corner), along(next)];
    const at = start + (end - start) * share;
    const slope = (end - start) / (here - there);
    found.push({ ring: index, edge, point, at, slope, down: here >= 0 });
  });
  return found;
}

/** The crossings between which metal is cut: of each stretch inside the outline that is met. */
function chosen(crossings: Crossing[], length: number): Crossing[] {
  const sorted = crossings.sort((one, other) => one.at - other.at || one.slope - other.slope);
  const outer = sorted.filter(({ ring }) => ring === 0);
  const taken: Crossing[] = [];
  for (let at = 0; at + 1 < outer.length; at += 2) {
    const [from, to] = [outer[at] as Crossing, outer[at + 1] as Crossing];
    if (Math.min(to.at, length) - Math.max(from.at, 0) < TOUCHES_NM) continue;
    taken.push(...sorted.slice(sorted.indexOf(from), sorted.indexOf(to) + 1));
  }
  return taken;
}

/** Walks the corners, turning along the cut at every crossing of it, and sorts what comes of it. */
function assembled(rings: Ring[], cut: Crossing[]): { left: Region[]; right: Region[] } {
  const byEdge = new Map(cut.map((one) => [`${one.ring} ${one.edge}`, one]));
  const walked = new Set<string>();
  const outers: { ring: Ring; left: boolean }[] = [];
  const holes: Ring[] = [];
  rings.forEach((ring, index) => {
    ring.forEach((_, start) => {
      const made = walk(rings, byEdge, walked, index, start);
      if (!made) return;
      const tidy = tidied(made.ring);
      const area = tidy.length < 3 ? 0 : roughArea(tidy);
      if (area > 0) outers.push({ ring: tidy, left: made.left });
      else if (area < 0) holes.push(tidy);
    });
  });
  const parts = outers.map(({ ring, left }) => ({ left, outer: ring, holes: [] as Ring[] }));
  for (const hole of holes) {
    const around = parts.filter(({ outer }) => holds(outer, hole[0] as Point));
    around[0]?.holes.push(hole);
  }
  const regions = (left: boolean): Region[] =>
    parts.filter((one) => one.left === left).map(({ outer, holes }) => ({ outer, holes }));
  return { left: regions(true), right: regions(false) };
}

function walk(
  rings: Ring[],
  byEdge: Map<string, Crossing>,
  walked: Set<string>,
  index: number,
  start: number,
): { ring: Ring; left: boolean } | null {
  const made: Point[] = [];
  let [at, corner, left] = [index, start, false];
  while (!walked.has(`${at} ${corner}`)) {
    walked.add(`${at} ${corner}`);
    const ring = rings[at] as Ring;
    made.push(ring[corner] as Point);
    const crossing = byEdge.get(`${at} ${corner}`);
    const on = crossing?.partner;
    if (crossing && on) {
      made.push(crossing.point, on.point);
      if (crossing.down) left = true;
      [at, corner] = [on.ring, (on.edge + 1) % (rings[on.ring] as Ring).length];
    } else corner = (corner + 1) % ring.length;
  }
  return made.length ? { ring: made, left } : null;
}
