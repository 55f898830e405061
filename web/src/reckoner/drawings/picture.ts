// What a drawing of the reckoner is made of: lines, filled shapes and figures, in px of the screen.
// Kept as plain points, so that a test can see whether a figure stands on a line.

export type Point = readonly [x: number, y: number];

/**
 * edge: an outline; thin: dimension, witness and leader lines; heavy: one of the two lines of a
 * dimension that fails; centre, hidden, sight: broken lines; datum: the edge to measure from.
 */
export type Look = 'edge' | 'thin' | 'heavy' | 'centre' | 'sight' | 'datum' | 'leader';

export interface Stroke {
  look: Look;
  points: readonly Point[];
}
/** metal: sheet in section or plan; new: hatched; rivet, head (of an arrow): solid; hole: bare ground. */
export interface Solid {
  look: 'metal' | 'new' | 'rivet' | 'head';
  points: readonly Point[];
}
/** A text in one line; x by `hold`, y is the middle of its height; turned reads upwards. */
export interface Figure {
  x: number;
  y: number;
  text: string;
  hold: 'start' | 'middle' | 'end';
  turned?: boolean;
  bold?: boolean;
}
export interface Picture {
  width: number;
  height: number;
  solids: Solid[];
  strokes: Stroke[];
  circles: Circle[];
  figures: Figure[];
}
export interface Circle {
  x: number;
  y: number;
  radius: number;
  look: 'hole' | 'edge' | 'rivet' | 'centre';
}

/** The height of the letters, and from one line of text to the next. */
export const LETTER = 16;
export const LINE = 19;
/** B612 Mono: 1300 of 2000 units to every character, bold as well. */
export const ADVANCE = LETTER * 0.65;
/** How wide a drawing is before its room on the screen has been measured. */
export const USUAL_WIDTH = 358;

export function blank(width: number): Picture {
  return { width, height: 0, solids: [], strokes: [], circles: [], figures: [] };
}

export function textWidth(text: string): number {
  return [...text].length * ADVANCE;
}

export function widest(lines: readonly string[]): number {
  return Math.max(0, ...lines.map(textWidth));
}

/** Several lines of text as one block about the height `middle`. */
export function block(
  lines: readonly string[],
  x: number,
  middle: number,
  hold: Figure['hold'],
  bold = false,
): Figure[] {
  const first = middle - ((lines.length - 1) * LINE) / 2;
  return lines.map((text, at) => ({ x, y: first + at * LINE, text, hold, bold }));
}

export interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** The room that the letters of a figure take. */
export function boxOf({ x, y, text, hold, turned }: Figure): Box {
  const wide = textWidth(text);
  const before = hold === 'start' ? 0 : hold === 'end' ? wide : wide / 2;
  const half = LETTER * 0.42;
  if (turned)
    return { left: x - half, right: x + half, top: y - wide + before, bottom: y + before };
  return { left: x - before, right: x - before + wide, top: y - half, bottom: y + half };
}

export const ARROW = 9;

/** A closed arrowhead with its tip at (x, y), its tail towards (dx, dy). */
export function arrow([x, y]: Point, dx: number, dy: number): Solid {
  const half = 2.8;
  const [bx, by] = [x + dx * ARROW, y + dy * ARROW];
  return {
    look: 'head',
    points: [
      [x, y],
      [bx + dy * half, by + dx * half],
      [bx - dy * half, by - dx * half],
    ],
  };
}

/** Two ragged lines across a piece that is drawn shorter than it is, from `from` to `to`. */
export function breakLines(at: number, from: number, to: number, upright: boolean): Stroke[] {
  const middle = (from + to) / 2;
  return [at - 4, at + 4].map((side) => {
    const points: Point[] = [
      [side, from - 6],
      [side, middle - 6],
      [side - 5, middle - 2],
      [side + 5, middle + 2],
      [side, middle + 6],
      [side, to + 6],
    ];
    return { look: 'thin', points: upright ? points : points.map(([x, y]): Point => [y, x]) };
  });
}
