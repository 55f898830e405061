// A length of section stock as a drawing: its section above, and below it the length to scale with
// its cuts, dimensioned from the datum end. Pure; px of the screen.
import { dimension } from '../../reckoner/drawings/dimension.ts';
import {
  blank,
  LINE,
  type Picture,
  type Point,
  type Solid,
  textWidth,
} from '../../reckoner/drawings/picture.ts';
import { spread } from '../../reckoner/drawings/spread.ts';
import { showLength, showThickness, type Unit } from '../../twins/lengths.ts';
import type { LaidOut } from './sawing.ts';
import type { Form } from './section.ts';

/** The section, nm. */
export interface DrawnSection {
  readonly form: Form;
  readonly square: boolean;
  readonly sides: readonly number[];
  readonly wall: number;
}
/** What to draw; nm. Without `laid` it is a length that nothing is cut from. */
export interface DrawnBar {
  readonly section: DrawnSection | null;
  readonly length: number;
  readonly laid: LaidOut | null;
  /** a letter for each piece, in the order they lie; empty for a single piece */
  readonly letters: readonly string[];
  readonly unit: Unit;
}

const EDGE = 14;
const LARGEST = 76; // px of the longest side of the section
const THINNEST = 3;
const DEEP = 40; // px; the length is drawn to scale, its depth is not
const LEAST_LOST = 3;
const FAN = 24; // from the bar to its running dimensions

export function drawBar(bar: DrawnBar, width: number): Picture {
  const picture = blank(width);
  const top = bar.section ? drawSection(picture, bar.section, bar.unit) : 6;
  const { length, laid, unit } = bar;
  const whole = laid?.length ?? length;
  const scale = (width - 2 * EDGE) / whole;
  const x = (nm: number): number => EDGE + nm * scale;
  const dressed = laid && laid.dressed_first > 0 ? ' dressed' : '';
  const whole_words = `${showLength(whole, unit)}${dressed}`;
  const deepest = top + LINE + 12;
  dimension(
    picture,
    [{ from: x(0), to: x(whole), starts: [deepest, deepest], lines: [whole_words] }],
    { first: deepest - 4, away: -1, room: [0, width], upright: false },
  );
  const low = deepest + DEEP;
  if (!laid) {
    rectangle(picture, x(0), x(whole), deepest, low);
    picture.height = low + 12;
    return picture;
  }
  drawPieces(picture, bar, laid, x, deepest);
  picture.strokes.push({ look: 'datum', points: upright(x(0), deepest - 5, low + 5) });
  picture.height = runningDimensions(picture, laid, x, low, unit);
  return picture;
}

const upright = (x: number, from: number, to: number): Point[] => [
  [x, from],
  [x, to],
];

