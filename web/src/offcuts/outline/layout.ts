// Where the lines of an outline's drawing go, to scale, its first side along the bottom. Pure; units
// of the drawing are about one px on a phone.
import type { Unit } from '../../twins/lengths.ts';
import { type Box, type Dimension, type Line, middleOf, WIDTH } from '../drawing.ts';
import { measuredText } from '../words.ts';
import { distance, type Point, type Side } from './exact.ts';
import type { Fault } from './faults.ts';
import type { SideText } from './reading.ts';
import { type Bounds, boundsOf, direction, holds, type Ring } from './rings.ts';

const TALLEST = 260;
const EDGE = 10;
const BELOW = 33; // room for a dimension line
const ARROW = 26; // room for a grain arrow along or across
const LEANING = 74; // room for one at an angle
export const LABEL = 13; // px of a figure at a side

export interface ToDraw {
  sheet: Ring;
  /** the way does not come back to where it began (yet) */
  open: boolean;
  keeps: readonly Ring[];
  texts: readonly SideText[];
  /** how far it reaches along and up, in words; else as a rule is read */
  whole?: readonly [string, string] | null;
  faults: readonly Fault[];
  /** where the grain runs: its angle to the bottom, millionths of a degree; null where not known */
  grain: number | null;
  unit: Unit;
}
export interface Label {
  x: number;
  y: number;
  turned: number; // degrees, clockwise as drawings have it
  text: string;
}
export interface Picture {
  width: number;
  height: number;
  box: Box;
  /** the way round it, as a path */
  sheet: string;
  /** round each keep-out, as the points of a polygon */
  keeps: string[];
  dimensions: Dimension[];
  labels: Label[];
  /** places where something is wrong, and the sides it is about */
  marks: Point[];
  wrong: string;
  grain:
    | { sort: 'a' | 'b' | 'unknown' }
    | { sort: 'leaning'; from: Point; to: Point; words: string };
  /** the place on the sheet, in nm, at this point of the drawing */
  placeAt: (x: number, y: number) => Point;
}

const QUARTER = 90_000_000;

export function picture(draw: ToDraw): Picture {
  const bounds = allBounds(draw);
  const [wide, high] = [bounds.x1 - bounds.x0, bounds.y1 - bounds.y0];
  const sort = grainSort(draw.grain);
  const top = { a: ARROW, unknown: ARROW, b: EDGE, leaning: LEANING }[sort];
  const right = sort === 'b' ? ARROW : EDGE;
  const room = WIDTH - BELOW - right;
  const scale = Math.min(room / wide, TALLEST / high);
  const x0 = BELOW + (room - wide * scale) / 2;
  const at = ([x, y]: Point): Point => [
    x0 + (x - bounds.x0) * scale,
    top + (bounds.y1 - y) * scale,
  ];
  const box = boxOf(boundsOf(draw.sheet), at);
  const low = top + high * scale;
  const path = (ring: Ring, closed: boolean): string =>
    `M${ring.map((corner) => at(corner).map(short).join(' ')).join('L')}${closed ? 'Z' : ''}`;
  const dimensions = overall(draw, box, low);
  const deepest = dimensions.map(({ side, middle, text }) =>
    side === 'left' ? middle + text.length * 4.5 + EDGE : 0,
  );
  return {
    width: WIDTH,
    height: Math.max(low + BELOW, ...deepest),
    box,
    sheet: path(draw.sheet, !draw.open),
    keeps: draw.keeps.map((ring) =>
      ring.map((corner) => at(corner).map(short).join(',')).join(' '),
    ),
    dimensions,
    labels: labelsFor(draw, at, scale, box),
    marks: draw.faults.flatMap(({ points }) => points.slice(0, 4).map(at)),
    wrong: draw.faults.flatMap(({ sides }) => sides.map((side) => path(side, false))).join(''),
    grain: sort === 'leaning' ? leaning(draw.grain as number, top) : { sort },
    placeAt: (x, y) => [
      Math.round(bounds.x0 + (x - x0) / scale),
      Math.round(bounds.y1 - (y - top) / scale),
    ],
  };
}

const short = (value: number): number => Math.round(value * 100) / 100;

