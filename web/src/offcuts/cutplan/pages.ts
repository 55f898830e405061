// One page of a cut plan: the offcut to scale with its pieces in the order of cutting. Pure.
import type { Point } from '../../twins/fit.ts';
import type { Cut, Sheet } from './plan.ts';

/** What is drawn, in px: paths and points, y down. */
export interface Page {
  readonly width: number;
  readonly height: number;
  readonly metal: string;
  readonly pieces: readonly { readonly points: string; readonly at: Point }[];
  readonly datum: readonly [Point, Point];
  readonly corner: Point;
}

const WIDTH = 360;
const TALLEST = 320;
const EDGE = 18;

/** Lay a page out. `rings` are the metal's outline and its holes (nm). */
export function layOutPage(rings: readonly (readonly Point[])[], sheet: Sheet): Page {
  const [outer = []] = rings;
  const xs = outer.map(([x]) => x);
  const ys = outer.map(([, y]) => y);
  const [x0, y0] = [Math.min(...xs), Math.min(...ys)];
  const [wide, high] = [Math.max(...xs) - x0, Math.max(...ys) - y0];
  const scale = Math.min((WIDTH - 2 * EDGE) / wide, TALLEST / high);
  const left = (WIDTH - wide * scale) / 2;
  const low = EDGE + high * scale;
  const at = ([x, y]: Point): Point => [left + (x - x0) * scale, low - (y - y0) * scale];
  const line = (ring: readonly Point[]): string => ring.map((one) => round(at(one))).join(' ');
  const { start, end } = sheet.datum;
  return {
    width: WIDTH,
    height: low + EDGE,
    metal: rings.map((ring) => `M${line(ring).replaceAll(' ', 'L')}Z`).join(''),
    pieces: sheet.cuts.map(({ corners }) => ({ points: line(corners), at: at(middle(corners)) })),
    datum: [at(start), at(end)],
    corner: at(start),
  };
}

function middle(corners: readonly Point[]): Point {
  const sum = corners.reduce(([a, b], [x, y]): Point => [a + x, b + y], [0, 0] as Point);
  return [sum[0] / corners.length, sum[1] / corners.length];
}

const round = ([x, y]: Point): string => `${x.toFixed(1)},${y.toFixed(1)}`;

/** The order in which pieces are named on a page: "1", "2" ... with the piece each belongs to. */
export function numbered(cuts: readonly Cut[]): { number: number; cut: Cut }[] {
  return cuts.map((cut, at) => ({ number: at + 1, cut }));
}

/** How many pieces a plan cuts. */
export function cutCount(sheets: readonly Sheet[]): number {
  return sheets.reduce((sum, { cuts }) => sum + cuts.length, 0);
}
