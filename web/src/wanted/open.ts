// Pieces that are still to be made, from the rows on the phone. Without the rules, so that every
// screen may say how many there are.
import { rows } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import type { Piece } from './wish.ts';

export function pieceOf(row: Row): Piece {
  return { name: row.name, ...row.fields } as unknown as Piece;
}

export const isOpen = (row: Row): boolean => !row.fields.met;

export const openPieces = (): Row[] => rows('wanted').filter(isOpen);
