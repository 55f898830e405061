// A cut as a drawing: the sheet to scale with the blanks hatched, each cut right across with its
// number, and a letter on every piece that stays. Pure; px of the screen.
import { dimension, type Span } from '../../reckoner/drawings/dimension.ts';
import {
  ARROW,
  arrow,
  blank,
  type Picture,
  type Point,
  textWidth,
} from '../../reckoner/drawings/picture.ts';
import { showLength, type Unit } from '../../twins/lengths.ts';
import type { Remnant } from './leaves.ts';
import { boundsOf, isBox, middleOf, type Region, type Ring } from './rings.ts';
import type { CutLine } from './straight.ts';

export interface CutToDraw {
  sheet: Region;
  blanks: readonly Ring[];
  cuts: readonly CutLine[];
  remnants: readonly Remnant[];
  /** letters of the pieces that are not kept */
  recycled: readonly string[];
  grain: 'a' | 'b' | 'unknown';
  unit: Unit;
}

const EDGE = 22; // round the sheet, for the numbers of the cuts
const LEFT = 46; // and for figures beside it
const TOP = 54;
const TALLEST = 280;
const OUT = 9; // a cut is drawn on beyond the sheet

export function drawCut(cut: CutToDraw, width: number): Picture {
  const picture = blank(width);
  const { x1: wide, y1: high } = boundsOf(cut.sheet.outer);
  const scale = Math.min((width - LEFT - 2 * EDGE) / wide, TALLEST / high);
  const left = LEFT + EDGE + (width - LEFT - 2 * EDGE - wide * scale) / 2;
  const low = TOP + high * scale;
  const at = ([x, y]: Point): Point => [left + x * scale, low - y * scale];
  drawGrain(picture, cut.grain, left, left + wide * scale, TOP, low);
  for (const { region } of cut.remnants) fill(picture, 'metal', region.outer.map(at));
  if (!cut.remnants.length && !cut.cuts.length) fill(picture, 'metal', cut.sheet.outer.map(at));
  for (const one of cut.blanks) {
    fill(picture, 'new', one.map(at));
    picture.strokes.push({ look: 'thin', points: closed(one.map(at)) });
  }
  for (const ring of [cut.sheet.outer, ...cut.sheet.holes])
    picture.strokes.push({ look: 'edge', points: closed(ring.map(at)) });
  for (const [number, line] of cut.cuts.entries()) drawLine(picture, line, number + 1, at);
  for (const one of cut.remnants) letter(picture, one, cut, at);
  picture.height = figures(picture, cut, at, low);
  return picture;
}

const closed = (points: Point[]): Point[] => [...points, ...points.slice(0, 1)];

function fill(picture: Picture, look: 'metal' | 'new', points: readonly Point[]): void {
  picture.solids.push({ look, points });
}

function drawLine(
  picture: Picture,
  { from, to }: CutLine,
  number: number,
  at: (point: Point) => Point,
): void {
  const [start, end] = [at(from), at(to)];
  const length = Math.hypot(end[0] - start[0], end[1] - start[1]) || 1;
  const [dx, dy] = [(end[0] - start[0]) / length, (end[1] - start[1]) / length];
  const beyond = (point: Point, by: number): Point => [point[0] + dx * by, point[1] + dy * by];
  // the number stands at the upper or the right end, clear of the figures below and to the left
  const up = Math.abs(dy) > Math.abs(dx) ? dy < 0 : dx > 0;
  const points = [beyond(start, -OUT), beyond(end, OUT)];
  picture.strokes.push({ look: 'heavy', points });
  const [x, y] = up ? beyond(end, OUT + 10) : beyond(start, -OUT - 10);
  picture.figures.push({ x, y, text: `${number}`, hold: 'middle', bold: true });
}

