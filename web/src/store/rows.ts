// A thing in one line, for lists, search and look-ups: what the screens need without its card.
import { metalOf, type Named, nameOf } from '../offcuts/name.ts';
import type { State } from '../twins/fold.ts';

export interface Row {
  id: string;
  sort: string;
  name: string;
  codes: string[]; // every tag that finds it, replaced ones too
  oldCodes: string[]; // those that were replaced
  place: string | null;
  touched: number;
  retired: boolean;
  answers: number; // open questions with two different answers
  doubts: string[]; // what they are about: names of fields, or tag
  flags: number;
  fields: Record<string, unknown>;
  strip: string;
  strips: Record<string, string>; // of a rivet line: part -> strip
  next: string;
}

const FIELDS: Record<string, string[]> = {
  part: [
    'number',
    'assembly',
    'pieces',
    'hand',
    'twin',
    'station',
    'material',
    'thickness',
    'steps',
  ],
  line: ['line', 'unconfirmed'],
  place: ['form', 'note'],
  offcut: [
    'alloy',
    'temper',
    'clad',
    'form',
    'thickness',
    'measured',
    'known_by',
    'shape',
    'shape_from',
    'section',
    'grain',
    'reserved',
    'cut',
    'parent',
    'sized_at',
  ],
  tags: ['codes'],
  finding: ['on', 'what', 'op', 'decided', 'closed'],
  wanted: [
    'what',
    'why',
    'alloy',
    'temper',
    'clad',
    'thickness',
    'a',
    'b',
    'grain',
    'count',
    'holes',
    'met',
    'for_parts',
    'lines',
  ],
};

export function rowOf(id: string, state: State): Row {
  const fields: Record<string, unknown> = {};
  for (const name of FIELDS[state.sort] ?? [])
    if (state[name] !== undefined) fields[name] = state[name];
  let named = state.sort === 'line' ? (state.line as { name: string }).name : state.name;
  if (state.sort === 'offcut') {
    named = nameOf(state as Named);
    const [doubt] = state.flags ?? [];
    if (doubt) fields.cut_doubt = doubt.flag;
  }
  if (state.sort === 'wanted') fields.material = metalOf(state as Named);
  return {
    id,
    sort: state.sort,
    name: typeof named === 'string' ? named : '',
    codes: state.tags.map((tag) => tag.code),
    oldCodes: state.tags.filter((tag) => tag.old).map((tag) => tag.code),
    place: state.place,
    touched: state.touched ?? 0,
    retired: state.retired !== null || state.cut !== undefined, // what was cut is used up
    answers: state.answers.length,
    doubts: state.answers.map((answer) => answer.about),
    flags: state.flags?.length ?? 0,
    fields,
    strip: state.strip ?? '',
    strips: state.strips ?? {},
    next: state.next ?? '',
  };
}
