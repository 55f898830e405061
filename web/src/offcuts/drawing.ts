// Where the lines of a drawing go: the sheet to scale, side a lying along the bottom, with the cut
// in it. Figures inside outward as on a shop drawing: the cut nearer, the whole sheet further out.
// Pure; units of the drawing are about one px on a phone.
import type { Placement, Point } from '../twins/fit.ts';

export const WIDTH = 360;
const TALLEST = 230;
const TIER = 25; // from one dimension line to the next
const EDGE = 8;
const HEAD = 9; // the length of an arrowhead
const ARROW = 26; // room for the grain arrow beside the sheet

export interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}
/** A dimension line: its ends, which side of the sheet it stands on, and where it stands. */
export interface Dimension {
  from: number;
  to: number;
  at: number;
  side: 'below' | 'left';
  /** where its extension lines start, one for each end */
  starts: [number, number];
  text: string;
  /** the middle of the figure: in the line, or beyond its end where the line is too short */
  middle: number;
}
export interface Layout {
  width: number;
  height: number;
  sheet: Box;
  cut: Point[] | null;
  left: Box | null;
  dimensions: Dimension[];
}
export interface ToDraw {
  a: { nm: number; text: string };
  b: { nm: number; text: string };
  grain: 'a' | 'b' | 'unknown';
  cut?: { placement: Placement; show: (nm: number) => string };
}

export function layOut({ a, b, grain, cut }: ToDraw): Layout {
  const tiers = cut ? 2 : 1;
  const margin = EDGE + tiers * TIER;
  const top = grain === 'b' ? EDGE : ARROW;
  const right = grain === 'b' ? ARROW : EDGE;
  const scale = Math.min((WIDTH - margin - right) / a.nm, TALLEST / b.nm);
  const size = { width: a.nm * scale, height: b.nm * scale };
  // small sheets stand in the middle of what is left beside the figures
  const x = margin + (WIDTH - margin - right - size.width) / 2;
  const sheet: Box = { x, y: top, ...size };
  const toX = (nm: number): number => sheet.x + nm * scale;
  const toY = (nm: number): number => sheet.y + (b.nm - nm) * scale;
  const below = (tier: number): number => sheet.y + sheet.height + tier * TIER - 6;
  const beside = (tier: number): number => sheet.x - tier * TIER + 6;
  const low = sheet.y + sheet.height;
  const lines: Line[] = [
    {
      side: 'below',
      from: toX(0),
      to: toX(a.nm),
      at: below(tiers),
      starts: [low, low],
      text: a.text,
    },
    { side: 'left', from: toY(0), to: toY(b.nm), at: beside(tiers), starts: [x, x], text: b.text },
  ];
  if (cut) lines.push(...cutDimensions(cut, toX, toY, below(1), beside(1)));
  const dimensions = lines.map((line): Dimension => ({ ...line, middle: middleOf(line) }));
  const deepest = dimensions.map((one) =>
    one.side === 'left' ? one.middle + textWidth(one.text) / 2 + EDGE : 0,
  );
  return {
    width: WIDTH,
    height: Math.max(low + margin, ...deepest),
    sheet,
    cut: cut ? cut.placement.corners.map(([px, py]): Point => [toX(px), toY(py)]) : null,
    left: cut ? leftBox(cut.placement, a.nm, b.nm, toX, toY) : null,
    dimensions,
  };
}

export type Line = Omit<Dimension, 'middle'>;

/** Where a dimension's figure stands: beyond the lower or right end of a line that is too short. */
export function middleOf({ from, to, side, text }: Line): number {
  const [low, high, wide] = [Math.min(from, to), Math.max(from, to), textWidth(text)];
  if (high - low >= wide + 2 * HEAD) return (low + high) / 2;
  const beyond = high + HEAD + 6 + wide / 2;
  if (side === 'left' || beyond + wide / 2 < WIDTH) return beyond;
  return low - HEAD - 6 - wide / 2;
}

type Scale = (nm: number) => number;

/** Of a blank that lies square its two sides; of one askew where its lowest and leftmost corner are. */
function cutDimensions(
  { placement, show }: NonNullable<ToDraw['cut']>,
  toX: Scale,
  toY: Scale,
  below: number,
  beside: number,
): Line[] {
  const { corners } = placement;
  const lowest = corners.reduce((best, one) => (one[1] < best[1] ? one : best));
  const leftmost = corners.reduce((best, one) => (one[0] < best[0] ? one : best));
  const askew = placement.laid === 'askew';
  const xs = corners.map(([px]) => px);
  const ys = corners.map(([, py]) => py);
  const alongA = askew ? [0, lowest[0]] : [Math.min(...xs), Math.max(...xs)];
  const alongB = askew ? [0, leftmost[1]] : [Math.min(...ys), Math.max(...ys)];
  const [fromA = 0, toA = 0] = alongA;
  const [fromB = 0, toB = 0] = alongB;
  const low = toY(lowest[1]);
  const side = toX(leftmost[0]);
  return [
    {
      side: 'below',
      from: toX(fromA),
      to: toX(toA),
      at: below,
      starts: [low, low],
      text: show(toA - fromA),
    },
    {
      side: 'left',
      from: toY(fromB),
      to: toY(toB),
      at: beside,
      starts: [side, side],
      text: show(toB - fromB),
    },
  ];
}

/** The largest useful piece that stays: the strip beside the cut, or the one above it. */
function leftBox(placement: Placement, a: number, b: number, toX: Scale, toY: Scale): Box | null {
  const [leftA, leftB] = placement.left;
  if (leftA <= 0 || leftB <= 0) return null;
  const x = leftB === b ? toX(a - leftA) : toX(0);
  return { x, y: toY(b), width: toX(leftA) - toX(0), height: toY(0) - toY(leftB) };
}

/** About how wide a text is drawn, at 15 px to the line. */
export function textWidth(text: string): number {
  return text.length * 9;
}

/** Keeps the middle of a text of this width between 0 and `most`. */
export function kept(middle: number, width: number, most: number): number {
  const half = width / 2 + 2;
  return Math.min(Math.max(middle, half), Math.max(most - half, half));
}
