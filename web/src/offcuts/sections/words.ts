// The sentences about sawing a length of stock, in the workshop's unit. Pure.
import { showLength, type Unit } from '../../twins/lengths.ts';
import type { PlanSaw } from './cutlist.ts';
import { type LaidOut, reachOf, type Stock } from './sawing.ts';

/** Where to measure from. */
export function datumWords({ dressed_first }: LaidOut, { square_ends }: Stock, unit: Unit): string {
  if (square_ends > 1) return 'Measure from either end, both are square.';
  if (square_ends > 0) return 'Measure from the square end.';
  if (dressed_first === 0) return 'Square one end and measure from it.';
  return `Dress ${showLength(dressed_first, unit)} off one end until it is square, and measure from it.`;
}

/** What one cut is: where the mark goes and what is done to the piece. */
export function cutWords(laid: LaidOut, index: number, unit: Unit): string {
  const piece = laid.pieces[index];
  const cut = laid.cuts[index];
  if (!piece) return '';
  const size = showLength(piece.to - piece.from, unit);
  if (cut) return `mark ${showLength(cut.at, unit)}, saw beyond the mark, dress to ${size}`;
  if (laid.dressed_last > 0)
    return `no cut: dress ${showLength(laid.dressed_last, unit)} off the far end, to ${size}`;
  return `no cut: it is ${size} as it is`;
}

/** What became of the metal that is in no piece and in nothing worth keeping (nm). */
export function spoiled(laid: LaidOut, { length_nm }: Stock, saw: PlanSaw): number {
  const pieces = laid.pieces.reduce((sum, { from, to }) => sum + to - from, 0);
  return length_nm - pieces - (isKept(laid, saw) ? (laid.left?.length_nm ?? 0) : 0);
}

/** Whether what stays is worth keeping. */
export function isKept({ left }: LaidOut, saw: PlanSaw): boolean {
  return left !== null && reachOf(left, saw) >= saw.shortest_nm;
}

/** "Leaves 17 27/32 in, spoils 1/8 in." */
export function leavesWords(laid: LaidOut, stock: Stock, saw: PlanSaw, unit: Unit): string {
  const lost = spoiled(laid, stock, saw);
  const spoils = lost > 0 ? `spoils ${showLength(lost, unit)}` : 'spoils nothing';
  const left = laid.left ? showLength(laid.left.length_nm, unit) : '';
  if (!left) return `Nothing stays, ${spoils}.`;
  if (isKept(laid, saw)) return `Leaves ${left}, ${spoils}.`;
  return `Leaves ${left}, too short to keep: ${spoils}.`;
}

/** All of it for one piece: from where, where to saw, what stays. */
export function laidWords(
  laid: LaidOut,
  stock: Stock,
  lengths: readonly number[],
  saw: PlanSaw,
  unit: Unit,
): string {
  const cuts = lengths.map((_, index) => cutWords(laid, index, unit));
  const sentence = cuts.map((one) => `${one.charAt(0).toUpperCase()}${one.slice(1)}.`).join(' ');
  return `${datumWords(laid, stock, unit)} ${sentence} ${leavesWords(laid, stock, saw, unit)}`;
}
