// Cuts from edge to edge that free a blank, as shears, snips and a bandsaw make them: each runs
// right across the piece that is held, along a side of the blank, and parts it in two. For
// rectangles the same as cut_rectangle in server/bucktail/offcuts/cutting.py, held together by
// tests/vectors/cuts.json. Pure.
import { part } from './parting.ts';
import {
  boundsOf,
  doubledArea,
  doubledAreaOf,
  holds,
  middleOf,
  narrowest,
  type Point,
  type Region,
  type Ring,
  roughAreaOf,
} from './rings.ts';

export interface CutLine {
  from: Point;
  to: Point;
}
/** What freeing a blank leaves. Twice the area that became dust (nm2), so that it is whole. */
export interface Freed {
  cuts: CutLine[];
  remnants: Region[];
  doubledDust: bigint;
}

/** Thinner than this is no piece of metal that anyone picks up; it counts as dust. */
const SHRED_NM = 100_000;
const SIDES = [0, 1, 2, 3];

/**
 * Frees the blank `block` (four corners, counter-clockwise) with cuts along its sides in `order`,
 * 0 being the side from its first corner to its second. The kerf (nm) is taken from the far side.
 */
export function cutFree(sheet: Region, block: Ring, kerf: number, order: readonly number[]): Freed {
  let held = sheet;
  const cuts: CutLine[] = [];
  const remnants: Region[] = [];
  for (const side of order) {
    const done = cutAlong(held, block, side, kerf);
    if (!done) continue;
    held = done.held;
    cuts.push(done.cut);
    remnants.push(...done.off);
  }
  return freed(sheet, block, cuts, remnants);
}

function freed(sheet: Region, block: Ring, cuts: CutLine[], remnants: Region[]): Freed {
  const left = remnants.reduce((sum, one) => sum + doubledAreaOf(one), doubledArea(block));
  return { cuts, remnants, doubledDust: doubledAreaOf(sheet) - left };
}

interface Done {
  held: Region;
  cut: CutLine;
  off: Region[];
}

/** One cut across the piece that is held; null where there is no metal beyond that side. */
function cutAlong(held: Region, block: Ring, side: number, kerf: number): Done | null {
  const parted = part(held, block[side] as Point, block[(side + 1) % 4] as Point);
  const middle = middleOf(block);
  const mine = parted?.left.find(({ outer }) => holds(outer, middle));
  if (!parted || !mine) return null;
  const off = parted.right.flatMap((one) => trimmed(one, parted, kerf));
  return {
    held: mine,
    cut: { from: parted.from, to: parted.to },
    off: [...parted.left.filter((one) => one !== mine), ...off],
  };
}

/** A piece that came off to the right of a cut, less the width of the cut. */
function trimmed(off: Region, { from, to }: CutLine, kerf: number): Region[] {
  if (kerf === 0) return [off];
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [dx, dy] = [((to[1] - from[1]) / length) * kerf, ((from[0] - to[0]) / length) * kerf];
  const shifted = ([x, y]: Point): Point => [Math.round(x + dx), Math.round(y + dy)];
  return part(off, shifted(from), shifted(to))?.right ?? [];
}

/** The ways to free a block that differ in what they leave, the most useful first. */
export function waysToFree(
  sheet: Region,
  block: Ring,
  kerf: number,
  leastUseful: number,
  most = 4,
): Freed[] {
  const found = new Map<string, { cuts: CutLine[]; remnants: Region[] }>();
  const goOn = (
    held: Region,
    sides: readonly number[],
    cuts: CutLine[],
    so_far: Region[],
  ): void => {
    let whole = true;
    for (const side of sides) {
      const done = cutAlong(held, block, side, kerf);
      if (!done) continue;
      whole = false;
      const rest = sides.filter((one) => one !== side);
      goOn(done.held, rest, [...cuts, done.cut], [...so_far, ...done.off]);
    }
    if (!whole) return;
    const remnants = so_far.filter((one) => narrowest(one) >= SHRED_NM);
    const key = remnants.map((one) => JSON.stringify(boundsOf(one.outer))).sort();
    if (!found.has(key.join())) found.set(key.join(), { cuts, remnants });
  };
  goOn(sheet, SIDES, [], []);
  const ways = [...found.values()].map((way) => ({
    ...way,
    best: largest(way.remnants, leastUseful),
  }));
  ways.sort((one, other) => other.best - one.best || one.remnants.length - other.remnants.length);
  return ways.slice(0, most).map(({ cuts, remnants }) => {
    const sorted = remnants.sort((one, other) => roughAreaOf(other) - roughAreaOf(one));
    return freed(sheet, block, cuts, sorted);
  });
}

/** Twice the area of the largest piece that is worth keeping (nm2). */
export function largest(remnants: readonly Region[], leastUseful: number): number {
  const useful = remnants.filter((one) => narrowest(one) >= leastUseful);
  return Math.max(0, ...useful.map(roughAreaOf));
}