function grainSort(grain: number | null): 'a' | 'b' | 'unknown' | 'leaning' {
  if (grain === null) return 'unknown';
  return grain === 0 ? 'a' : grain === QUARTER ? 'b' : 'leaning';
}

/** Of the sheet, and of what was told to lie beside it by mistake, as far as that can be shown. */
function allBounds({ sheet, keeps, faults }: ToDraw): Bounds {
  const own = boundsOf(sheet);
  const most = 2 * Math.max(own.x1 - own.x0, own.y1 - own.y0, 1);
  const near = ([x, y]: Point): boolean =>
    x > own.x0 - most && x < own.x1 + most && y > own.y0 - most && y < own.y1 + most;
  const shown = [...keeps, ...faults.map(({ points }) => points)].filter((ring) =>
    ring.every(near),
  );
  const all = boundsOf([...sheet, ...shown.flat()]);
  // a way of one side has no height, and is drawn all the same
  const least = Math.max(all.x1 - all.x0, all.y1 - all.y0, 1) / 8;
  return { ...all, x1: Math.max(all.x1, all.x0 + least), y1: Math.max(all.y1, all.y0 + least) };
}

function boxOf({ x0, y0, x1, y1 }: Bounds, at: (point: Point) => Point): Box {
  const [left, low] = at([x0, y0]);
  const [right, high] = at([x1, y1]);
  return { x: left, y: high, width: right - left, height: low - high };
}

/** How far the sheet reaches, below it and to its left. */
function overall({ sheet, open, unit, whole }: ToDraw, box: Box, low: number): Dimension[] {
  if (open) return [];
  const { x0, y0, x1, y1 } = boundsOf(sheet);
  const under = box.y + box.height;
  const lines: Line[] = [
    {
      side: 'below',
      from: box.x,
      to: box.x + box.width,
      at: low + 19,
      starts: [under, under],
      text: whole?.[0] ?? measuredText(x1 - x0, unit),
    },
    {
      side: 'left',
      from: under,
      to: box.y,
      at: Math.max(box.x - 19, 13),
      starts: [box.x, box.x],
      text: whole?.[1] ?? measuredText(y1 - y0, unit),
    },
  ];
  return lines.map((line) => ({ ...line, middle: middleOf(line) }));
}

interface Placed {
  x: number;
  y: number;
  wide: number;
  high: number;
}
const CLEAR = 10; // from a side to the middle of its figure

/** Figures at the sides that have room for one: inside, else outside, never over another. */
function labelsFor(draw: ToDraw, at: (point: Point) => Point, scale: number, box: Box): Label[] {
  const taken: Placed[] = [];
  const drawn = [...draw.texts.map((one) => one.side), ...draw.faults.flatMap((one) => one.sides)];
  const others = drawn.map((line) => [at(line[0]), at(line[1]), line] as const);
  const marks = draw.faults.flatMap(({ points }) => points.map(at));
  for (const [x, y] of marks) taken.push({ x, y, wide: 40, high: 40 });
  const longest = [...draw.texts].sort(
    (one, other) => distance(...other.side) - distance(...one.side),
  );
  return longest.flatMap(({ side, text }): Label[] => {
    const length = distance(...side) * scale;
    const wide = text.length * LABEL * 0.6 + 4;
    if (length < wide + 4 || (!draw.open && isOverall(side, draw.sheet))) return [];
    for (const way of [1, -1]) {
      const label = labelAt(side, text, at, way * CLEAR);
      const placed = placedAt(label, wide);
      if (!hasRoom(draw, side, way, (CLEAR * 1.7) / scale, wide / scale, box, placed)) continue;
      if (taken.some((other) => overlap(other, placed))) continue;
      if (
        !standsClear(
          label,
          wide,
          others.filter((line) => line[2] !== side),
        )
      )
        continue;
      taken.push(placed);
      return [label];
    }
    return [];
  });
}

/** Whether a figure stands clear of lines that are not its own. */
function standsClear(
  { x, y, turned }: Label,
  wide: number,
  lines: readonly (readonly [Point, Point, Side])[],
): boolean {
  const angle = (turned * Math.PI) / 180;
  return [-0.5, -0.25, 0, 0.25, 0.5].every((share) => {
    const place: Point = [x + Math.cos(angle) * wide * share, y + Math.sin(angle) * wide * share];
    return lines.every(([from, to]) => off(place, from, to) > LABEL * 0.6);
  });
}

