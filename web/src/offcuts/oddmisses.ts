// Whether a blank fits in an odd outline, and what it lacks. An outline that is not measured yet is
// held back, never guessed at; only what its bounds rule out is ruled out.

import { type Curve, type Pieces, tallest, widest } from '../twins/curve';
import { LEAST_USEFUL_NM, type Placement, type Point, type Way } from '../twins/fit';
import { differences, type Judged, lacking, type Question, shortOf, wayFor } from './misses';
import { type Asked, fitsOdd } from './odd';
import type { Miss, Offcut, Outline, Want } from './wanted';

const NM_PER_UM = 1000;
const NOT_MEASURED: Miss = { code: 'not measured', far: 1 };
const NOWHERE: Point = [0, 0];
/** Where only the metal is asked for, nothing is laid on the piece. */
const UNLAID: Placement = {
  laid: 'width along a',
  tenths: 0,
  corners: [NOWHERE, NOWHERE, NOWHERE, NOWHERE],
  left: NOWHERE,
  spoiled: 0,
};

/** As `judge`: null where it is no near miss either. */
export function judgeOutline(
  offcut: Offcut,
  shape: Outline,
  { want, least_useful_nm }: Question,
  misses: Miss[],
  most: number,
): Judged | null {
  if (want.width_nm <= 1 && want.height_nm <= 1) return { misses, placement: UNLAID };
  const way = wayFor(offcut, want);
  const measured = offcut.measured_as;
  if (measured && 'any' in measured) {
    const asked: Asked = {
      width: want.width_nm,
      height: want.height_nm,
      clearance: want.clearance_nm,
      way,
      least: Math.floor((least_useful_nm ?? LEAST_USEFUL_NM) / NM_PER_UM),
    };
    if (fitsOdd(measured, asked)) return { misses, placement: null, odd: asked };
    return sized(lacksOf(measured, way, want), misses, most);
  }
  const bounds = outOfBounds(shape.outer, way, want);
  if (bounds) return sized(bounds, misses, most);
  misses.push(measured ? { code: 'cannot be measured', far: 2, why: measured.why } : NOT_MEASURED);
  return { misses, placement: null };
}

type Short = { miss: Miss; near: boolean };

function sized({ miss, near }: Short, misses: Miss[], most: number): Judged | null {
  misses.push(miss);
  return near && differences(misses) <= most ? { misses, placement: null } : null;
}

/** What is wanting where not even the rectangle around the outline is large enough; null else. */
function outOfBounds(outer: readonly Point[], way: Way, want: Want): Short | null {
  let [a, b] = [0, 0];
  for (const [x, y] of outer) {
    a = Math.max(a, x);
    b = Math.max(b, y);
  }
  const { width_nm: width, height_nm: height, clearance_nm: k } = want;
  const [roomA, roomB] = [a - 2 * k, b - 2 * k];
  // askew its shorter side still needs the shorter of the two, and its longer one their diagonal
  const reach = Math.hypot(roomA, roomB);
  const never =
    way === 'any'
      ? Math.min(width, height) > Math.min(roomA, roomB) || Math.max(width, height) > reach
      : way === 'width along a'
        ? width > roomA || height > roomB
        : width > roomB || height > roomA;
  return never || roomA <= 0 || roomB <= 0 ? shortOf(width, height, roomA, roomB, way, want) : null;
}

function lacksOf(curve: Curve, way: Way, want: Want): Short {
  const { width_nm, height_nm, clearance_nm } = want;
  const [width, height] = [width_nm + 2 * clearance_nm, height_nm + 2 * clearance_nm];
  const pieces = way === 'any' ? curve.any : curve.along;
  const turned = way === 'any' ? height > width : way === 'width along b';
  const [along, across] = turned ? [height, width] : [width, height];
  const [short, narrow] = lackIn(pieces, along, across, 0, pieces.length);
  return lacking(turned ? [narrow, short] : [short, narrow], way, want);
}

/**
 * What is wanting (nm) along a curve's width where the rest is there, or across it: whichever is
 * less. Of one that is too long and too wide for all, both. `from` and `to` as for `pieceFor`.
 */
export function lackIn(
  pieces: Pieces,
  along: number,
  across: number,
  from: number,
  to: number,
): readonly [number, number] {
  const wide = widest(pieces, Math.ceil(across / NM_PER_UM), from, to);
  const tall = tallest(pieces, Math.ceil(along / NM_PER_UM), from, to);
  if (wide || tall) {
    const [short, narrow] = [along - wide * NM_PER_UM, across - tall * NM_PER_UM];
    return short <= narrow ? [short, 0] : [0, narrow];
  }
  return [
    along - widest(pieces, 0, from, to) * NM_PER_UM,
    across - tallest(pieces, 0, from, to) * NM_PER_UM,
  ];
}
