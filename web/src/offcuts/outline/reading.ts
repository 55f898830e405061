// From the answers about a shape to its outline: as far as it can be drawn, what is wrong with it,
// and the metal that is left beside its keep-outs. Pure.
import { readLength, type Unit } from '../../twins/lengths.ts';
import { withUnit } from '../name.ts';
import { measuredText } from '../words.ts';
import { filled, isBlankPoint, isBlankSide, type ShapeAnswers, type TypedSide } from './answers.ts';
import type { Point, Side } from './exact.ts';
import { type Called, crossedOn, type Fault, faultsIn } from './faults.ts';
import { Figures, type Problems } from './figures.ts';
import { type KeepOut, ringAround, without } from './keepouts.ts';
import { type Off, sheetRing, tooMuchOff, triangleOf, withCornersOff } from './plain.ts';
import { anticlockwise, type Region, type Ring } from './rings.ts';
import { closingOf, ringOf, type Step, walk } from './walk.ts';

/** The figure that stands at a side. */
export interface SideText {
  side: Side;
  text: string;
}
export interface Traced {
  /** what is wanting or cannot be read, by the name of the answer */
  problems: Problems;
  /** the outline as it was told, in its own frame; the way as far as it goes where `open` */
  sheet: Ring;
  open: boolean;
  texts: SideText[];
  /** how far it reaches along and up, as typed, where that was typed */
  whole: readonly [string, string] | null;
  /** the keep-outs as they were told, behind the holes that it has */
  keeps: Ring[];
  faults: Fault[];
  remarks: string[];
  /** the metal; null where anything is wanting or wrong */
  region: Region | null;
}

type Sheet = Pick<Traced, 'sheet' | 'open' | 'texts' | 'whole' | 'faults' | 'remarks'>;
const NOTHING: Sheet = {
  sheet: [],
  open: false,
  texts: [],
  whole: null,
  faults: [],
  remarks: [],
};

export interface Asked {
  a: string;
  b: string;
  shape: ShapeAnswers;
}

/** By the answers it was traced from: a form asks for it several times with every key. */
const traced = new WeakMap<ShapeAnswers, { a: string; b: string; unit: Unit; made: Traced }>();

export function trace({ a, b, shape }: Asked, unit: Unit): Traced {
  const last = traced.get(shape);
  if (last && last.a === a && last.b === b && last.unit === unit) return last.made;
  const made = traceAnew({ a, b, shape }, unit);
  traced.set(shape, { a, b, unit, made });
  return made;
}

function traceAnew(asked: Asked, unit: Unit): Traced {
  const figures = new Figures(unit);
  const sheet = READERS[asked.shape.way](asked, figures, unit);
  const keeps = keepsOf(asked.shape, figures);
  const whole = sheet.sheet.length > 2 && !sheet.open;
  const faults = sheet.faults.length || !whole ? sheet.faults : faultsIn(sheet.sheet);
  const { given } = asked.shape;
  const holes = asked.shape.way === 'dxf' && given ? given.region.holes : [];
  const drawn = whole ? [...holes, ...keeps.map((keep) => ringAround(keep, sheet.sheet))] : [];
  const told = { ...sheet, faults, keeps: drawn, problems: figures.problems, region: null };
  if (!whole || faults.length) return told;
  const kept = without(sheet.sheet, keeps, holes);
  return {
    ...told,
    faults: kept.faults,
    remarks: [...sheet.remarks, ...kept.remarks],
    region: kept.faults.length || !figures.sound ? null : kept.region,
  };
}

const A_WANTED = 'Type the first side.';
const B_WANTED = 'Type the second side.';

function sides({ a, b }: Asked, figures: Figures): [number, number] | null {
  const [first, second] = [figures.length('a', a, A_WANTED), figures.length('b', b, B_WANTED)];
  return first === null || second === null ? null : [first, second];
}

/** Both sides with their units, for ends that reach so far. */
function wholeOf({ a, b }: Asked, unit: Unit): [string, string] {
  const said = (text: string): string => {
    const read = readLength(text, unit);
    return 'nm' in read ? withUnit(read) : text;
  };
  return [said(a), said(b)];
}

