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
  const middle = middleOf(block);
  for (const side of order) {
    const [p, q] = [block[side] as Point, block[(side + 1) % 4] as Point];
    const parted = part(held, p, q);
    const mine = parted?.left.find(({ outer }) => holds(outer, middle));
    if (!parted || !mine) continue;
    cuts.push({ from: parted.from, to: parted.to });
    held = mine;
    remnants.push(...parted.left.filter((one) => one !== mine));
    for (const off of parted.right) remnants.push(...trimmed(off, parted, kerf));
  }
  const kept = remnants.filter((one) => doubledAreaOf(one) > 0n);
  const left = kept.reduce((sum, one) => sum + doubledAreaOf(one), doubledArea(block));
  return { cuts, remnants: kept, doubledDust: doubledAreaOf(sheet) - left };
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
  const found = new Map<string, Freed>();
  for (const order of ordersOf(SIDES.filter((side) => isCut(sheet, block, side)))) {
    const freed = withoutShreds(cutFree(sheet, block, kerf, order));
    const key = freed.remnants.map((one) => JSON.stringify(boundsOf(one.outer))).sort();
    if (!found.has(key.join())) found.set(key.join(), freed);
  }
  return [...found.values()].sort((one, other) => better(one, other, leastUseful)).slice(0, most);
}

const isCut = (sheet: Region, block: Ring, side: number): boolean =>
  part(sheet, block[side] as Point, block[(side + 1) % 4] as Point) !== null;

function ordersOf(sides: readonly number[]): number[][] {
  if (sides.length < 2) return [[...sides]];
  return sides.flatMap((side) =>
    ordersOf(sides.filter((one) => one !== side)).map((rest) => [side, ...rest]),
  );
}

function withoutShreds(freed: Freed): Freed {
  const shreds = freed.remnants.filter((one) => narrowest(one) < SHRED_NM);
  const gone = shreds.reduce((sum, one) => sum + doubledAreaOf(one), 0n);
  return {
    ...freed,
    remnants: freed.remnants
      .filter((one) => !shreds.includes(one))
      .sort((one, other) => Number(doubledAreaOf(other) - doubledAreaOf(one))),
    doubledDust: freed.doubledDust + gone,
  };
}

/** The larger useful remnant first; of like ones, fewer pieces to put away. */
function better(one: Freed, other: Freed, leastUseful: number): number {
  const largest = ({ remnants }: Freed): bigint =>
    remnants.reduce((most, each) => {
      const area = narrowest(each) >= leastUseful ? doubledAreaOf(each) : 0n;
      return area > most ? area : most;
    }, 0n);
  const [mine, its] = [largest(one), largest(other)];
  if (mine !== its) return mine > its ? -1 : 1;
  return one.remnants.length - other.remnants.length;
}