/** How far a point is from a line between two others. */
function off([x, y]: Point, from: Point, to: Point): number {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const along = ((x - from[0]) * dx + (y - from[1]) * dy) / (dx * dx + dy * dy || 1);
  const share = Math.min(Math.max(along, 0), 1);
  return Math.hypot(x - from[0] - share * dx, y - from[1] - share * dy);
}

/** A side along the bottom or the left that reaches from end to end has its dimension line. */
function isOverall([one, other]: Side, sheet: Ring): boolean {
  const { x0, y0, x1, y1 } = boundsOf(sheet);
  if (one[1] === other[1]) return one[1] === y0 && Math.abs(other[0] - one[0]) === x1 - x0;
  return one[0] === other[0] && one[0] === x0 && Math.abs(other[1] - one[1]) === y1 - y0;
}

function labelAt(
  [one, other]: Side,
  text: string,
  at: (point: Point) => Point,
  off: number,
): Label {
  const [from, to] = [at(one), at(other)];
  const length = distance(from, to) || 1;
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  // the metal is to the left of the walk; on the drawing y runs down
  const [x, y] = [(from[0] + to[0]) / 2 + uy * off, (from[1] + to[1]) / 2 - ux * off];
  let turned = (Math.atan2(uy, ux) * 180) / Math.PI;
  // read from the bottom, or from the right
  if (turned > 89.99) turned -= 180;
  if (turned < -90.01) turned += 180;
  return { x: short(x), y: short(y), turned: short(turned), text };
}

function placedAt({ x, y, turned }: Label, wide: number): Placed {
  const angle = (turned * Math.PI) / 180;
  const [cos, sin] = [Math.abs(Math.cos(angle)), Math.abs(Math.sin(angle))];
  return { x, y, wide: wide * cos + LABEL * sin, high: wide * sin + LABEL * cos };
}

function overlap(one: Placed, other: Placed): boolean {
  return (
    Math.abs(one.x - other.x) < (one.wide + other.wide) / 2 &&
    Math.abs(one.y - other.y) < (one.high + other.high) / 2
  );
}

/** Whether a figure stands clear: within the metal (`way` 1) or beside it, and within the drawing. */
function hasRoom(
  { sheet, open, keeps }: ToDraw,
  [one, other]: Side,
  way: number,
  deep: number,
  wide: number,
  box: Box,
  placed: Placed,
): boolean {
  if (placed.x - placed.wide / 2 < 2 || placed.x + placed.wide / 2 > WIDTH - 2) return false;
  if (placed.y - placed.high / 2 < 2) return false;
  // beside a side that the sheet ends with, there are dimension lines and the grain
  const outside = Math.min(box.x + box.width - placed.x, placed.x - box.x);
  if (way < 0 && !open && outside < 0 && placed.x < box.x) return false;
  const length = distance(one, other);
  const [ux, uy] = [(other[0] - one[0]) / length, (other[1] - one[1]) / length];
  const [mx, my] = [(one[0] + other[0]) / 2, (one[1] + other[1]) / 2];
  const corners = [-wide / 2, 0, wide / 2].flatMap((along) =>
    [deep * 0.15, deep].map(
      (off): Point => [mx + ux * along - uy * off * way, my + uy * along + ux * off * way],
    ),
  );
  if (corners.some((corner) => keeps.some((keep) => holds(keep, corner)))) return false;
  return open || corners.every((corner) => holds(sheet, corner) === way > 0);
}

/** An arrow above the sheet, at the angle, with its words beside it. */
function leaning(udeg: number, top: number): Picture['grain'] {
  const [cos, sin] = direction(udeg);
  const half = 30;
  const [x, y] = [54, top / 2 - 2];
  const degrees = Math.round(udeg / 10_000) / 100;
  return {
    sort: 'leaning',
    from: [short(x - half * cos), short(y + half * sin)],
    to: [short(x + half * cos), short(y - half * sin)],
    words: `grain at ${degrees}°`,
  };
}
