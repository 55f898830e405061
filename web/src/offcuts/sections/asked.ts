// What is asked of the section stock: as typed, as an address that keeps it, as the search takes it.
// Pure.
import { gauges } from '../../generated/gauges.json';
import { readLength, readThickness, type Unit } from '../../twins/lengths.ts';
import { type Form, faultOf, isSectionForm, sideNames, sidesOf } from './section.ts';

export interface SectionAsked {
  form: Form;
  square: boolean;
  first: string; // a leg, the web, the outside diameter or one side
  second: string;
  wall: string;
  length: string;
  hand: 'any' | 'left' | 'right';
  metal: string; // "6061-T6"; empty for any
  structure: boolean;
  part: string; // the id of the part it is for
}
export type SectionQuestion = 'first' | 'second' | 'wall' | 'length';

export const NOTHING: Omit<SectionAsked, 'form'> = {
  square: false,
  first: '',
  second: '',
  wall: '',
  length: '',
  hand: 'any',
  metal: '',
  structure: true,
  part: '',
};

/** What is wanted of a length of stock; null takes any. Lengths nm. */
export interface SectionWant {
  readonly form: Form;
  readonly square: boolean;
  readonly sides: readonly number[] | null;
  readonly wall: number | null;
  readonly length: number | null;
  readonly hand: 'any' | 'left' | 'right';
  readonly alloy: string | null;
  readonly temper: string | null;
  readonly structure: boolean;
  readonly wanted_for: string | null;
}

export interface SectionUnderstood {
  want: SectionWant;
  problems: Partial<Record<SectionQuestion, string>>;
}

export function understandSection(asked: SectionAsked, unit: Unit): SectionUnderstood {
  const problems: SectionUnderstood['problems'] = {};
  const square = asked.form === 'tube' && asked.square;
  const read = (field: SectionQuestion): number | null => {
    if (asked[field].trim() === '') return null;
    const found = readLength(asked[field], unit);
    if ('nm' in found) return found.nm;
    problems[field] = found.sentence;
    return null;
  };
  const [first, length] = [read('first'), read('length')];
  const two = sidesOf(asked.form, square) === 2;
  const second = two ? read('second') : null;
  if (two && (first === null) !== (second === null)) {
    const field = first === null ? 'first' : 'second';
    problems[field] ??=
      `Give this too: ${sideNames(asked.form, square)[first === null ? 0 : 1]?.toLowerCase()}.`;
  }
  const whole = first !== null && (!two || second !== null);
  const sides = whole ? [first, ...(two ? [second ?? 0] : [])] : null;
  const wall = readWall(asked, unit, problems);
  if (sides && wall !== null) {
    const fault = faultOf(asked.form, square, sides, wall);
    if (fault) problems.wall = fault;
  }
  const [alloy, ...temper] = asked.metal.split('-');
  return {
    want: {
      form: asked.form,
      square,
      sides,
      wall,
      length,
      hand: asked.hand,
      alloy: alloy?.trim() || null,
      temper: temper.join('-').trim() || null,
      structure: asked.structure,
      wanted_for: asked.part || null,
    },
    problems,
  };
}

function readWall(
  { wall }: SectionAsked,
  unit: Unit,
  problems: SectionUnderstood['problems'],
): number | null {
  if (wall.trim() === '') return null;
  const read = readThickness(wall, unit, gauges);
  if ('nm' in read) return read.nm;
  problems.wall = 'mm' in read ? `${read.sentence} Write its unit.` : read.sentence;
  return null;
}

const WORDS = ['first', 'second', 'wall', 'length', 'metal'] as const;

/** The address of the search that asks this; what is not asked is left out. */
export function sectionAddress(asked: SectionAsked): string {
  const query = new URLSearchParams({ form: asked.form });
  for (const word of WORDS) if (asked[word]) query.set(word, asked[word]);
  if (asked.square && asked.form === 'tube') query.set('square', 'yes');
  if (asked.hand !== 'any') query.set('hand', asked.hand);
  if (!asked.structure) query.set('structure', 'no');
  if (asked.part) query.set('for', asked.part);
  return `/offcuts?${query}`;
}

/** The other way; null where sheet is asked for. */
export function sectionAskedIn(search: string): SectionAsked | null {
  const query = new URLSearchParams(search);
  const form = query.get('form');
  if (!isSectionForm(form)) return null;
  const hand = query.get('hand');
  const typed = WORDS.map((word) => [word, (query.get(word) ?? '').slice(0, 100)]);
  return {
    ...NOTHING,
    ...Object.fromEntries(typed),
    form,
    square: query.get('square') === 'yes',
    hand: hand === 'left' || hand === 'right' ? hand : 'any',
    structure: query.get('structure') !== 'no',
    part: (query.get('for') ?? '').slice(0, 100),
  };
}
