// The developed flat: bend tangent lines, bend lines and sight lines with running dimensions from
// the datum edge, and the bent sheet beside it. Drawn down the screen, the datum edge at the top.
import type { Unit } from '../../twins/lengths.ts';
import { type Axis, axis } from './axis.ts';
import { lengthText } from './figures.ts';
import { drawProfile, flatsOf, letter } from './flat-profile.ts';
import {
  arrow,
  blank,
  block,
  breakLines,
  LINE,
  type Look,
  type Picture,
  type Point,
  textWidth,
  widest,
} from './picture.ts';
import { spread } from './spread.ts';

/** One bend on the flat; lengths in nm from the datum edge, the angle in degrees bent through. */
export interface FlatBend {
  angle: number;
  /** inside radius */
  radius: number;
  up: boolean;
  /** the bend tangent lines, the nearer to the datum edge first */
  start: number;
  end: number;
  /** one radius in from the tangent line that is held under the nose of the brake */
  sight: number;
  /** the middle of the bend; half way between the tangent lines where it is not given */
  line?: number;
}
/** What to draw; lengths in nm. */
export interface Flat {
  /** outside lengths, one more than there are bends */
  legs: readonly number[];
  /** in order from the datum edge */
  bends: readonly FlatBend[];
  thickness: number;
  /** the whole flat */
  developed: number;
  /** how the grain lies: along the bend lines, or across them (the better way) */
  grain?: 'along' | 'across';
  unit: Unit;
}
interface Mark {
  at: number;
  look: Look;
  word: string;
}

const LEAST_BEND = 24; // px from one tangent line of a bend to the other
const TALLEST = 480;
const STRETCH = 100; // the longest flat, where the drawing has to be broken
const FAN = 26; // from the sheet to its running dimensions

export function drawFlat(flat: Flat, width: number): Picture {
  const picture = blank(width);
  const head = drawProfile(picture, flat, width);
  const marks = marksOf(flat);
  const figures = marks.map(({ at }) => lengthText(at, flat.unit, false));
  const words = widest(marks.map(({ word }) => word));
  const column = width - 4 - words - 8; // where the figures end
  const right = column - Math.max(widest(figures)) - FAN;
  const left = 6 + widest(flat.legs.map((leg) => lengthText(leg, flat.unit))) + 12;
  const along = lengthwise(flat);
  const top = drawHeading(picture, flat, left, right, head);
  const y = (nm: number): number => top + along.to(nm);
  drawSheet(picture, marks, along, { left, right, top }, y);
  const low = drawRunning(picture, marks, figures, { right, column }, y);
  const legs = drawLegs(picture, flat, left, y);
  picture.height = Math.max(top + along.size + 12, low, legs) + 8;
  return picture;
}

function marksOf({ bends, developed }: Flat): Mark[] {
  const marks: Mark[] = [{ at: 0, look: 'datum', word: 'datum' }];
  for (const { start, end, sight, line, angle, up } of bends)
    marks.push(
      { at: start, look: 'thin', word: 'tangent' },
      { at: sight, look: 'sight', word: 'sight' },
      {
        at: line ?? (start + end) / 2,
        look: 'centre',
        word: `${up ? 'up' : 'down'} ${Math.round(angle * 10) / 10}°`,
      },
      { at: end, look: 'thin', word: 'tangent' },
    );
  marks.push({ at: developed, look: 'edge', word: 'end' });
  return marks.sort((a, b) => a.at - b.at);
}

/** To scale where that can be read on one screen; else long flats are broken. */
function lengthwise({ bends, developed }: Flat): Axis {
  const edges = [0, developed, ...bends.flatMap(({ start, end }) => [start, end])];
  const wanted = Math.max(150, bends.length * 92 + 20) / developed;
  if (bends.length === 0) return axis(edges, wanted);
  const least = Math.min(...bends.map(({ start, end }) => end - start));
  const scale = Math.max(wanted, LEAST_BEND / least);
  return developed * scale <= TALLEST
    ? axis(edges, scale)
    : axis(edges, LEAST_BEND / least, STRETCH);
}

interface Sheet {
  left: number;
  right: number;
  top: number;
}

