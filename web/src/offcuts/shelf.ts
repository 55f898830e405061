// The offcuts of sheet in lots of one metal: what is asked of the metal is judged once a lot, and a
// lot of a metal that will not do costs nothing more. Pure.
import type { Offcut } from './wanted';

/** Pieces of which the metal, the thickness and how both are known are the same. */
export type Lot = readonly [Offcut, ...Offcut[]];
export type Shelf = { readonly lots: readonly Lot[]; readonly count: number };

const shelves = new WeakMap<readonly Offcut[], Shelf>();

/** In lots; the same for the same array, which must not be changed. Retired pieces are left out. */
export function shelfOf(offcuts: readonly Offcut[]): Shelf {
  const known = shelves.get(offcuts);
  if (known) return known;
  const lots = new Map<string, [Offcut, ...Offcut[]]>();
  let count = 0;
  for (const offcut of offcuts) {
    if (offcut.retired || offcut.form !== 'sheet') continue;
    count += 1;
    const { alloy, temper, clad, thickness, measured, known_by } = offcut;
    const key = JSON.stringify([alloy, temper, clad, thickness.nm, measured, known_by]);
    const lot = lots.get(key);
    if (lot) lot.push(offcut);
    else lots.set(key, [offcut]);
  }
  const made = { lots: [...lots.values()], count };
  shelves.set(offcuts, made);
  return made;
}
