// What must not be cut into: holes, marks and damage, taken out of the metal. Pure.
import { aroundCircle } from './curves.ts';
import { capital, type Fault, faultsIn, outsideFault } from './faults.ts';
import { parted } from './parted.ts';
import { areaUm2, boundsOf, type Region, type Ring } from './rings.ts';

/**
 * Where it lies, nm: `x` from the left or the right end of the sheet and `y` from its bottom or its
 * top, to the middle of a round one and to the nearest edges of a square one.
 */
export interface KeepOut {
  round: boolean;
  x: number;
  fromX: 'left' | 'right';
  y: number;
  fromY: 'bottom' | 'top';
  width: number; // of a round one its diameter
  height: number;
}

/**
 * The ring around it in the frame of the sheet, counter-clockwise. Grown by a `hair` (nm) it is a
 * little larger on every side, on each by another amount: a slant must not meet corner after corner.
 */
export function ringAround(keep: KeepOut, sheet: Ring, hair = 0): Ring {
  const { x0, y0, x1, y1 } = boundsOf(sheet);
  const { round, x, y, width, height } = keep;
  const alongX = keep.fromX === 'left' ? x0 + x : x1 - x;
  const alongY = keep.fromY === 'bottom' ? y0 + y : y1 - y;
  if (round) {
    const middle = [alongX + Math.round(hair / 3), alongY + Math.round(hair / 7)] as const;
    return aroundCircle(middle, width + 2 * hair);
  }
  const [atX, atY] = [
    keep.fromX === 'left' ? alongX : alongX - width,
    keep.fromY === 'bottom' ? alongY : alongY - height,
  ];
  const [left, low] = [atX - hair, atY - Math.round(hair * 1.1)];
  const [right, high] = [
    atX + width + Math.round(hair * 1.3),
    atY + height + Math.round(hair * 1.7),
  ];
  return [
    [left, low],
    [right, low],
    [right, high],
    [left, high],
  ];
}

export interface Kept {
  region: Region;
  faults: Fault[];
  remarks: string[];
}

/** A keep-out that lies along an edge is grown by so much, nm, until it clearly meets it or not. */
const HAIRS = [0, 2_000, 5_000, 11_000, 23_000, 47_000];
/** What a keep-out parts from the sheet is left out where it is less than this share of it. */
const CRUMB = 0.02;

/** The sheet, with the holes it has, without its keep-outs. */
export function without(sheet: Ring, keeps: readonly KeepOut[], holes: readonly Ring[] = []): Kept {
  const kept: Kept = { region: { outer: sheet, holes }, faults: [], remarks: [] };
  for (const [at, keep] of keeps.entries()) {
    const name = `keep-out ${at + 1}`;
    const fault = takeOut(kept, sheet, keep, name);
    if (fault) kept.faults.push({ ...outsideFault(name, ringAround(keep, sheet)), ...fault });
  }
  return kept;
}

type Said = { code?: string; sentence?: string };

function takeOut(kept: Kept, sheet: Ring, keep: KeepOut, name: string): Said | null {
  for (const hair of HAIRS) {
    const regions = parted(kept.region, ringAround(keep, sheet, hair));
    if (regions === 'close') continue;
    if (regions === 'apart') return {};
    if (regions === 'within') return null; // it lies in another keep-out
    const [largest, ...others] = regions.sort((one, other) => areaUm2(other) - areaUm2(one));
    if (!largest)
      return {
        code: 'all',
        sentence: `Nothing of the sheet is left beside ${name}. Look at its size and its unit.`,
      };
    if (faultsIn(largest.outer, largest.holes).length) continue;
    const lost = others.reduce((sum, region) => sum + areaUm2(region), 0);
    if (lost > areaUm2(largest) * CRUMB)
      return {
        code: 'parted',
        sentence: `${capital(name)} cuts the sheet in two. Enter the two pieces as two offcuts.`,
      };
    if (lost > 0) kept.remarks.push(`The little that ${name} cuts off the sheet is left out.`);
    kept.region = largest;
    return null;
  }
  return {
    code: 'touching',
    sentence: `${capital(name)} lies too close to an edge to tell what is left. Make it a little larger.`,
  };
}
