// Dimensions as on a shop drawing: witness lines, a line with arrowheads, and the figure in it,
// beyond its end, or under it, where it has room. One that fails is drawn with a bold double line.
import { ARROW, arrow, block, LINE, type Picture, type Point, widest } from './picture.ts';

/** A dimension along one direction: its ends, where its witness lines start, and its figure. */
export interface Span {
  from: number;
  to: number;
  starts: readonly [number, number];
  lines: readonly string[];
  fails?: boolean;
}
/** Where rows of dimensions stand: `away` is +1 below or to the right, -1 above or to the left. */
export interface Rows {
  first: number;
  away: 1 | -1;
  /** the figures stay between these, along the line */
  room: readonly [number, number];
  upright: boolean;
}
interface Spot {
  span: Span;
  /** what the line and the figure take along the row */
  low: number;
  high: number;
  middle: number;
  wide: number;
  figure: 'in' | 'beyond' | 'under';
}

const CLEAR = 4;
const OUT = ARROW + 8; // from the end of a line to a figure beyond it
const APART = 14; // from a figure beyond its line to what stands next in the row
const UNDER = 6; // from a line to the figure under it

/**
 * Draws `spans` in as many rows as they need, the first given nearest; returns where the rows end.
 * No figure stands where the witness lines of a row further out will pass.
 */
export function dimension(picture: Picture, spans: readonly Span[], rows: Rows): number {
  let left = [...spans];
  let edge = rows.first;
  while (left.length > 0) {
    const found = roomFor(left, rows.room);
    const spots = found.length > 0 ? found : left.slice(0, 1).map((span) => under(span, rows.room));
    const half = Math.max(...spots.map((spot) => heights(spot).before));
    const at = edge + rows.away * half;
    for (const spot of spots) draw(picture, spot, at, rows);
    edge = at + rows.away * Math.max(...spots.map((spot) => heights(spot).after));
    left = left.filter((span) => !spots.some((spot) => spot.span === span));
  }
  return edge;
}

/** How much room a spot takes on the near and on the far side of its line. */
function heights({ span, figure }: Spot): { before: number; after: number } {
  const half = (span.lines.length * LINE + 6) / 2;
  if (figure !== 'under') return { before: half, after: half };
  return { before: 10, after: UNDER + span.lines.length * LINE + 4 };
}

function roomFor(left: readonly Span[], room: Rows['room']): Spot[] {
  const spots: Spot[] = [];
  for (const span of left) {
    const spot = spotsOf(span, room).find((one) => {
      const [start, end] = [one.middle - one.wide / 2 - CLEAR, one.middle + one.wide / 2 + CLEAR];
      const passing = left
        .filter((other) => one.figure !== 'under' || other !== span)
        .flatMap(({ from, to }) => [from, to]);
      return (
        start >= room[0] &&
        end <= room[1] &&
        !passing.some((x) => x > start && x < end) &&
        spots.every((other) => other.high <= one.low + 0.01 || other.low >= one.high - 0.01)
      );
    });
    if (spot) spots.push(spot);
  }
  return spots;
}

function spotsOf(span: Span, room: Rows['room']): Spot[] {
  const [low, high] = [Math.min(span.from, span.to), Math.max(span.from, span.to)];
  const wide = widest(span.lines);
  if (high - low >= wide + 2 * (ARROW + CLEAR))
    return [{ span, low, high, middle: (low + high) / 2, wide, figure: 'in' }];
  const [beyond, ahead] = [high + OUT + wide / 2, low - OUT - wide / 2];
  const taken = wide / 2 + APART;
  return [
    { span, low: low - OUT, high: beyond + taken, middle: beyond, wide, figure: 'beyond' },
    { span, low: ahead - taken, high: high + OUT, middle: ahead, wide, figure: 'beyond' },
    under(span, room),
  ];
}

/** Under the line, which may be shorter than the figure. */
function under(span: Span, room: Rows['room']): Spot {
  const [low, high] = [Math.min(span.from, span.to), Math.max(span.from, span.to)];
  const wide = widest(span.lines);
  const half = wide / 2 + CLEAR;
  const most = Math.min((low + high) / 2, room[1] - half - 1);
  const middle = Math.max(most, room[0] + half + 1);
  const out = high - low < 3 * ARROW ? OUT : 0;
  const ends = [Math.min(low - out, middle - half), Math.max(high + out, middle + half)] as const;
  return { span, low: ends[0], high: ends[1], middle, wide, figure: 'under' };
}

function draw(picture: Picture, spot: Spot, at: number, { away, upright }: Rows): void {
  const { span, middle, figure } = spot;
  const point = (along: number, across: number): Point =>
    upright ? [across, along] : [along, across];
  for (const [end, start] of witnesses(span))
    picture.strokes.push({
      look: 'thin',
      points: [point(end, start + away * CLEAR), point(end, at + away * CLEAR)],
    });
  drawLine(picture, spot, at, upright);
  const deep = UNDER + (span.lines.length * LINE) / 2;
  const across = figure === 'under' ? at + away * deep : at;
  for (const one of block(span.lines, 0, 0, 'middle', span.fails)) {
    const [x, y] = point(middle, across + one.y);
    picture.figures.push({ ...one, x, y, ...(upright ? { turned: true } : {}) });
  }
}

function witnesses({ from, to, starts }: Span): (readonly [end: number, start: number])[] {
  return [
    [from, starts[0]],
    [to, starts[1]],
  ];
}

/** The line itself with its arrowheads, which stand outside where it is short. */
function drawLine(picture: Picture, spot: Spot, at: number, upright: boolean): void {
  const { span, middle, wide, figure } = spot;
  const [low, high] = [Math.min(span.from, span.to), Math.max(span.from, span.to)];
  const point = (along: number, across: number): Point =>
    upright ? [across, along] : [along, across];
  const run = (from: number, to: number, look: 'thin' | 'heavy' = 'thin'): void => {
    for (const off of look === 'heavy' ? [-2.2, 2.2] : [0])
      picture.strokes.push({ look, points: [point(from, at + off), point(to, at + off)] });
  };
  const outside = figure === 'beyond' || (figure === 'under' && high - low < 3 * ARROW);
  const ends = outside ? 0 : ARROW;
  const [start, end] = [middle - wide / 2 - CLEAR, middle + wide / 2 + CLEAR];
  const look = span.fails ? 'heavy' : 'thin';
  if (figure === 'in' && wide > 0) {
    run(low + ends, start, look);
    run(end, high - ends, look);
  } else run(low + ends, high - ends, look);
  if (outside) {
    run(figure === 'beyond' && middle < low ? end : low - OUT + 2, low);
    run(high, figure === 'beyond' && middle > high ? start : high + OUT - 2);
  }
  const sign = outside ? -1 : 1;
  const [dx, dy] = upright ? [0, sign] : [sign, 0];
  picture.solids.push(arrow(point(low, at), dx, dy), arrow(point(high, at), -dx, -dy));
}
