// The offcuts of sheet in lots of one metal: what is asked of the metal is judged once a lot, and a
// lot of a metal that will not do costs nothing more. What the search looks at first stands in rows
// of numbers beside the pieces, so that most pieces are never touched. Pure.
import { type Curve, type Pieces, STRIDE } from '../twins/curve';
import { isSide } from '../twins/fit';
import { largestArea } from './odd';
import type { Offcut, Rectangle } from './wanted';

/** What a piece is: a rectangle, an outline with its curve, or anything else. */
export const RECTANGLE = 0;
export const CURVED = 1;
export const OTHER = 2;
/** What holds it back: nothing, a doubt or a reservation. Its grain: along a, along b, not known. */
export const GRAINS = ['a', 'b', 'unknown'] as const;

/** Pieces of which the metal, the thickness and how both are known are the same. Lengths nm. */
export type Lot = {
  readonly pieces: readonly Offcut[];
  readonly is: Uint8Array;
  readonly free: Uint8Array;
  readonly grain: Uint8Array;
  /** of a rectangle its sides; of a curve its widest and its tallest with the width along x */
  readonly a: Float64Array;
  readonly b: Float64Array;
  /** of a curve its widest and its tallest at any angle, um; its area and that of its largest, um2 */
  readonly wide: Float64Array;
  readonly tall: Float64Array;
  readonly area: Float64Array;
  readonly most: Float64Array;
  /** all curves of the lot one after the other; where that of a piece begins, and the next one */
  readonly any: Pieces;
  readonly anyFrom: Int32Array;
  readonly along: Pieces;
  readonly alongFrom: Int32Array;
};
export type Shelf = { readonly lots: readonly Lot[]; readonly count: number };

const shelves = new WeakMap<readonly Offcut[], Shelf>();

/** In lots; the same for the same array, which must not be changed. Retired pieces are left out. */
export function shelfOf(offcuts: readonly Offcut[]): Shelf {
  const known = shelves.get(offcuts);
  if (known) return known;
  const lots = new Map<string, Offcut[]>();
  let count = 0;
  for (const offcut of offcuts) {
    if (offcut.retired || offcut.form !== 'sheet') continue;
    count += 1;
    const { alloy, temper, clad, thickness, measured, known_by } = offcut;
    const key = JSON.stringify([alloy, temper, clad, thickness.nm, measured, known_by]);
    const lot = lots.get(key);
    if (lot) lot.push(offcut);
    else lots.set(key, [offcut]);
  }
  const made = { lots: [...lots.values()].map(lotOf), count };
  shelves.set(offcuts, made);
  return made;
}

function curveOf({ shape, measured_as }: Offcut): Curve | null {
  return shape.kind === 'outline' && measured_as && 'any' in measured_as ? measured_as : null;
}

function hasSides(shape: Offcut['shape']): shape is Rectangle {
  return shape.kind === 'rectangle' && isSide(shape.a.nm) && isSide(shape.b.nm);
}

const NM_PER_UM = 1000;

function lotOf(pieces: readonly Offcut[]): Lot {
  const numbers = (): Float64Array => new Float64Array(pieces.length);
  const curves = pieces.map(curveOf);
  const [any, anyFrom] = joined(curves.map((curve) => curve?.any));
  const [along, alongFrom] = joined(curves.map((curve) => curve?.along));
  const words = (of: (piece: Offcut) => number): Uint8Array => Uint8Array.from(pieces, of);
  const lot: Lot = {
    pieces,
    is: words(({ shape }) => (hasSides(shape) ? RECTANGLE : OTHER)),
    free: words(({ measure_again, reserved }) => (measure_again || reserved !== null ? 0 : 1)),
    grain: words(({ grain }) => GRAINS.indexOf(grain)),
    ...{ a: numbers(), b: numbers(), wide: numbers(), tall: numbers() },
    ...{ area: numbers(), most: numbers() },
    ...{ any, anyFrom, along, alongFrom },
  };
  for (const [n, { shape }] of pieces.entries()) {
    const curve = curves[n];
    if (hasSides(shape)) {
      lot.a[n] = shape.a.nm;
      lot.b[n] = shape.b.nm;
    } else if (curve) {
      lot.is[n] = CURVED;
      lot.a[n] = reachOf(curve.along, 5) * NM_PER_UM;
      lot.b[n] = reachOf(curve.along, 6) * NM_PER_UM;
      lot.wide[n] = reachOf(curve.any, 5);
      lot.tall[n] = reachOf(curve.any, 6);
      lot.area[n] = curve.area_um2;
      lot.most[n] = largestArea(curve);
    }
  }
  return lot;
}

/** The largest width (5) or height (6) of a row's pieces, at either end. */
function reachOf(pieces: Pieces, wide: 5 | 6): number {
  let most = 0;
  for (let i = 0; i < pieces.length; i += STRIDE)
    most = Math.max(most, pieces[i + wide] as number, pieces[i + wide - 4] as number);
  return most;
}

function joined(rows: readonly (Pieces | undefined)[]): [Pieces, Int32Array] {
  const from = new Int32Array(rows.length + 1);
  for (const [n, row] of rows.entries()) from[n + 1] = (from[n] as number) + (row?.length ?? 0);
  const all = new Int32Array(from[rows.length] as number);
  for (const [n, row] of rows.entries()) if (row) all.set(row, from[n] as number);
  return [all, from];
}
