// Where the fit curve of an odd outline says that a blank goes, as the search draws it.
import { openedPhone } from '../../shell/state.ts';
import { row } from '../../shell/things.ts';
import { fitsOdd, layOdd } from '../odd.ts';
import { metalOf } from './leaves.ts';
import { type Asked, anywhere, type Lying, liesOn } from './lying.ts';
import type { Region } from './rings.ts';

const NM_PER_UM = 1000;

/** Empty where the outline is not measured yet, or the blank does not fit by its curve. */
export function placesByCurve(id: string, asked: Asked, least: number): Lying[] {
  const fields = row(id)?.fields;
  const curve = openedPhone().curves.of(fields?.shape_from);
  const sheet = metalOf(fields?.shape as Parameters<typeof metalOf>[0]) as Region | null;
  if (!curve || 'why' in curve || !sheet || asked.count > 1) return [];
  const odd = { ...asked, least: least / NM_PER_UM };
  if (!fitsOdd(curve, odd)) return [];
  const lying = anywhere(layOdd(curve, odd).corners);
  return liesOn(sheet, lying.block) ? [lying] : [];
}
