// What is cut from an offcut, before it is: for a piece wanted, as a part of its own, or for nothing
// that is entered. Pure.
import { added, NOTHING_KNOWN } from '../../parts/changes.ts';
import type { Steps } from '../../parts/steps.ts';
import type { Draft } from '../../store/outbox.ts';
import type { Way } from '../../twins/fit.ts';
import { readLength, type Unit } from '../../twins/lengths.ts';
import type { Piece } from '../../wanted/wish.ts';
import type { Fields } from '../piece.ts';
import type { Measure, Want } from '../wanted.ts';
import { metalName } from '../words.ts';

/** A blank of sheet that is asked for: sides in nm, the grain by its own sides. */
export interface Blank {
  width: number;
  height: number;
  grain: Want['grain'];
  count: number;
}
export interface Typing {
  name: string;
  width: string;
  height: string;
  length: string;
  count: string;
  grain: Want['grain'];
}
export type Problems = Partial<Record<keyof Typing, string>>;

export const blankOf = (piece: Piece): Blank => ({
  width: piece.a.nm,
  height: piece.b.nm,
  grain: piece.grain === 'any' ? 'any' : piece.grain === 'a' ? 'along width' : 'along height',
  count: piece.count,
});

/** What was typed as a blank, or a sentence for each line that cannot be read. */
export function readBlank(typed: Typing, unit: Unit): { blank: Blank } | { problems: Problems } {
  const problems: Problems = {};
  const width = side(typed, 'width', 'Type the first side.', unit, problems);
  const height = side(typed, 'height', 'Type the second side.', unit, problems);
  const count = countIn(typed, problems);
  if (Object.keys(problems).length) return { problems };
  return { blank: { width: width.nm, height: height.nm, grain: typed.grain, count } };
}

/** The same of section stock: so many pieces of one length. */
export function readPieces(
  typed: Typing,
  unit: Unit,
): { lengths: number[] } | { problems: Problems } {
  const problems: Problems = {};
  const length = side(typed, 'length', 'Type its length.', unit, problems);
  const count = countIn(typed, problems);
  if (Object.keys(problems).length) return { problems };
  return { lengths: Array.from({ length: count }, () => length.nm) };
}

const NO_LENGTH: Measure = { nm: 0, text: '' };

function side(
  typed: Typing,
  field: 'width' | 'height' | 'length',
  empty: string,
  unit: Unit,
  problems: Problems,
): Measure {
  const read = readLength(typed[field], unit);
  if ('nm' in read) return read;
  problems[field] = typed[field].trim() ? read.sentence : empty;
  return NO_LENGTH;
}

const MOST = 50;

function countIn(typed: Typing, problems: Problems): number {
  const count = typed.count.trim() === '' ? 1 : Number(typed.count);
  if (Number.isInteger(count) && count >= 1 && count <= MOST) return count;
  problems.count = `How many: a whole number from 1 to ${MOST}.`;
  return 1;
}

/** Which way the blank may lie on an offcut whose grain runs so. Unknown grain leaves both open. */
export function wayOn(offcutGrain: 'a' | 'b' | 'unknown', grain: Want['grain']): Way {
  if (grain === 'any' || offcutGrain === 'unknown') return 'any';
  return (grain === 'along width') === (offcutGrain === 'a') ? 'width along a' : 'width along b';
}

/** The part that a blank becomes where it is entered as one of its own. */
export function partDrafts(
  id: string,
  name: string,
  count: number,
  note: string,
  fields: Fields,
  steps: Steps,
): Draft[] {
  const { alloy, temper, clad, thickness } = fields;
  const described = {
    ...NOTHING_KNOWN,
    name,
    pieces: count,
    material: alloy ? metalName(alloy, temper ?? null, clad) : '',
    thickness: thickness ?? null,
    note,
  };
  return added(id, described, steps, null);
}

/** Where the metal is another than the piece asks for, in a sentence; '' where it is the same. */
export function anotherMetal(
  piece: Piece,
  fields: Fields,
  showThick: (nm: number) => string,
): string {
  const asked = metalName(piece.alloy ?? null, piece.temper ?? null, piece.clad);
  const has = metalName(fields.alloy ?? null, fields.temper ?? null, fields.clad);
  const thick = fields.thickness?.nm ?? 0;
  const metal = piece.alloy && asked !== has ? [`${has}, and the piece asks for ${asked}`] : [];
  const gauge =
    thick === piece.thickness.nm
      ? []
      : [`${showThick(thick)}, and the piece asks for ${showThick(piece.thickness.nm)}`];
  const parts = [...metal, ...gauge];
  return parts.length ? `This offcut is ${parts.join('; it is ')}.` : '';
}
