// What is recorded when one length of a cut list is cut as it is drawn. Pure.
import type { Draft } from '../../store/outbox.ts';
import { showLength, type Unit } from '../../twins/lengths.ts';
import { type CutAct, cutDrafts } from '../cutting/recording.ts';
import type { Fields } from '../piece.ts';
import type { PlanSaw } from './cutlist.ts';
import type { FromLength } from './wants.ts';
import { isKept } from './words.ts';

/**
 * The cut, and what stays where it is worth keeping, in the same place as the length was. Every
 * nanometre of the length is in a piece, in what stays, thrown away, or dust.
 */
export function cutAsDrawn(
  { offcut, laid, stock, pieces }: FromLength,
  fields: Fields,
  saw: PlanSaw,
  unit: Unit,
  newId: string,
): Draft[] {
  const left = laid.left?.length_nm ?? 0;
  const made = pieces.map(({ letter, name, length }) => ({
    part: null,
    name: name || `length ${letter}`,
    length,
  }));
  const used = pieces.reduce((sum, { length }) => sum + length, 0);
  const stays = isKept(laid, saw);
  const length = { nm: left, text: showLength(left, unit) };
  const square = laid.left?.square_ends ? { square_ends: laid.left.square_ends } : {};
  const act: CutAct = {
    offcut: offcut.id,
    fields,
    made,
    keeps: stays ? [{ id: newId, shape: { kind: 'length', length, ...square }, tag: null }] : [],
    place: offcut.place ?? '',
    kerf: saw.kerf_nm,
    dust: stock.length_nm - used - left,
    recycled: stays ? 0 : left,
    length: true,
    also: [],
  };
  return cutDrafts(act);
}
