// The answers to the shape question as they stand on the screen. An empty text is one not answered
// yet. Pure.
import type { Corner } from './plain.ts';
import type { Region } from './rings.ts';

export const SHAPE_WAYS = [
  'two sides',
  'corner off',
  'ell',
  'triangle',
  'walked',
  'offsets',
  'dxf',
] as const;
export type ShapeWay = (typeof SHAPE_WAYS)[number];

/** How an outline was told, as it is recorded with it. */
export interface Entered {
  readonly way: string;
  readonly texts: Readonly<Record<string, string>>;
}
export interface TypedOff {
  corner: Corner;
  a: string;
  b: string;
}
/** Corner at the far end: `out` and `in` have their angle typed, out of the sheet or into it. */
export interface TypedSide {
  length: string;
  corner: 'square' | 'inward' | 'out' | 'in';
  angle: string;
  curve: '' | 'out' | 'in';
  rise: string;
}
export interface TypedPoint {
  x: string;
  y: string;
}
export interface TypedKeep {
  sort: 'round' | 'square' | 'mark';
  x: string;
  fromX: 'left' | 'right';
  y: string;
  fromY: 'bottom' | 'top';
  width: string;
  height: string;
}
export interface ShapeAnswers {
  way: ShapeWay;
  /** the third side of a triangle; the first two are those of any sheet */
  c: string;
  offs: TypedOff[];
  sides: TypedSide[];
  /** the last side runs straight back to where the first began */
  back: boolean;
  points: TypedPoint[];
  keeps: TypedKeep[];
  /** the grain's angle to the first side, where it runs along neither */
  lean: string;
  /** not typed: read from a file, or left over from a cut */
  given: { region: Region; entered: Entered } | null;
}

export const BLANK_SIDE: TypedSide = {
  length: '',
  corner: 'square',
  angle: '',
  curve: '',
  rise: '',
};
export const BLANK_POINT: TypedPoint = { x: '', y: '' };
export const BLANK_KEEP: TypedKeep = {
  sort: 'round',
  x: '',
  fromX: 'left',
  y: '',
  fromY: 'bottom',
  width: '',
  height: '',
};
export const BLANK_SHAPE: ShapeAnswers = {
  way: 'two sides',
  c: '',
  offs: [{ corner: 'top right', a: '', b: '' }],
  sides: [BLANK_SIDE],
  back: false,
  points: [BLANK_POINT],
  keeps: [],
  lean: '',
  given: null,
};

export const MOST_SIDES = 60;
export const MOST_KEEPS = 20;

/** One of a list changed in one or more of its answers. */
export function changed<T>(list: readonly T[], at: number, change: Partial<T>): T[] {
  return list.map((one, number) => (number === at ? { ...one, ...change } : one));
}

export const isBlankSide = (side: TypedSide): boolean => !side.length.trim();
export const isBlankPoint = ({ x, y }: TypedPoint): boolean => !x.trim() && !y.trim();

/** Rows at the end that nothing is written in do not count. */
export function filled<T>(list: readonly T[], isBlank: (one: T) => boolean): T[] {
  let end = list.length;
  while (end > 0 && isBlank(list[end - 1] as T)) end--;
  return list.slice(0, end);
}