/** The letter of a piece that stays, with its size where that has room. */
function letter(
  picture: Picture,
  { key, region }: Remnant,
  { unit, recycled }: CutToDraw,
  at: (point: Point) => Point,
): void {
  const { x0, y0, x1, y1 } = boundsOf(region.outer);
  const box = isBox(region);
  const middle = box ? ([(x0 + x1) / 2, (y0 + y1) / 2] as const) : middleOf(region.outer);
  const [x, y] = at(middle);
  const [from, to] = [at([x0, y0]), at([x1, y1])];
  const [room, tall] = [to[0] - from[0] - 8, from[1] - to[1] - 8];
  const size = `${showLength(x1 - x0, unit, false)} × ${showLength(y1 - y0, unit, false)}`;
  const kept = box ? `${key} ${size}` : key; // of an odd one that would not be its size
  const word = recycled.includes(key) ? `${key} recycle` : kept;
  const turned = textWidth(word) > room && textWidth(word) <= tall && room >= 14;
  const text = textWidth(word) <= room || turned ? word : key;
  if (tall < 12 || room < 6) return; // too narrow for a letter: the list beneath has it
  picture.figures.push({ x, y, text, hold: 'middle', ...(turned ? { turned } : {}) });
}

/** How long it is and where each square cut runs, from the left and from the lower edge. */
function figures(
  picture: Picture,
  { sheet, cuts, unit }: CutToDraw,
  at: (point: Point) => Point,
  low: number,
): number {
  const { x1, y1 } = boundsOf(sheet.outer);
  const [corner] = [at([0, 0])];
  const span = (nm: number, upright: boolean, start: number): Span => {
    const [from, to] = upright ? [corner[1], at([0, nm])[1]] : [corner[0], at([nm, 0])[0]];
    return { from, to, starts: [start, start], lines: [showLength(nm, unit, false)] };
  };
  const upright = (axis: 0 | 1): number[] =>
    cuts.flatMap(({ from, to }) => (from[axis] === to[axis] ? from[axis] : []));
  const beside = corner[0] - 2;
  const marked = (axis: 0 | 1, most: number): number[] =>
    [...new Set([...upright(axis), most])].sort((one, other) => one - other);
  const bottom = dimension(
    picture,
    marked(0, x1).map((nm) => span(nm, false, low + 2)),
    { first: low + OUT + 4, away: 1, room: [2, picture.width - 2], upright: false },
  );
  dimension(
    picture,
    marked(1, y1).map((nm) => span(nm, true, beside)),
    { first: beside - OUT, away: -1, room: [2, bottom], upright: true },
  );
  return bottom + 8;
}

function drawGrain(
  picture: Picture,
  grain: CutToDraw['grain'],
  left: number,
  right: number,
  top: number,
  low: number,
): void {
  const middle = (left + right) / 2;
  if (grain === 'unknown') {
    picture.figures.push({ x: picture.width / 2, y: 12, text: 'grain not known', hold: 'middle' });
    return;
  }
  const half = 34;
  if (grain === 'a') {
    picture.strokes.push({
      look: 'thin',
      points: [
        [middle - half - 30, 12],
        [middle - half, 12],
      ],
    });
    picture.strokes.push({
      look: 'thin',
      points: [
        [middle + half, 12],
        [middle + half + 30, 12],
      ],
    });
    picture.solids.push(arrow([middle - half - 30, 12], 1, 0));
    picture.solids.push(arrow([middle + half + 30, 12], -1, 0));
    picture.figures.push({ x: middle, y: 12, text: 'grain', hold: 'middle' });
    return;
  }
  const [x, y] = [picture.width - 10, (top + low) / 2];
  const reach = Math.max((low - top) / 2, half + ARROW);
  picture.strokes.push({
    look: 'thin',
    points: [
      [x, y - reach],
      [x, y - 30],
    ],
  });
  picture.strokes.push({
    look: 'thin',
    points: [
      [x, y + 30],
      [x, y + reach],
    ],
  });
  picture.solids.push(arrow([x, y - reach], 0, 1), arrow([x, y + reach], 0, -1));
  picture.figures.push({ x, y, text: 'grain', hold: 'middle', turned: true });
}

/** Where to cut, one after another, in words. */
export function cutWords({ cuts, unit }: Pick<CutToDraw, 'cuts' | 'unit'>): string[] {
  const show = (nm: number): string => showLength(nm, unit);
  return cuts.map(({ from, to }) => {
    if (from[0] === to[0]) return `Upright, right across, ${show(from[0])} from the left end.`;
    if (from[1] === to[1]) return `Level, right across, ${show(from[1])} from the lower edge.`;
    const point = ([x, y]: Point): string =>
      `${showLength(Math.max(x, 0), unit, false)} along and ${showLength(Math.max(y, 0), unit, false)} up`;
    return `Straight from ${point(from)} to ${point(to)} (${unit}).`;
  });
}
