// A piece that is wanted, from the answer of a sum about pieces. Pure.

import type { Typed } from '../reckoner/address.ts';
import type { Body } from '../twins/facts.ts';
import { type Length, showLength, showThickness, type Unit } from '../twins/lengths.ts';
import type { Answer, Sum } from '../twins/reckon.ts';

export type What = 'shim' | 'splice' | 'doubler' | 'patch' | 'stiffener';
export type Grain = 'a' | 'b' | 'any';
export interface Bend {
  at: Length;
  angle: number;
  radius: Length;
}
/** The state of a wanted piece, as on its card. */
export interface Piece {
  what: string;
  name: string;
  why?: string | null;
  alloy?: string | null;
  temper?: string | null;
  clad: 'clad' | 'bare' | 'unknown';
  thickness: Length;
  a: Length;
  b: Length;
  grain: Grain;
  count: number;
  holes?: number | null;
  for_parts?: string[];
  lines?: string[];
  bends?: Bend[];
  met?: string | null;
}
export interface Wish {
  name: string;
  count: number;
  why: string;
  parts: string[];
  lines: string[];
}

const RIGHT_ANGLE = 90;

/** What kind of piece a sum is about: a section with a damage is doubled, one without is joined. */
export function whatOf(sum: Sum, inputs: Typed): What {
  if (sum.name === 'section-splice') return inputs.damage?.trim() ? 'doubler' : 'splice';
  return sum.name as What;
}

/** Why a piece is not offered, in a sentence; empty where it may be wanted. */
export function notOffered({ verdict }: Answer): string {
  if (verdict === 'fails') return 'As it stands it fails, so it is not offered as a piece.';
  if (verdict === 'not covered') return 'It is not covered, so there is no piece to offer.';
  return '';
}

/** The body of piece.wanted.v1; null where the answer does not give a blank. */
export function wishBody(
  sum: Sum,
  answer: Answer,
  inputs: Typed,
  metal: string,
  wish: Wish,
  unit: Unit,
): Body | null {
  const length = (key: string, thick = false): Length | null => measure(answer[key], unit, thick);
  const [thickness, a, b] = [
    length('thickness_mm', true),
    length('blank_a_mm'),
    length('blank_b_mm'),
  ];
  if (!thickness || !a || !b || notOffered(answer)) return null;
  const [alloy = '', ...temper] = metal.split('-');
  const bends = bendsOf(answer, unit);
  const body = {
    what: whatOf(sum, inputs),
    name: wish.name.trim(),
    why: wish.why.trim() || null,
    alloy: alloy || null,
    temper: temper.join('-') || null,
    clad: inputs.clad?.trim().toLowerCase() === 'yes' ? 'clad' : 'bare',
    thickness,
    a,
    b,
    grain: answer.grain === 'a' || answer.grain === 'b' ? answer.grain : 'any',
    count: wish.count,
    holes: typeof answer.holes === 'number' ? answer.holes : null,
    for_parts: wish.parts,
    lines: wish.lines,
    ...(bends.length ? { bends } : {}),
  };
  return body as unknown as Body;
}

/** Does an answer give the blank that is recorded? */
export function sameBlank(answer: Answer, { thickness, a, b }: Piece): boolean {
  const nm = (key: string): number => Math.round(Number(answer[key]) * 1e6);
  return (
    nm('thickness_mm') === thickness.nm && nm('blank_a_mm') === a.nm && nm('blank_b_mm') === b.nm
  );
}

function bendsOf(answer: Answer, unit: Unit): Bend[] {
  const radius = measure(answer.radius_mm, unit, false);
  if (!radius || !Array.isArray(answer.bend_lines_mm)) return [];
  return answer.bend_lines_mm.flatMap((one) => {
    const at = measure(one, unit, false);
    return at ? [{ at, angle: RIGHT_ANGLE, radius }] : [];
  });
}

function measure(mm: unknown, unit: Unit, thick: boolean): Length | null {
  if (typeof mm !== 'number' || mm <= 0) return null;
  const nm = Math.round(mm * 1e6);
  return { nm, text: thick ? showThickness(nm, unit) : showLength(nm, unit) };
}