const box = (x0: number, x1: number, y0: number, y1: number): Point[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

function outline(picture: Picture, points: readonly Point[]): void {
  picture.solids.push({ look: 'metal', points });
  const [first] = points;
  if (first) picture.strokes.push({ look: 'edge', points: [...points, first] });
}

function rectangle(picture: Picture, x0: number, x1: number, y0: number, y1: number): void {
  outline(picture, box(x0, x1, y0, y1));
}

type Scale = (nm: number) => number;

function drawPieces(
  picture: Picture,
  { letters, unit }: DrawnBar,
  laid: LaidOut,
  x: Scale,
  y: number,
): void {
  const low = y + DEEP;
  const lost = (from: number, to: number): Solid => {
    const [start, end] = [x(from), Math.max(x(to), x(from) + LEAST_LOST)];
    return { look: 'new', points: box(start, end, y, low) };
  };
  const middle = y + DEEP / 2;
  const last = laid.pieces.at(-1);
  for (const [index, { from, to }] of laid.pieces.entries()) {
    rectangle(picture, x(from), x(to), y, low);
    const letter = letters[index] ?? '';
    const named = `${letter} ${showLength(to - from, unit, false)}`.trim();
    const text = [named, letter].find((one) => textWidth(one) + 8 <= x(to) - x(from));
    if (text) picture.figures.push({ x: x((from + to) / 2), y: middle, text, hold: 'middle' });
    const next = laid.pieces[index + 1];
    const end = next?.from ?? laid.cuts[index]?.far;
    if (end !== undefined) picture.solids.push(lost(to, end));
  }
  if (laid.dressed_last > 0 && last) picture.solids.push(lost(last.to, laid.length));
  if (!laid.left) return;
  const start = laid.length - laid.left.length_nm;
  const ring = box(x(start), x(laid.length), y, low);
  picture.strokes.push({ look: 'sight', points: [...ring, ...ring.slice(0, 1)] });
  const [named, bare] = [true, false].map((one) =>
    showLength(laid.left?.length_nm ?? 0, unit, one),
  );
  const stays = [`stays ${named}`, `${named}`, `${bare}`, 'stays'];
  const text = stays.find((one) => textWidth(one) + 10 <= x(laid.length) - x(start));
  if (text)
    picture.figures.push({ x: x((start + laid.length) / 2), y: middle, text, hold: 'middle' });
}

/** Where to mark each cut, each from the datum; returns how far down the drawing goes. */
function runningDimensions(
  picture: Picture,
  laid: LaidOut,
  x: Scale,
  low: number,
  unit: Unit,
): number {
  const marks = marksOf(laid);
  const texts = marks.map((nm) => (nm === 0 ? '0' : showLength(nm, unit, false)));
  const least = LINE / 2 - 2;
  const most = picture.width - least;
  const wanted = spread(
    marks.map(x),
    marks.map(() => LINE),
    0,
  );
  const places = wanted.map((at, index) => Math.min(at, most - (marks.length - 1 - index) * LINE));
  const crowded = (places[0] ?? 0) < least;
  if (crowded) return low + 10; // the table beside it has them all
  const foot = low + FAN;
  for (const [index, at] of places.entries()) {
    const text = texts[index] ?? '';
    picture.strokes.push({
      look: 'thin',
      points: [
        [x(marks[index] ?? 0), low + 6],
        [at, foot],
      ],
    });
    picture.figures.push({ x: at, y: foot + 4, text, hold: 'end', turned: true });
  }
  return foot + 12 + Math.max(...texts.map(textWidth));
}

/** The datum, every cut at its near side, and the end of a last piece that is not sawn off. */
export function marksOf({ cuts, pieces, dressed_last }: LaidOut): number[] {
  const end = dressed_last > 0 ? [pieces.at(-1)?.to ?? 0] : [];
  return [0, ...cuts.map(({ at }) => at), ...end];
}

/** The section to a scale of its own; returns where the drawing of the length may begin. */
function drawSection(picture: Picture, section: DrawnSection, unit: Unit): number {
  const { form, square, sides, wall } = section;
  const [across = 0, up = across] = sides;
  const scale = LARGEST / Math.max(across, up);
  const [wide, high] = [across * scale, up * scale];
  const thick = Math.max(wall * scale, THINNEST);
  const round = form === 'tube' && !square;
  const [left, top] = [round ? EDGE + 10 : EDGE + 34, 12];
  const [right, low] = [left + wide, top + high];
  if (round) {
    const [x, y, radius] = [left + wide / 2, top + high / 2, wide / 2];
    picture.circles.push({ x, y, radius, look: 'edge' });
    picture.circles.push({ x, y, radius: radius - thick, look: 'edge' });
  } else for (const ring of ringsOf(form, left, right, top, low, thick)) outline(picture, ring);
  const room = [0, picture.width] as const;
  const figure = (nm: number): string[] => [`${showLength(nm, unit)}${round ? ' dia' : ''}`];
  const end = dimension(
    picture,
    [{ from: left, to: right, starts: [low, low], lines: figure(across) }],
    { first: low + 4, away: 1, room, upright: false },
  );
  if (!round)
    dimension(picture, [{ from: top, to: low, starts: [left, left], lines: figure(up) }], {
      first: left - 4,
      away: -1,
      room: [0, low + 60],
      upright: true,
    });
  wallNote(picture, showThickness(wall, unit), right, (top + low) / 2);
  return end + 10;
}

function wallNote(picture: Picture, wall: string, right: number, y: number): void {
  picture.figures.push({ x: right + 18, y, text: `wall ${wall}`, hold: 'start' });
}

/** The outlines of an angle, a channel or a square tube; its outer corner lies to the lower left. */
function ringsOf(
  form: Form,
  left: number,
  right: number,
  top: number,
  low: number,
  thick: number,
): Point[][] {
  if (form === 'tube')
    return [box(left, right, top, low), box(left + thick, right - thick, top + thick, low - thick)];
  const ell: Point[] = [
    [left, top],
    [left, low],
    [right, low],
  ];
  if (form === 'angle')
    return [[...ell, [right, low - thick], [left + thick, low - thick], [left + thick, top]]];
  return [
    [
      ...ell,
      [right, top],
      [right - thick, top],
      [right - thick, low - thick],
      [left + thick, low - thick],
      [left + thick, top],
    ],
  ];
}
