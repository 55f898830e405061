// Whether a thing that is scanned may be put into the place of the run at once. Pure.

import { whyNotInto } from '../places/tree.ts';
import { named } from '../places/words.ts';
import type { Row } from '../store/rows.ts';
import type { Offered, Verdict } from './judge.ts';
import { boundElsewhere, isBound } from './looks.ts';

interface About {
  parts: ReadonlySet<string>; // put there in this run
  offered: Offered | null; // where it is a part
  into: string; // the name of the assembly that the place is; '' for other places
  row: (id: string | null) => Row | undefined;
}

export type PutVerdict =
  | { is: 'record' }
  | { is: 'say'; sentence: string }
  | { is: 'which'; text: string; mayPut: boolean } // a place: put it there, or go on with it?
  | (Verdict & { is: 'stop' });

export function judgePut(thing: Row, place: Row, about: About): PutVerdict {
  const name = named(thing);
  if (thing.id === place.id)
    return { is: 'say', sentence: `This is ${place.name} itself. Scan what goes in it.` };
  if (thing.place === place.id)
    return {
      is: 'say',
      sentence: about.parts.has(thing.id)
        ? `${name} was put in ${place.name} in this run already. Nothing is recorded again.`
        : `${name} lies in ${place.name} already. Nothing is recorded.`,
    };
  const not = whyNotInto(thing, place, about.row);
  if (thing.sort === 'place') return whichPlace(thing, place, not);
  if (not) return { is: 'say', sentence: `${not} Nothing is recorded.` };
  const { offered, into } = about;
  if (offered && into && isBound(offered) && !offered.assemblies.includes(place.id))
    return { ...boundElsewhere(offered, into, { passed: [] }), text: elsewhere(offered, into) };
  return { is: 'record' };
}

function whichPlace(thing: Row, place: Row, not: string): PutVerdict {
  const text = not
    ? `This run puts things in ${place.name}. ${not}`
    : `This run puts things in ${place.name}. ${thing.name} can go in there with what is in it, or the run goes on with ${thing.name}.`;
  return { is: 'which', text, mayPut: !not };
}

function elsewhere({ station }: Offered, into: string): string {
  return `Its holes were drilled at station ${station}, so it fits there only, and it is no part of ${into}. It is not moved yet.`;
}
