// Twin of events/cuts.py: what an offcut was cut into. Part of the fold twin.
import { heads, saw, type Told } from './facts.ts';
import type { Flag } from './flags.ts';

// One cut that stands; an offcut with any is used up.
export interface Cut {
  event: string;
  at: number;
  by: string;
  made: { part: string | null; name: string }[];
  remnants: string[];
}

export function offcutCuts(told: Told[]): { cut?: Cut[]; sized_at?: number; flags?: Flag[] } {
  const cuts = told.filter(({ kind }) => kind === 'offcut.cut.v1');
  const sized = told.filter(({ kind, body }) => kind === 'offcut.described.v1' && 'shape' in body);
  const last = sized.at(-1);
  const found = last ? { sized_at: last.at } : {};
  if (!cuts.length) return found;
  const flags: Flag[] = [];
  const apart = heads(cuts);
  if (apart.length > 1 && apart[0])
    flags.push({ flag: 'cut twice', key: 'cut', event: apart[0].id });
  for (const fact of sized)
    if (!cuts.every((cut) => saw(fact, cut) || saw(cut, fact)))
      flags.push({ flag: 'cut by another size', key: 'shape', event: fact.id });
  const cut = cuts.map(({ id, at, by, body }): Cut => {
    const { made, remnants } = body as unknown as Pick<Cut, 'made' | 'remnants'>;
    return { event: id, at, by, made: made.map(({ part, name }) => ({ part, name })), remnants };
  });
  return { ...found, cut, ...(flags.length ? { flags } : {}) };
}
