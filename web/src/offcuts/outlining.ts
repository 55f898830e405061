// Where the lines of the drawing of an odd outline go: to scale, its x axis along the bottom, with
// the cut in it. The cut is dimensioned from two datum lines, the left and the lower end of the
// metal, as it is measured with a rule. Pure; units of the drawing are about one px on a phone.
import type { Point } from '../twins/fit.ts';
import { type Box, type Dimension, type Line, middleOf, textWidth, WIDTH } from './drawing.ts';
import { ON_IT } from './words.ts';

const TALLEST = 250;
const TIER = 25; // from one dimension line to the next
const EDGE = 8;
const HEAD = 9; // the length of an arrowhead
const ARROW = 26; // room for the grain arrow beside the sheet

export interface CutShape {
  /** round the blank, nm; the first to the second is its width */
  readonly corners: readonly Point[];
  /** square to the outline's own axes */
  readonly upright: boolean;
  readonly stays: readonly Point[] | null;
}
export interface ToOutline {
  outer: readonly Point[];
  holes: readonly (readonly Point[])[];
  grain: 'a' | 'b' | 'unknown';
  cut?: CutShape;
  /** a length on the drawing, and one of the whole sheet with its unit */
  show: (nm: number) => string;
  whole: (nm: number) => string;
}
export interface OutlineLayout {
  width: number;
  height: number;
  /** the rectangle around the outline */
  sheet: Box;
  /** all rings as one path: what lies in an odd number of them is metal */
  path: string;
  cut: Point[] | null;
  stays: Point[] | null;
  /** the corners that the dimensions of a cut that lies askew lead to */
  marks: { at: Point; letter: string }[];
  dimensions: Dimension[];
}

/** `apart`: where a cut begins stands on a line of its own, since its figure has no room. */
export function layOutOutline(draw: ToOutline, apart = false): OutlineLayout {
  const { outer, grain, cut } = draw;
  const a = Math.max(...outer.map(([x]) => x));
  const b = Math.max(...outer.map(([, y]) => y));
  const tiers = cut ? (cut.upright && !apart ? 2 : 3) : 1;
  const margin = EDGE + tiers * TIER;
  const top = grain === 'b' ? EDGE : ARROW;
  const right = grain === 'b' ? ARROW : EDGE;
  const scale = Math.min((WIDTH - margin - right) / a, TALLEST / b);
  const x = margin + (WIDTH - margin - right - a * scale) / 2;
  const sheet: Box = { x, y: top, width: a * scale, height: b * scale };
  const to = ([px, py]: Point): Point => [x + px * scale, top + (b - py) * scale];
  const low = top + sheet.height;
  const frame: FrameOf = {
    to,
    below: (tier) => low + tier * TIER - 6,
    beside: (tier) => x - tier * TIER + 6,
  };
  const around = [
    run('below', frame, tiers, [0, 0], [a, 0], draw.whole(a)),
    run('left', frame, tiers, [0, 0], [0, b], draw.whole(b)),
  ];
  const dimensions = [
    ...around.map((line): Dimension => ({ ...line, middle: middleOf(line) })),
    ...(cut ? cutRuns(cut, frame, draw.show, apart ? 2 : 1) : []),
  ];
  if (cut?.upright && !apart && clash(dimensions)) return layOutOutline(draw, true);
  const deepest = dimensions.map((one) =>
    one.side === 'left' ? one.middle + textWidth(one.text) / 2 + EDGE : 0,
  );
  return {
    width: WIDTH,
    height: Math.max(low + margin, ...deepest),
    sheet,
    path: [outer, ...draw.holes].map((ring) => `M${ring.map(to).join('L')}Z`).join(''),
    cut: cut ? cut.corners.map(to) : null,
    stays: cut?.stays?.map(to) ?? null,
    marks: cut && !cut.upright ? marksOf(cut, to) : [],
    dimensions,
  };
}

interface FrameOf {
  to: (point: Point) => Point;
  below: (tier: number) => number;
  beside: (tier: number) => number;
}
/** A dimension from one point of the metal to another, along one of its edges. */
function run(
  side: Dimension['side'],
  { to, below, beside }: FrameOf,
  tier: number,
  from: Point,
  until: Point,
  text: string,
): Line {
  const [start, end] = [to(from), to(until)];
  return side === 'below'
    ? { side, from: start[0], to: end[0], at: below(tier), starts: [start[1], end[1]], text }
    : { side, from: start[1], to: end[1], at: beside(tier), starts: [start[0], end[0]], text };
}

