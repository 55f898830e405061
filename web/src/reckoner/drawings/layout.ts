// A piece from above with its rows of holes, dimensioned as on a shop drawing.
import type { Unit } from '../../twins/lengths.ts';
import { BESIDE, chain } from './chain.ts';
import { dimension, type Span } from './dimension.ts';
import { lengthText, shortText } from './figures.ts';
import { ARROW, blank, boxOf, LINE, type Picture, textWidth, widest } from './picture.ts';
import { drawPiece } from './piece.ts';
import { type Placed, place } from './placing.ts';
import { breakWitnesses } from './witness.ts';

/** One row of holes along the piece; lengths in nm, to the centres of the holes. */
export interface HoleRow {
  /** from the near edge (drawn below) to the row */
  across: number;
  /** from the left end to its first hole */
  start: number;
  /** not used where there is one hole */
  pitch: number;
  count: number;
}
/** By how much a dimension is too small, nm: the least of its kind is drawn as failing. */
export interface Short {
  /** edge distance at an end of a row */
  end?: number;
  /** edge distance beside a row */
  side?: number;
  pitch?: number;
  /** from one row to the next */
  gap?: number;
  /** from a row to the bend line */
  bend?: number;
}
/** What to draw; lengths in nm. */
export interface Layout {
  /** null: the piece runs on, and is drawn broken there */
  length: number | null;
  width: number | null;
  /** the left end is not known: the piece runs on there too, and no row is dimensioned from it */
  open?: boolean;
  hole: number;
  /** from the near edge outwards; a row without holes is left out */
  rows: readonly HoleRow[];
  /** a bend line along the piece, from the near edge; before the first row or beyond the last */
  bend?: number;
  short?: Short;
  unit: Unit;
}

const SIDE = 16; // from the piece to the line of the dimensions across it

export function drawLayout(layout: Layout, width: number): Picture {
  const left = 4 + widest(acrossSpans(layout).flatMap(({ lines }) => [...lines])) + BESIDE + SIDE;
  const room = { left, across: width - left - (layout.width === null ? 14 : LINE + 12) };
  // laid out once from 0 upwards and downwards, to know how tall its figures are
  const { top } = drawAt(blank(width), layout, place(layout, { ...room, top: 0 }));
  const picture = blank(width);
  picture.height = drawAt(picture, layout, place(layout, { ...room, top: 8 - top })).bottom + 8;
  breakWitnesses(picture);
  return picture;
}

/** Draws the piece and its dimensions where it is placed; returns how far up and down they reach. */
function drawAt(picture: Picture, layout: Layout, placed: Placed): { top: number; bottom: number } {
  drawPiece(picture, layout, placed);
  const links = acrossSpans(layout).map(
    (span): Span => ({
      ...span,
      from: placed.y(span.from),
      to: placed.y(span.to),
      starts: [placed.left, placed.left],
    }),
  );
  chain(picture, links, placed.left - SIDE, -1);
  const wide = layout.width === null ? '' : lengthText(layout.width, layout.unit);
  // a piece too narrow for its width to stand beside it has it under its length
  const stands = placed.bottom - placed.top >= textWidth(wide) + 2 * ARROW + 8;
  if (wide && stands) wholeWidth(picture, wide, placed);
  // the rows above and below keep clear of the figures beside the piece
  const boxes = picture.figures.map(boxOf);
  const high = Math.min(placed.top - 4, ...boxes.map((box) => box.top - 8));
  const low = Math.max(placed.bottom + 4, ...boxes.map((box) => box.bottom + 8));
  const top = aboveSpans(layout, placed, picture, high);
  return { top, bottom: belowSpans(layout, placed, picture, low, stands ? '' : wide) };
}

/** The figure of a dimension, and what is wanting where it fails. */
function figures(nm: number, short: number | undefined, unit: Unit): string[] {
  const figure = lengthText(nm, unit);
  return short === undefined ? [figure] : [figure, shortText(short, unit)];
}

type Named = Omit<Span, 'starts'>;

