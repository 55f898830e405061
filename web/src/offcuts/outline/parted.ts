// A sheet less what lies within a ring that bulges nowhere inward (a keep-out). The edges of both are
// followed: those of the sheet outside the ring, and the ring backwards inside the sheet. Pure.
import { distance, meet, type Point, type Side, sidesOf, turn } from './exact.ts';
import { doubledArea, holds, type Region, type Ring, tidied } from './rings.ts';

interface Crossing {
  point: Point;
  ring: number; // of the sheet
  side: number; // of that ring
  at: number; // of the ring taken out
  leaving: boolean; // the sheet's edge comes out of the ring here
}

/**
 * What is left of the region, in one piece or several. `apart` where the ring lies outside the metal,
 * `within` where it lies in a hole, `close` where a corner of one is on an edge of the other.
 */
export function parted(region: Region, ring: Ring): Region[] | 'apart' | 'within' | 'close' {
  const rings = [region.outer, ...region.holes];
  const crossings = crossingsOf(rings, ring);
  if (!crossings) return 'close';
  if (!crossings.length) return uncrossed(region, ring);
  const made = [...followed(rings, ring, crossings)];
  for (const [number, one] of rings.entries())
    if (!crossings.some((crossing) => crossing.ring === number) && !holds(ring, one[0] as Point))
      made.push(one);
  return gathered(made.map(tidied).filter((one) => one.length > 2));
}

function uncrossed(region: Region, ring: Ring): Region[] | 'apart' | 'within' {
  const [corner] = ring;
  if (!corner) return 'apart';
  if (holds(ring, region.outer[0] as Point)) return [];
  if (!holds(region.outer, corner)) return 'apart';
  if (region.holes.some((hole) => holds(hole, corner))) return 'within';
  const left = region.holes.filter((hole) => !holds(ring, hole[0] as Point));
  return [{ outer: region.outer, holes: [...left, [...ring].reverse()] }];
}

function crossingsOf(rings: readonly Ring[], ring: Ring): Crossing[] | null {
  const edges = sidesOf(ring);
  const found: Crossing[] = [];
  for (const [number, one] of rings.entries())
    for (const [side, line] of sidesOf(one).entries())
      for (const [at, edge] of edges.entries()) {
        const meeting = meet(line, edge);
        if (!meeting) continue;
        if (meeting.how !== 'cross') return null;
        const leaving = turn(edge[0], edge[1], line[0]) > 0;
        found.push({ point: meeting.at, ring: number, side, at, leaving });
      }
  return found;
}

function* followed(rings: readonly Ring[], ring: Ring, crossings: Crossing[]): Generator<Ring> {
  const sides = rings.map(sidesOf);
  const edges = sidesOf(ring);
  const from = (side: Side | undefined, { point }: Crossing): number =>
    side ? distance(side[0], point) : 0;
  // in the order in which the sheet's edges, and the ring's, come past them
  const onSheet = [...crossings].sort(
    (one, other) =>
      one.ring - other.ring ||
      one.side - other.side ||
      from(sides[one.ring]?.[one.side], one) - from(sides[one.ring]?.[one.side], other),
  );
  const onRing = [...crossings].sort(
    (one, other) => one.at - other.at || from(edges[one.at], one) - from(edges[one.at], other),
  );
  const open = new Set(crossings.filter((one) => one.leaving));
  for (const start of open) {
    const path: Point[] = [];
    let here = start;
    do {
      open.delete(here);
      const entering = nextOnSheet(onSheet, here, rings, path);
      here = nextBackwards(onRing, entering, ring, path);
    } while (here !== start && path.length <= 10_000);
    yield path;
  }
}

/** Along the sheet's edge from where it leaves the ring to where it enters it again. */
function nextOnSheet(order: Crossing[], from: Crossing, rings: readonly Ring[], path: Point[]) {
  const ring = rings[from.ring] as Ring;
  const own = order.filter((one) => one.ring === from.ring);
  const to = own[(own.indexOf(from) + 1) % own.length] as Crossing;
  path.push(from.point);
  const wraps = own.indexOf(to) <= own.indexOf(from);
  const corners = to.side - from.side + (wraps ? ring.length : 0);
  for (let n = 1; n <= corners; n++) path.push(ring[(from.side + n) % ring.length] as Point);
  return to;
}

/** Along the ring, against its own way, from where the sheet's edge goes in to where one comes out. */
function nextBackwards(order: Crossing[], from: Crossing, ring: Ring, path: Point[]) {
  const at = order.indexOf(from);
  const to = order[(at + order.length - 1) % order.length] as Crossing;
  path.push(from.point);
  const wraps = order.indexOf(to) >= at;
  const corners = from.at - to.at + (wraps ? ring.length : 0);
  for (let n = 0; n < corners; n++)
    path.push(ring[(from.at - n + ring.length) % ring.length] as Point);
  return to;
}

/** Rings with the metal to their left, each hole with the piece that it lies in. */
function gathered(rings: readonly Ring[]): Region[] {
  const outers = rings.filter((ring) => doubledArea(ring) > 0n);
  const holes = rings.filter((ring) => doubledArea(ring) < 0n);
  return outers.map((outer) => ({
    outer,
    holes: holes.filter((hole) => holds(outer, hole[0] as Point)),
  }));
}