/** True where two figures on one line stand on each other. */
function clash(dimensions: readonly Dimension[]): boolean {
  return dimensions.some((one, n) =>
    dimensions.slice(n + 1).some((other) => {
      if (other.side !== one.side || other.at !== one.at) return false;
      const room = (textWidth(one.text) + textWidth(other.text)) / 2;
      return Math.abs(other.middle - one.middle) < room;
    }),
  );
}

function cutRuns(
  cut: CutShape,
  frame: FrameOf,
  show: (nm: number) => string,
  tier: number,
): Dimension[] {
  return cut.upright ? uprightRuns(cut, frame, show, tier) : askewRuns(cut, frame, show);
}

/** How far in it begins, and how far it reaches. */
function uprightRuns(
  { corners }: CutShape,
  frame: FrameOf,
  show: (nm: number) => string,
  tier: number,
): Dimension[] {
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
  const [y0, y1] = [Math.min(...ys), Math.max(...ys)];
  const reach = [
    run('below', frame, 1, [x0, y0], [x1, y0], show(x1 - x0)),
    run('left', frame, 1, [x0, y0], [x0, y1], show(y1 - y0)),
  ];
  const begin = [
    ...(x0 > ON_IT ? [run('below', frame, tier, [0, 0], [x0, y0], show(x0))] : []),
    ...(y0 > ON_IT ? [run('left', frame, tier, [0, 0], [x0, y0], show(y0))] : []),
  ];
  return [
    ...reach.map((line) => ({ ...line, middle: clearOf(line, false) })),
    ...begin.map((line) => ({ ...line, middle: clearOf(line, true) })),
  ];
}

/** The two ends of its width, each from both datum lines. */
function askewRuns(
  { corners }: CutShape,
  frame: FrameOf,
  show: (nm: number) => string,
): Dimension[] {
  const ends = corners.slice(0, 2);
  // the nearer one on the nearer line, so that no line crosses a figure
  const byX = [...ends].sort((one, other) => one[0] - other[0]);
  const byY = [...ends].sort((one, other) => one[1] - other[1]);
  const lines = [
    ...byX.flatMap((end, at) =>
      end[0] > ON_IT ? run('below', frame, at + 1, [0, 0], end, show(end[0])) : [],
    ),
    ...byY.flatMap((end, at) =>
      end[1] > ON_IT ? run('left', frame, at + 1, [0, 0], end, show(end[1])) : [],
    ),
  ];
  return lines.map((line) => ({ ...line, middle: clearOf(line, true) }));
}

/** A letter beside each end of the width, within the blank. */
function marksOf({ corners }: CutShape, to: (point: Point) => Point): OutlineLayout['marks'] {
  const drawn = corners.map(to);
  const middle = [0, 1].map((axis) => drawn.reduce((sum, at) => sum + (at[axis] ?? 0), 0) / 4);
  return drawn.slice(0, 2).map(([x, y], n) => {
    const [dx, dy] = [(middle[0] ?? 0) - x, (middle[1] ?? 0) - y];
    const share = Math.min(18 / Math.max(Math.hypot(dx, dy), 1), 0.7);
    return { at: [x + dx * share, y + dy * share], letter: n === 0 ? 'A' : 'B' };
  });
}

/**
 * Where the figure of a cut stands. Where a line is too short for it: how far in the cut begins, on
 * the side of the datum line; how far the cut reaches, on the other.
 */
function clearOf(line: Line, datum: boolean): number {
  const { from, to, side, text } = line;
  const [low, high] = [Math.min(from, to), Math.max(from, to)];
  const half = textWidth(text) / 2;
  if (high - low >= 2 * (half + HEAD)) return (low + high) / 2;
  const [before, beyond] = [low - HEAD - 6 - half, high + HEAD + 6 + half];
  // the datum line below is at the higher end of a line that stands
  if ((side === 'left') === datum)
    return side === 'left' || beyond + half < WIDTH ? beyond : before;
  return before - half > 0 ? before : beyond;
}