/** The chain of dimensions across the piece, from its far edge (above) down; ends in nm. */
function acrossSpans({ rows, width, bend, short = {}, unit }: Layout): Named[] {
  const first = rows[0]?.across ?? 0;
  const last = rows.at(-1)?.across ?? 0;
  const links: { from: number; to: number; kind: 'side' | 'gap' | 'bend' }[] = [];
  if (bend !== undefined && bend < first) links.push({ from: bend, to: first, kind: 'bend' });
  else links.push({ from: 0, to: first, kind: 'side' });
  for (const [at, { across }] of rows.entries()) {
    const next = rows[at + 1];
    if (next) links.push({ from: across, to: next.across, kind: 'gap' });
  }
  if (bend !== undefined && bend > last) links.push({ from: last, to: bend, kind: 'bend' });
  else if (width !== null) links.push({ from: last, to: width, kind: 'side' });
  const long = ({ from, to }: { from: number; to: number }): number => to - from;
  const least = (kind: string): number =>
    Math.min(...links.filter((one) => one.kind === kind).map(long));
  return links.reverse().map((link) => {
    const fails = short[link.kind] !== undefined && long(link) === least(link.kind);
    const lines = figures(long(link), fails ? short[link.kind] : undefined, unit);
    if (link.kind === 'bend') lines.unshift('to bend');
    return { from: link.to, to: link.from, lines, fails };
  });
}

/** The pitch, and where the upper row starts when it does not start as the lowest does. */
function aboveSpans(layout: Layout, placed: Placed, picture: Picture, first: number): number {
  const { rows, short = {}, unit } = layout;
  const row = rows.at(-1);
  if (!row) return first;
  const y = placed.y(row.across) - placed.radius;
  const spans: Span[] = [];
  if (row.count > 1) {
    const [from, to] = [placed.x(row.start), placed.x(row.start + row.pitch)];
    const fails = short.pitch !== undefined;
    spans.push({ from, to, starts: [y, y], lines: figures(row.pitch, short.pitch, unit), fails });
  }
  if (row.start !== rows[0]?.start) {
    const lines = figures(row.start, undefined, unit);
    spans.push({
      from: placed.left,
      to: placed.x(row.start),
      starts: [placed.top, y],
      lines,
    });
  }
  return dimension(picture, spans, {
    first,
    away: -1,
    room: [2, picture.width - 2],
    upright: false,
  });
}

/** The edge distances at the ends, the row as a whole, and the piece as a whole. */
function belowSpans(
  layout: Layout,
  placed: Placed,
  picture: Picture,
  first: number,
  wide: string,
): number {
  const { rows, length, short = {}, unit } = layout;
  const row = rows[0];
  if (!row) return first;
  const last = row.start + (row.count - 1) * row.pitch;
  const rest = length === null ? Number.POSITIVE_INFINITY : length - last;
  const fails = (one: number): boolean =>
    short.end !== undefined && one === Math.min(row.start, rest);
  const lines = (one: number): string[] => figures(one, fails(one) ? short.end : undefined, unit);
  const y = placed.y(row.across) + placed.radius;
  const { left, right, bottom } = placed;
  const [start, end] = [placed.x(row.start), placed.x(last)];
  const spans: Span[] = [];
  if (!layout.open)
    spans.push({
      from: left,
      to: start,
      starts: [bottom, y],
      lines: lines(row.start),
      fails: fails(row.start),
    });
  if (length !== null)
    spans.push({
      from: end,
      to: right,
      starts: [y, bottom],
      lines: lines(rest),
      fails: fails(rest),
    });
  if (row.count > 2) {
    const text = `${row.count - 1} × ${lengthText(row.pitch, unit)}`;
    spans.push({ from: start, to: end, starts: [y, y], lines: [`${row.count} holes`, text] });
  }
  if (length !== null)
    spans.push({
      from: left,
      to: right,
      starts: [bottom, bottom],
      lines: wide
        ? [`${lengthText(length, unit)} long`, `${wide} wide`]
        : [lengthText(length, unit)],
    });
  return dimension(picture, spans, {
    first,
    away: 1,
    room: [2, picture.width - 2],
    upright: false,
  });
}

function wholeWidth(picture: Picture, wide: string, { right, top, bottom }: Placed): void {
  const span = { from: top, to: bottom, starts: [right, right] as const, lines: [wide] };
  const rows = { first: right + 2, away: 1, room: [top, bottom], upright: true } as const;
  dimension(picture, [span], rows);
}
