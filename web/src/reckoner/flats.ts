// The developed flat, from the sums of bends. Pure.

import { isRational, type Rational, toNumber } from '../twins/rational.ts';
import type { Answer } from '../twins/reckon.ts';
import type { Value } from '../twins/rules.ts';
import type { FlatBend } from './drawings/flat.ts';
import { givenNm, nmList, nmOf, type Reckoned, type Shown } from './drawn.ts';

const SQUARE = 90; // degrees

/** The flat with its bend lines and sight lines; every bend is drawn upwards. */
export function flatShape({ answer, read, unit }: Reckoned): Shown[] {
  const [thickness, radius] = [nmOf(read.thickness), nmOf(read.radius)];
  const developed = givenNm(answer, 'developed_mm');
  const legs = nmList(read.legs);
  const bends = bendsOf(answer, degreesOf(read.angles, legs.length - 1), radius ?? 0);
  if (thickness === null || radius === null || developed === null || !bends) return [];
  return [{ is: 'flat', props: { legs, bends, thickness, developed, unit } }];
}

/** The flat of a piece, from what the answer says of it; every bend of a piece is square. */
export function pieceFlat({ answer, read, unit }: Reckoned): Shown[] {
  const [thickness, developed] = [givenNm(answer, 'thickness_mm'), givenNm(answer, 'blank_b_mm')];
  const inner = listNm(answer, 'legs_mm');
  const legs = inner.length ? inner : nmList(read.legs);
  const square = legs.slice(1).map(() => SQUARE);
  const bends = bendsOf(answer, square, givenNm(answer, 'radius_mm') ?? 0);
  if (thickness === null || developed === null || !bends) return [];
  return [{ is: 'flat', props: { legs, bends, thickness, developed, unit } }];
}

/** Null where the answer does not have a line for every bend. */
function bendsOf(answer: Answer, angles: readonly number[], radius: number): FlatBend[] | null {
  const [starts, ends, lines, sights] = [
    'bend_starts',
    'bend_ends',
    'bend_lines',
    'sight_lines',
  ].map((key) => listNm(answer, `${key}_mm`));
  const bends: FlatBend[] = [];
  for (const [at, angle] of angles.entries()) {
    const [start, end, line, sight] = [starts?.[at], ends?.[at], lines?.[at], sights?.[at]];
    if (start === undefined || end === undefined || line === undefined || sight === undefined)
      return null;
    bends.push({ angle, radius, up: true, start, end, line, sight });
  }
  return bends.length ? bends : null;
}

/** Figures of the answer in millimetres, in nm. */
export function listNm(answer: Answer, key: string): number[] {
  const value = answer[key];
  const all = Array.isArray(value) ? value : [value];
  return all.flatMap((one) => (typeof one === 'number' ? Math.round(one * 1e6) : []));
}

/** One angle stands for every bend. */
function degreesOf(value: Value | undefined, bends: number): number[] {
  const all = Array.isArray(value) ? value : [];
  const angles = (all as Value[]).filter(isRational).map((one: Rational) => toNumber(one, 4));
  const [only] = angles;
  return angles.length === 1 && only !== undefined
    ? Array.from({ length: bends }, () => only)
    : angles;
}