function drawSheet(
  picture: Picture,
  marks: readonly Mark[],
  along: Axis,
  { left, right, top }: Sheet,
  y: (nm: number) => number,
): void {
  const across = (at: number, look: Look, end: number): void => {
    picture.strokes.push({
      look,
      points: [
        [left, at],
        [end, at],
      ],
    });
  };
  const bends = marks.filter(({ look }) => look === 'centre').map(({ at }) => y(at));
  for (const { at, look } of marks) {
    // a sight line that all but lies on a bend line is drawn over half the sheet, to be told from it
    const near = look === 'sight' && bends.some((bend) => Math.abs(bend - y(at)) < 4);
    across(y(at), look, near ? (left + right) / 2 : right);
  }
  const cuts = along.breaks.map((at) => top + at);
  const ends = [top, ...cuts.flatMap((at) => [at - 4, at + 4]), top + along.size];
  for (const x of [left, right])
    for (let at = 0; at + 1 < ends.length; at += 2)
      picture.strokes.push({
        look: 'edge',
        points: [
          [x, ends[at] ?? 0],
          [x, ends[at + 1] ?? 0],
        ],
      });
  for (const at of cuts) picture.strokes.push(...breakLines(at, left, right, false));
}

/** The running dimensions: every line led out to its figure, none on another. */
function drawRunning(
  picture: Picture,
  marks: readonly Mark[],
  figures: readonly string[],
  { right, column }: { right: number; column: number },
  y: (nm: number) => number,
): number {
  const wanted = marks.map(({ at }) => y(at));
  const places = spread(
    wanted,
    marks.map(() => LINE + 1),
    (wanted[0] ?? 0) - LINE,
  );
  const start = column - Math.max(...figures.map(textWidth)) - 4;
  for (const [index, { word, look }] of marks.entries()) {
    const [from = 0, at = 0, text = ''] = [wanted[index], places[index], figures[index]];
    const points: Point[] = [
      [right + 3, from],
      [right + 7, from],
      [start - 5, at],
      [column - textWidth(text) - 4, at],
    ];
    picture.strokes.push({ look: 'leader', points });
    const bold = look === 'centre' || look === 'datum' || look === 'edge';
    picture.figures.push(
      { x: column, y: at, text, hold: 'end', bold },
      { x: column + 8, y: at, text: word, hold: 'start', bold },
    );
  }
  return (places.at(-1) ?? 0) + LINE / 2;
}

/** Beside each flat its letter, and the outside length of its leg. */
function drawLegs(picture: Picture, flat: Flat, left: number, y: (nm: number) => number): number {
  const { legs, unit } = flat;
  const wanted = flatsOf(flat).map(([from, to]) => (y(from) + y(to)) / 2);
  const tall = legs.map(() => 2 * LINE + 4);
  const places = spread(wanted, tall, y(0) - LINE);
  for (const [index, leg] of legs.entries()) {
    const [from = 0, at = 0] = [wanted[index], places[index]];
    if (Math.abs(from - at) > 6)
      picture.strokes.push({
        look: 'leader',
        points: [
          [left - 2, from],
          [left - 9, at],
        ],
      });
    const [name, figure] = block([letter(index), lengthText(leg, unit)], left - 12, at, 'end');
    if (name && figure) picture.figures.push({ ...name, bold: true }, figure);
  }
  return (places.at(-1) ?? 0) + LINE;
}

/** What the figures are, and the grain, above the sheet; returns where the sheet begins. */
function drawHeading(
  picture: Picture,
  { grain, unit }: Flat,
  left: number,
  right: number,
  top: number,
): number {
  const heading = top + LINE / 2;
  const text = `${unit} from datum`;
  picture.figures.push({ x: picture.width - 6, y: heading, text, hold: 'end' });
  picture.figures.push({ x: 6, y: heading, text: 'outside', hold: 'start' });
  const sheet = top + 2 * LINE;
  if (!grain) return sheet;
  const word = 'grain';
  if (grain === 'along') {
    const y = sheet;
    const at = y + LINE / 2 + 7;
    picture.figures.push({ x: (left + right) / 2, y, text: word, hold: 'middle' });
    picture.strokes.push({
      look: 'thin',
      points: [
        [left, at],
        [right, at],
      ],
    });
    picture.solids.push(arrow([left, at], 1, 0), arrow([right, at], -1, 0));
    return at + 14;
  }
  const [from, to] = [heading + LINE - 6, heading + LINE + 44];
  const x = left + 8;
  picture.figures.push({ x: x + 10, y: to - LINE / 2, text: word, hold: 'start' });
  picture.strokes.push({
    look: 'thin',
    points: [
      [x, from],
      [x, to],
    ],
  });
  picture.solids.push(arrow([x, from], 0, 1), arrow([x, to], 0, -1));
  return to + 14;
}
