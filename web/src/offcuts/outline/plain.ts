// Outlines of the usual shapes from their sides: corners off, notches, triangles. Pure.
import { distance, type Point } from './exact.ts';
import { nm, type Ring, tidied } from './rings.ts';

export const CORNERS = ['bottom left', 'bottom right', 'top right', 'top left'] as const;
export type Corner = (typeof CORNERS)[number];
/** What is off at one corner of a sheet, along its first and its second side, nm. */
export interface Off {
  corner: Corner;
  a: number;
  b: number;
}

export function sheetRing(a: number, b: number): Ring {
  return [
    [0, 0],
    [a, 0],
    [a, b],
    [0, b],
  ];
}

/** A sheet of a x b with corners off: cut straight across, or square ones taken out. */
export function withCornersOff(a: number, b: number, offs: readonly Off[], square: boolean): Ring {
  const ring = CORNERS.flatMap((corner, at): Point[] => {
    const [x, y] = sheetRing(a, b)[at] as Point;
    const off = offs.find((one) => one.corner === corner);
    if (!off) return [[x, y]];
    const [inX, inY] = [x === 0 ? off.a : a - off.a, y === 0 ? off.b : b - off.b];
    const [onX, onY]: [Point, Point] = [
      [inX, y],
      [x, inY],
    ];
    // counter-clockwise a corner at the bottom left or the top right is reached along y
    const [first, last] = at % 2 === 0 ? [onY, onX] : [onX, onY];
    return square ? [first, [inX, inY], last] : [first, last];
  });
  return tidied(ring);
}

/** Where what is off at two corners takes more of a side than there is: the corners it is about. */
export function tooMuchOff(a: number, b: number, offs: readonly Off[]): Corner[] {
  const along = (one: Corner, other: Corner, side: 'a' | 'b', most: number): Corner[] => {
    const here = offs.filter(({ corner }) => corner === one || corner === other);
    const sum = here.reduce((taken, off) => taken + off[side], 0);
    return sum > most ? here.map(({ corner }) => corner) : [];
  };
  return [
    ...along('bottom left', 'bottom right', 'a', a),
    ...along('top left', 'top right', 'a', a),
    ...along('bottom left', 'top left', 'b', b),
    ...along('bottom right', 'top right', 'b', b),
  ];
}

/**
 * A triangle by its sides: the first along the bottom, the second up from its right end, the third
 * back down to its left end. Null where two of them together are not longer than the other.
 */
export function triangleOf(a: number, b: number, c: number): Ring | null {
  if (2 * Math.max(a, b, c) >= a + b + c) return null;
  const along = (a * a + (c - b) * (c + b)) / (2 * a);
  const half = (a + b + c) / 2;
  const height = (2 * Math.sqrt(half * (half - a) * (half - b) * (half - c))) / a;
  return [
    [0, 0],
    [a, 0],
    [nm(along), Math.floor(height)],
  ];
}

/** How long each side of a ring is. */
export function lengthsOf(ring: Ring): number[] {
  return ring.map((corner, at) => distance(corner, ring[(at + 1) % ring.length] as Point));
}
