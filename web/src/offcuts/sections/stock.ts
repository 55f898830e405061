// The lengths of stock on this phone, as the search and the cut list take them.
import type { Row } from '../../store/rows.ts';
import { type Fields, pieceOf } from '../piece.ts';
import type { Offcut } from '../wanted.ts';

export function lengthOf(row: Row): Offcut {
  const piece = pieceOf(row.id, row.fields as Fields, row.doubts ?? []);
  const codes = row.codes.filter((code) => !row.oldCodes.includes(code)); // the tags in use
  return { ...piece, name: row.name, codes, place: row.place, retired: row.retired || null };
}