function texts(ring: Ring, said: readonly string[], of?: readonly number[]): SideText[] {
  return ring.flatMap((corner, at): SideText[] => {
    const text = said[of ? (of[at] as number) : at]?.trim();
    const next = ring[(at + 1) % ring.length] as Point;
    return text ? [{ side: [corner, next], text }] : [];
  });
}

const READERS: Record<ShapeAnswers['way'], (asked: Asked, figures: Figures, unit: Unit) => Sheet> =
  {
    'two sides': (asked, figures, unit) => {
      const read = sides(asked, figures);
      return read
        ? { ...NOTHING, sheet: sheetRing(...read), whole: wholeOf(asked, unit) }
        : NOTHING;
    },
    'corner off': (asked, figures, unit) => cornersOff(asked, figures, unit, false),
    ell: (asked, figures, unit) => cornersOff(asked, figures, unit, true),
    triangle: (asked, figures) => {
      const read = sides(asked, figures);
      const third = figures.length('c', asked.shape.c, 'Type the third side.');
      if (!read || third === null) return NOTHING;
      const sheet = triangleOf(...read, third);
      if (!sheet) {
        figures.problems.c =
          'These three sides do not meet: the two shorter ones together must be longer than the longest.';
        return NOTHING;
      }
      return { ...NOTHING, sheet, texts: texts(sheet, [asked.a, asked.b, asked.shape.c]) };
    },
    walked,
    offsets: ({ shape }, figures) => {
      const rows = filled(shape.points, isBlankPoint);
      const read = rows.map(({ x, y }, at) => [
        figures.distance(`point.${at}.x`, x, 'Type how far it is from the left edge, 0 on it.'),
        figures.distance(`point.${at}.y`, y, 'Type how far it is from the bottom edge, 0 on it.'),
      ]);
      const points = read.filter((point): point is [number, number] => !point.includes(null));
      if (rows.length < 3)
        figures.problems['point.more'] = 'It takes three corners to go round. Add the next one.';
      if (points.length < rows.length || points.length < 3)
        return { ...NOTHING, sheet: points, open: true };
      return { ...NOTHING, sheet: anticlockwise(points) };
    },
    dxf: ({ shape }, figures) => {
      if (shape.given) return { ...NOTHING, sheet: shape.given.region.outer };
      figures.problems.file = 'Choose the drawing file.';
      return NOTHING;
    },
  };

function cornersOff(asked: Asked, figures: Figures, unit: Unit, square: boolean): Sheet {
  const read = sides(asked, figures);
  const offs = asked.shape.offs.map(({ corner, a, b }, at): Off | null => {
    const along = figures.length(`off.${at}.a`, a, 'Type how much is off along the first side.');
    const up = figures.length(`off.${at}.b`, b, 'Type how much is off along the second side.');
    return along === null || up === null ? null : { corner, a: along, b: up };
  });
  if (!read) return NOTHING;
  const known = offs.filter((off): off is Off => off !== null);
  const [crowded] = tooMuchOff(...read, known);
  if (crowded) {
    const at = asked.shape.offs.findIndex(({ corner }) => corner === crowded);
    figures.problems[`off.${at}.a`] = 'That takes off more than there is of the side.';
    return { ...NOTHING, sheet: sheetRing(...read), whole: wholeOf(asked, unit) };
  }
  const sheet = withCornersOff(...read, known, square);
  return { ...NOTHING, sheet, whole: wholeOf(asked, unit) };
}

/** The angle of the metal at a corner, millionths of a degree. */
function cornerOf({ corner, angle }: TypedSide, at: number, figures: Figures): number | null {
  const quarter = 90_000_000;
  if (corner === 'square') return quarter;
  if (corner === 'inward') return 3 * quarter;
  const typed = figures.angle(`side.${at}.angle`, angle, 180, 'Type the angle at this corner.');
  return typed === null || corner === 'out' ? typed : 4 * quarter - typed;
}

