// The cut list as it is asked and as it is answered: lengths wanted, the stock they may come from,
// and what is cut from which length. Pure.
import {
  type NotRead,
  readLength,
  showLength,
  showThickness,
  type Unit,
} from '../../twins/lengths.ts';
import type { Offcut } from '../wanted.ts';
import { metalName, shortfall } from '../words.ts';
import type { SectionWant } from './asked.ts';
import { type PlanSaw, plan } from './cutlist.ts';
import { type LaidOut, layOut, reachOf, type Stock } from './sawing.ts';
import { formWords, type SectionStock } from './section.ts';

/** A line as typed: how long, how many, what for. */
export interface WantedLine {
  length: string;
  count: string;
  name: string;
}
export const EMPTY_LINE: WantedLine = { length: '', count: '1', name: '' };
/** One piece that is wanted: its line's letter, and its length (nm). */
export interface WantedPiece {
  letter: string;
  name: string;
  length: number;
}
export type LineProblems = { length?: string; count?: string };

export const MOST_PIECES = 100;

/** The lines without pieces that were made: fewer of them, and none where all were. */
export function withoutMade(
  lines: readonly WantedLine[],
  made: readonly WantedPiece[],
): WantedLine[] {
  const left = lines.flatMap((line, at) => {
    const count = Number(line.count) - made.filter(({ letter }) => letter === letterOf(at)).length;
    return count > 0 ? [{ ...line, count: String(count) }] : [];
  });
  return left.length ? left : [EMPTY_LINE];
}

/** All pieces, line by line; a line without a length is passed over. */
export function readLines(lines: readonly WantedLine[], unit: Unit) {
  const problems: LineProblems[] = [];
  const pieces: WantedPiece[] = [];
  for (const [at, line] of lines.entries()) {
    const found: LineProblems = {};
    problems.push(found);
    if (line.length.trim() === '') continue;
    const read = readLength(line.length, unit);
    const count = /^\s*\d{1,3}\s*$/.test(line.count) ? Number(line.count) : 0;
    if ('sentence' in read) found.length = (read as NotRead).sentence;
    if (count < 1) found.count = 'Write how many, as a whole number from 1.';
    else if (pieces.length + count > MOST_PIECES)
      found.count = `A cut list takes ${MOST_PIECES} pieces at most. Make it in two.`;
    if ('sentence' in read || found.count) continue;
    for (let one = 0; one < count; one += 1)
      pieces.push({ letter: letterOf(at), name: line.name.trim(), length: read.nm });
  }
  return { pieces, problems };
}

/** A, B ... Z, AA. */
export function letterOf(at: number): string {
  const letter = String.fromCharCode(65 + (at % 26));
  return at < 26 ? letter : letterOf(Math.floor(at / 26) - 1) + letter;
}

/** Lengths that differ only in how long they are: cut from one as from another. */
export interface Kin {
  key: string;
  /** 6061-T6 angle 1 × 3/4 × .063 in */
  words: string;
  /** 2 lengths, 40 3/4 in together */
  together: string;
  want: SectionWant;
  count: number;
  /** all of it together, nm */
  metal: number;
}

export function kinOf(pieces: readonly Offcut[], unit: Unit): Kin[] {
  const found = new Map<string, Kin>();
  for (const piece of pieces) {
    const { section: stock } = piece;
    if (piece.retired || !stock) continue;
    const want = wantOf(piece, stock);
    const key = JSON.stringify([
      want.form,
      want.square,
      want.sides,
      want.wall,
      want.alloy,
      want.temper,
    ]);
    const known = found.get(key);
    const metal = (known?.metal ?? 0) + stock.run.length.nm;
    const count = (known?.count ?? 0) + 1;
    const { form, square, sides, alloy, temper } = want;
    const sizes = (sides ?? []).map((nm) => showLength(nm, unit, false));
    sizes.push(showThickness(stock.wall.nm, unit, false));
    const what = `${metalName(alloy, temper)} ${formWords(form, square)}`;
    const words = `${what} ${sizes.join(' × ')} ${unit}`;
    const length = showLength(metal, unit);
    const together =
      count === 1 ? `One length, ${length}.` : `${count} lengths, ${length} together.`;
    found.set(key, { key, words, together, want, count, metal });
  }
  return [...found.values()].sort((one, other) => (one.words < other.words ? -1 : 1));
}

function wantOf(piece: Offcut, { form, section, wall }: SectionStock): SectionWant {
  const sides = section.sides.map(({ nm }) => nm);
  return {
    form,
    square: section.square ?? false,
    sides: form === 'channel' ? sides : sides.sort((a, b) => b - a),
    wall: wall.nm,
    length: null,
    hand: 'any',
    alloy: piece.alloy,
    temper: piece.temper,
    structure: true,
    wanted_for: null,
  };
}

/** What is cut from one length, in the order in which it is cut. */
export interface FromLength {
  offcut: Offcut;
  section: SectionStock;
  stock: Stock;
  laid: LaidOut;
  pieces: WantedPiece[];
}
export interface CutList {
  from: FromLength[];
  unmet: { piece: WantedPiece; why: string }[];
  whole: Offcut[];
  proved: boolean;
}

/** Plans the pieces over the lengths; on each length the longest piece is cut first. */
export function cutList(
  lengths: readonly { offcut: Offcut; stock: SectionStock }[],
  pieces: readonly WantedPiece[],
  saw: PlanSaw,
  unit: Unit,
): CutList {
  const stock = lengths.map(({ stock: { run } }) => ({
    length_nm: run.length.nm,
    square_ends: run.square_ends ?? 0,
  }));
  const found = plan(
    stock,
    pieces.map(({ length }) => length),
    saw,
  );
  const from: FromLength[] = [];
  const whole: Offcut[] = [];
  for (const [bar, { offcut, stock: section }] of lengths.entries()) {
    const mine = pieces.filter((_, index) => found.from[index] === bar);
    const one = stock[bar];
    if (mine.length === 0 || !one) {
      whole.push(offcut);
      continue;
    }
    mine.sort((a, b) => b.length - a.length);
    const laid = layOut(
      one,
      mine.map(({ length }) => length),
      saw,
    );
    from.push({ offcut, section, stock: one, laid, pieces: mine });
  }
  const reach = Math.max(0, ...stock.map((one) => reachOf(one, saw)));
  const unmet = pieces
    .filter((_, index) => found.from[index] === null)
    .map((piece) => ({ piece, why: whyNot(piece.length, reach, unit) }));
  return { from, unmet, whole, proved: found.proved };
}

function whyNot(length: number, reach: number, unit: Unit): string {
  if (reach === 0) return 'there is no length to cut it from';
  if (length <= reach) return 'no length has room for it beside the others';
  return `${shortfall(length - reach, unit)} longer than the longest length gives`;
}
