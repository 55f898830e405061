// Places in words.
import { counted, listed } from '../parts/words.ts';
import type { Row } from '../store/rows.ts';

export const FORMS = ['room', 'shelf', 'rack', 'bin', 'box', 'bench', 'assembly', 'other'] as const;
export type Form = (typeof FORMS)[number];

export const FORM_WORDS: Record<Form, string> = {
  room: 'room',
  shelf: 'shelf',
  rack: 'rack',
  bin: 'bin',
  box: 'box',
  bench: 'bench',
  assembly: 'assembly',
  other: 'something else',
};
export const ASSEMBLY_HINT = 'an assembly moves with what is in it';

/** "2 places, 3 parts and 1 offcut"; "nothing" where there is none. */
export function thingsWords(things: Row[]): string {
  const of = (sort: string): number => things.filter((one) => one.sort === sort).length;
  const said = [
    of('place') ? counted(of('place'), 'place') : '',
    of('part') ? counted(of('part'), 'part') : '',
    of('offcut') ? counted(of('offcut'), 'offcut') : '',
  ].filter(Boolean);
  return listed(said) || 'nothing';
}

/** What a thing is called on a button or in a sentence: its name and its hand. */
export function named(thing: Row): string {
  const name = thing.name || 'a thing without a name';
  const { hand } = thing.fields;
  return typeof hand === 'string' && !name.toLowerCase().includes(hand) ? `${name} ${hand}` : name;
}

/** Why a place cannot be taken out of use; '' where it is empty. */
export function whyNotEmpty(place: Row, things: Row[]): string {
  if (!things.length) return '';
  const verb = things.length === 1 ? 'is' : 'are';
  return `${place.name} is not empty: ${thingsWords(things)} ${verb} in it. Move ${things.length === 1 ? 'it' : 'them'} first.`;
}

/** A name that cannot be kept, in a sentence; '' where it can. */
export function wrongWithName(name: string): string {
  return name.trim() ? '' : 'Give the place a name, for example “Shelf 2”.';
}
