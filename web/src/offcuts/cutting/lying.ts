// Where blanks may lie on an offcut to be cut from it, square to it first. Pure; lengths nm.
//
// On a rectangle the fit look-up says it. On an odd outline a blank is tried flush with the corners
// that are there, both ways round, as a person does with a pattern in the hand; where the fit curve
// of the outline is on the phone its own place is tried too, askew as it may be.
import { type Point, place, type Way } from '../../twins/fit.ts';
import { part } from './parting.ts';
import {
  type Bounds,
  boundsOf,
  boxRing,
  holds,
  middleOf,
  type Region,
  type Ring,
} from './rings.ts';

export interface Asked {
  width: number;
  height: number;
  /** blanks of this size side by side, a cut apart */
  count: number;
  /** in from the edges on every side */
  clearance: number;
  kerf: number;
  /** which way the grain allows it to lie */
  way: Way;
}
/** Blanks as they lie: each by its corners, and the four corners round all of them. */
export interface Lying {
  blanks: Ring[];
  block: Ring;
}

const MOST_TRIED = 16; // each way
const MOST_FOUND = 24;
const MOST_KEPT = 3;

export function lyingOn(sheet: Region, rectangle: boolean, asked: Asked): Lying[] {
  const rows = rowsOf(asked).flatMap((row) => waysOf(asked).map((way) => turned(row, way)));
  const found = rows.flatMap((row) =>
    rectangle ? inCorner(sheet, row, asked) : flush(sheet, row, asked),
  );
  if (!found.length && rectangle) return askew(sheet, asked);
  return distinct(found);
}

/** A row of blanks: how far one reaches along x and y, how many each way. */
interface Row {
  dx: number;
  dy: number;
  across: number;
  up: number;
}

function rowsOf({ width, height, count }: Asked): Row[] {
  const row = { dx: width, dy: height };
  if (count < 2) return [{ ...row, across: 1, up: 1 }];
  return [
    { ...row, across: count, up: 1 },
    { ...row, across: 1, up: count },
  ];
}

const waysOf = ({ way }: Asked): Way[] =>
  way === 'any' ? ['width along a', 'width along b'] : [way];

function turned(row: Row, way: Way): Row {
  if (way !== 'width along b') return row;
  return { dx: row.dy, dy: row.dx, across: row.up, up: row.across };
}

const sizeOf = ({ dx, dy, across, up }: Row, kerf: number): Point => [
  across * dx + (across - 1) * kerf,
  up * dy + (up - 1) * kerf,
];

function inCorner(sheet: Region, row: Row, { clearance: k, kerf }: Asked): Lying[] {
  const { x1, y1 } = boundsOf(sheet.outer);
  const [wide, high] = sizeOf(row, kerf);
  return wide + 2 * k <= x1 && high + 2 * k <= y1 ? [laid(row, k, k, kerf)] : [];
}

function laid(row: Row, x: number, y: number, kerf: number): Lying {
  const blanks: Ring[] = [];
  for (let i = 0; i < row.across; i += 1)
    for (let j = 0; j < row.up; j += 1) {
      const [x0, y0] = [x + i * (row.dx + kerf), y + j * (row.dy + kerf)];
      blanks.push(boxRing(x0, y0, x0 + row.dx, y0 + row.dy));
    }
  const [wide, high] = sizeOf(row, kerf);
  return { blanks, block: boxRing(x, y, x + wide, y + high) };
}

/** One blank that fits at an angle only. */
function askew(sheet: Region, { width, height, count, clearance, way }: Asked): Lying[] {
  const { x1, y1 } = boundsOf(sheet.outer);
  const found = count < 2 && way === 'any' ? place(width, height, x1, y1, clearance) : null;
  return found ? [anywhere(found.corners)] : [];
}

/** A blank by its corners, in whichever order they go round. */
export function anywhere(corners: readonly Point[]): Lying {
  const middle = middleOf(corners);
  const round = (one: Point): number => Math.atan2(one[1] - middle[1], one[0] - middle[0]);
  const block = [...corners].sort((one, other) => round(one) - round(other));
  return { blanks: [block], block };
}

/** Flush with a corner of the outline each way; those that need the fewest cuts first. */
function flush(sheet: Region, row: Row, { clearance: k, kerf }: Asked): Lying[] {
  const [wide, high] = sizeOf(row, kerf);
  const bounds = boundsOf(sheet.outer);
  const corners = [sheet.outer, ...sheet.holes].flat();
  const starts = (axis: 0 | 1, size: number): number[] => startsOf(corners, axis, size, bounds);
  const found: Lying[] = [];
  for (const x of starts(0, wide + 2 * k))
    for (const y of starts(1, high + 2 * k)) {
      const room = boxRing(x, y, x + wide + 2 * k, y + high + 2 * k);
      if (found.length < MOST_FOUND && liesOn(sheet, room))
        found.push(laid(row, x + k, y + k, kerf));
    }
  const ranked = found.map((lying) => ({ lying, cuts: cutsRound(sheet, lying.block) }));
  ranked.sort((one, other) => one.cuts - other.cuts);
  return ranked.slice(0, MOST_KEPT).map(({ lying }) => lying);
}

/** Where a blank may begin along x or y so that one of its sides is flush with a corner. */
function startsOf(
  corners: readonly Point[],
  axis: 0 | 1,
  size: number,
  { x0, y0, x1, y1 }: Bounds,
): number[] {
  const [low, high] = axis === 0 ? [x0, x1] : [y0, y1];
  const at = corners.map((corner) => corner[axis]);
  const starts = new Set([...at, ...at.map((one) => one - size)]);
  const inside = [...starts].filter((one) => one >= low && one + size <= high);
  inside.sort((one, other) => one - other);
  if (inside.length <= MOST_TRIED) return inside;
  // of a curve, which is many short sides, some from end to end
  const step = (inside.length - 1) / (MOST_TRIED - 1);
  return Array.from({ length: MOST_TRIED }, (_, i) => inside[Math.round(i * step)] as number);
}

const cutsRound = (sheet: Region, block: Ring): number =>
  block.filter((corner, side) => part(sheet, corner, block[(side + 1) % 4] as Point)).length;

/** Whether a blank (four corners, counter-clockwise) lies wholly on metal, to the nanometre. */
export function liesOn({ outer, holes }: Region, block: Ring): boolean {
  const middle = middleOf(block);
  if (!holds(outer, middle) || holes.some((hole) => holds(hole, middle))) return false;
  return ![outer, ...holes].some((ring) =>
    ring.some((corner, at) => entersInto(block, corner, ring[(at + 1) % ring.length] as Point)),
  );
}

/** Whether a side from p to q runs through the inside of a block: clipped by each of its sides. */
function entersInto(block: Ring, p: Point, q: Point): boolean {
  let [from, to] = [0, 1];
  for (const [at, [x, y]] of block.entries()) {
    const [u, v] = block[(at + 1) % block.length] as Point;
    const length = Math.hypot(u - x, v - y);
    const inside = (one: Point): number =>
      ((u - x) * (one[1] - y) - (v - y) * (one[0] - x)) / length - TOUCH_NM;
    const [here, there] = [inside(p), inside(q)];
    if (here <= 0 && there <= 0) return false;
    if (here < 0) from = Math.max(from, here / (here - there));
    else if (there < 0) to = Math.min(to, here / (here - there));
  }
  return to > from;
}
/** A side that comes so near only touches: corners askew are rounded to whole nm. */
const TOUCH_NM = 1;

function distinct(all: Lying[]): Lying[] {
  const seen = new Map(all.map((one) => [JSON.stringify(one.blanks), one]));
  return [...seen.values()];
}
