// What a cut leaves, ready to be shown and changed: pieces that stay with their sizes, those too
// narrow to keep, and what became dust. Pure.
import { readLength, showLength, type Unit } from '../../twins/lengths.ts';
import type { Fields } from '../piece.ts';
import type { Measure } from '../wanted.ts';
import { type Asked, type Lying, lyingOn } from './lying.ts';
import {
  boundsOf,
  doubledArea,
  doubledAreaOf,
  isBox,
  narrowest,
  type Region,
  sheetOf,
  toCorner,
  um2,
} from './rings.ts';
import { type Freed, largest, waysToFree } from './straight.ts';

/** A piece that stays: where it lay, and how it is recorded. */
export interface Remnant {
  key: string; // A, B, C
  region: Region;
  area: number; // um2
  /** narrower than the workshop keeps */
  narrow: boolean;
}
/** One way to cut what is asked from a sheet. */
export interface WayToCut {
  lying: Lying;
  cuts: Freed['cuts'];
  remnants: Remnant[];
  dust: number; // um2
}

const MOST_WAYS = 6;

/** The metal of an offcut of sheet; null where its shape is not told. */
export function metalOf(shape: Fields['shape'] | OutlineShape | undefined): Region | null {
  if (shape?.kind === 'rectangle') return sheetOf(shape.a.nm, shape.b.nm);
  if (shape?.kind === 'outline') return { outer: shape.outer, holes: shape.holes };
  return null;
}
export interface OutlineShape extends Region {
  kind: 'outline';
}

/** The ways to cut it, the one that leaves the most useful piece first; none where it does not fit. */
export function waysToCut(
  sheet: Region,
  asked: Asked,
  leastUseful: number,
  also: readonly Lying[] = [],
): WayToCut[] {
  const found: { freed: Freed; lying: Lying; best: number }[] = [];
  for (const lying of [...lyingOn(sheet, isBox(sheet), asked), ...also])
    for (const freed of waysToFree(sheet, lying.block, asked.kerf, leastUseful))
      found.push({ freed, lying, best: largest(freed.remnants, leastUseful) });
  found.sort((one, other) => other.best - one.best || count(one.freed) - count(other.freed));
  return found.slice(0, MOST_WAYS).map(({ freed, lying }) => ({
    lying,
    cuts: [...freed.cuts, ...apart(lying)],
    remnants: freed.remnants.map((region, at) => ({
      key: letterOf(at),
      region,
      area: um2(doubledAreaOf(region)),
      narrow: narrowest(region) < leastUseful,
    })),
    dust: um2(freed.doubledDust + between(lying)),
  }));
}

const count = ({ remnants }: Freed): number => remnants.length;
export const letterOf = (at: number): string => String.fromCharCode(65 + (at % 26));

/** The cuts that part a row of blanks, each along the side of the one before it. */
function apart({ blanks }: Lying): Freed['cuts'] {
  const [first, second] = blanks;
  if (!first || !second) return [];
  const beside = boundsOf(second).x0 > boundsOf(first).x0;
  return blanks.slice(0, -1).map((blank) => {
    const { x0, y0, x1, y1 } = boundsOf(blank);
    return beside ? { from: [x1, y0], to: [x1, y1] } : { from: [x0, y1], to: [x1, y1] };
  });
}

/** What is cut away between the blanks of a row. */
function between({ block, blanks }: Lying): bigint {
  return blanks.reduce((left, blank) => left - doubledArea(blank), doubledArea(block));
}

export type Shape = { kind: 'rectangle'; a: Measure; b: Measure } | WireOutline;
export type WireOutline = OutlineShape & {
  entered: { way: 'remnant'; texts: Record<string, string> };
};

/** How a piece that stays is recorded: by its sides where it is a rectangle, else by its corners. */
export function shapeOf(region: Region, unit: Unit): Shape {
  const { x0, y0, x1, y1 } = boundsOf(region.outer);
  if (isBox(region))
    return { kind: 'rectangle', a: length(x1 - x0, unit), b: length(y1 - y0, unit) };
  const { outer, holes } = toCorner(region);
  return { kind: 'outline', outer, holes, entered: { way: 'remnant', texts: { unit } } };
}

/** As a person would have typed it: without its unit where the bare figure is exact. */
export function length(nm: number, unit: Unit): Measure {
  const bare = showLength(nm, unit, false);
  const read = readLength(bare, unit);
  return { nm, text: 'nm' in read && read.nm === nm ? bare : showLength(nm, unit) };
}

/** "A: 8 × 8 in", or of an odd one "B: odd, within 8 × 5 in". */
export function sizeWords(region: Region, unit: Unit): string {
  const { x0, y0, x1, y1 } = boundsOf(region.outer);
  const size = `${showLength(x1 - x0, unit, false)} × ${showLength(y1 - y0, unit)}`;
  return isBox(region) ? size : `${cornersWord(region)} within ${size}`;
}

function cornersWord({ outer, holes }: Region): string {
  if (holes.length) return 'a piece with a keep-out,';
  return outer.length === 3 ? 'a triangle' : `a piece with ${outer.length} corners,`;
}