function stepOf(side: TypedSide, at: number, last: boolean, figures: Figures): Step | null {
  const length = figures.length(`side.${at}.length`, side.length, 'Type how long this side is.');
  const corner = last ? 0 : cornerOf(side, at, figures);
  let curve: Step['curve'];
  if (side.curve) {
    const wanted = 'Type how far its middle stands off the straight.';
    const rise = figures.length(`side.${at}.rise`, side.rise, wanted);
    if (rise === null || length === null) return null;
    if (2 * rise > length) {
      figures.problems[`side.${at}.rise`] =
        'That is more than a half circle. Walk it as two curved sides.';
      return null;
    }
    curve = { rise, way: side.curve };
  }
  return length === null || corner === null ? null : { length, corner, curve };
}

function walked({ shape }: Asked, figures: Figures, unit: Unit): Sheet {
  const rows = filled(shape.sides, isBlankSide);
  const read = rows.map((side, at) => stepOf(side, at, at === rows.length - 1, figures));
  const until = read.indexOf(null);
  const steps = (until < 0 ? read : read.slice(0, until)) as Step[];
  if (!rows.length) figures.problems['side.0.length'] = 'Type how long the first side is.';
  if (!steps.length) return { ...NOTHING, open: true };
  const way = walk(steps);
  const closing = closingOf(steps, way, shape.back && until < 0 && steps.length > 1);
  const { ring, of } = ringOf(steps, way, closing);
  const called: Called = {
    side: (at) => (of[at] === steps.length ? 'the way straight back' : `side ${(of[at] ?? 0) + 1}`),
    hole: (at) => `keep-out ${at + 1}`,
  };
  const open = closing.is === 'open' || until >= 0;
  // chords of a curve have no figure of their own
  const own = of.filter((side, at) => of.indexOf(side) === at && of.lastIndexOf(side) === at);
  const said = rows.map((row, at) => (own.includes(at) ? row.length : ''));
  const sheet = { ...NOTHING, sheet: ring, open, texts: texts(ring, said, of) };
  const found = open ? crossedOn(ring, called) : faultsIn(ring, [], called);
  const gap = measuredText(closing.gap, unit);
  if (closing.is === 'nearly')
    return {
      ...sheet,
      faults: found,
      remarks: [`The last side ends ${gap} from where the first began: closed on the safe side.`],
    };
  if (closing.is === 'open' && until < 0 && !found.length) found.push(openFault(ring, gap));
  return { ...sheet, faults: found };
}

function openFault(chain: Ring, gap: string): Fault {
  const [start, end] = [chain[0] as Point, chain.at(-1) as Point];
  return {
    code: 'open',
    sentence: `Not closed: the last side ends ${gap} from where the first began. Add the next side, look at the lengths and corners, or go straight back.`,
    points: [],
    sides: [[end, start]],
  };
}

function keepsOf(shape: ShapeAnswers, figures: Figures): KeepOut[] {
  return shape.keeps.flatMap((keep, at): KeepOut[] => {
    const name = (what: string): string => `keep.${at}.${what}`;
    const round = keep.sort !== 'square';
    const x = figures.distance(
      name('x'),
      keep.x,
      `Type how far it is from the ${keep.fromX} edge.`,
    );
    const y = figures.distance(
      name('y'),
      keep.y,
      `Type how far it is from the ${keep.fromY} edge.`,
    );
    const width = figures.length(name('width'), keep.width, 'Type how wide it is.');
    const height = round
      ? width
      : figures.length(name('height'), keep.height, 'Type how high it is.');
    if (x === null || y === null || width === null || height === null) return [];
    return [{ round, x, fromX: keep.fromX, y, fromY: keep.fromY, width, height }];
  });
}

/** The grain's angle to the first side in millionths of a degree; null, with a sentence, where none. */
export function leanOf(lean: string): { udeg: number } | { sentence: string } {
  const figures = new Figures('mm');
  const wanting = 'Type the angle between the first side and the grain.';
  const udeg = figures.angle('lean', lean, 180, wanting);
  return udeg === null ? { sentence: figures.problems.lean ?? wanting } : { udeg };
}
