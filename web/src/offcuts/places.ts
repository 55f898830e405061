// Asking the workshop's computer where to cut.
import { ask, OutOfReach, read } from '../sync/wire.ts';
import type { Point } from '../twins/fit.ts';
import type { Want } from './wanted.ts';

/** A suggested cut: the blank's corners (nm, the first to the second is its width), what is left. */
export interface Place {
  readonly corners: readonly [Point, Point, Point, Point];
  readonly left_um2: number;
  readonly reason: string;
}

/** The best cut and the second best; none where it finds no better one. Throws what `ask` throws. */
export async function askForPlaces(offcut: string, want: Want): Promise<Place[]> {
  const { width_nm, height_nm, grain, clearance_nm } = want;
  const answer = await ask('/api/offcuts/place', {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    body: JSON.stringify({ offcut, width_nm, height_nm, grain, clearance_nm }),
  });
  const told = await read<{ placements?: unknown }>(answer.json());
  if (!Array.isArray(told?.placements) || !told.placements.every(isPlace))
    throw new OutOfReach('The workshop computer answered something else.');
  return told.placements;
}

function isPlace(told: unknown): told is Place {
  const { corners, left_um2, reason } = (told ?? {}) as Partial<Place>;
  const points = Array.isArray(corners) && corners.length === 4;
  return (
    points &&
    corners.flat().every((one) => Number.isFinite(one)) &&
    typeof left_um2 === 'number' &&
    typeof reason === 'string'
  );
}
