// What cutting makes uncertain: metal that two phones cut, or cut by a size that was measured anew
// elsewhere meanwhile, and all that came of it. Pure.
import type { Row } from '../../store/rows.ts';
import type { Cut } from '../../twins/cuts.ts';

export type Doubt = 'cut twice' | 'cut by another size' | 'cut taken back';
type Look = (id: string) => Row | undefined;

export const cutsOf = (row: Row | undefined): Cut[] => (row?.fields.cut as Cut[] | undefined) ?? [];

/** Why what this row says of its size cannot be relied on; '' where cutting put it in no doubt. */
export function cutDoubt(row: Row, look: Look): Doubt | '' {
  const parent = typeof row.fields.parent === 'string' ? look(row.fields.parent) : undefined;
  return ownDoubt(row) || (parent ? cameFrom(row, parent) : '');
}

function ownDoubt(row: Row): Doubt | '' {
  return (row.fields.cut_doubt as Doubt | undefined) ?? '';
}

/** A remnant is as sure as the cut it came of, until someone measures it after the last one. */
function cameFrom(row: Row, parent: Row): Doubt | '' {
  const cuts = cutsOf(parent);
  const measured = Number(row.fields.sized_at ?? 0);
  if (!cuts.some(({ remnants }) => remnants.includes(row.id)))
    return parent.retired ? '' : 'cut taken back';
  const doubt = ownDoubt(parent);
  return doubt && measured <= Math.max(...cuts.map(({ at }) => at)) ? doubt : '';
}

export const DOUBT_WORDS: Record<Doubt, string> = {
  'cut twice':
    'Two phones cut the same metal before they had met. Both cuts are kept here; look which one was made, and measure again what lies there.',
  'cut by another size':
    'It was measured anew on one phone while it was cut by the old size on another. Measure again what lies there.',
  'cut taken back':
    'The cut that this came of was taken back. Look whether this piece is there, and measure it again.',
};

/** The offcut that a part was cut from; with the cut in which it was made. */
export function madeFrom(
  part: string,
  offcuts: Iterable<Row>,
): { offcut: Row; cut: Cut } | undefined {
  for (const offcut of offcuts)
    for (const cut of cutsOf(offcut))
      if (cut.made.some((one) => one.part === part)) return { offcut, cut };
  return undefined;
}
