// What was answered about a length of section stock, on its way to the record. Pure.
import { gauges } from '../../generated/gauges.json';
import { type Length, readLength, readThickness, type Unit } from '../../twins/lengths.ts';
import { withUnit } from '../name.ts';
import type { Measure, Offcut } from '../wanted.ts';
import {
  type Form,
  faultOf,
  type Hand,
  isSectionForm,
  type Run,
  type Section,
  type SectionFields,
  sideNames,
  sidesOf,
} from './section.ts';

/** The answers as they stand on the screen; an empty text is a question not answered yet. */
export interface SectionAnswers {
  square: boolean;
  first: string;
  second: string;
  length: string;
  ends: '' | '0' | '1' | '2';
  hand: Hand;
}
export type SectionProblem = 'first' | 'second' | 'length' | 'ends' | 'thickness';
export type SectionProblems = Partial<Record<SectionProblem, string>>;

export const SECTION_UNANSWERED: SectionAnswers = {
  square: false,
  first: '',
  second: '',
  length: '',
  ends: '',
  hand: 'none',
};

/** The fields of the body that are of the section alone. */
export interface SectionBody {
  form: Form;
  section: Section;
  thickness: Length;
  shape: Run;
  clad: Offcut['clad'];
  grain: Offcut['grain'];
}

export function readSection(
  form: Form,
  answers: SectionAnswers,
  wall: string,
  unit: Unit,
): SectionBody | { problems: SectionProblems } {
  const problems: SectionProblems = {};
  const square = form === 'tube' && answers.square;
  const names = sideNames(form, square);
  const read = (field: 'first' | 'second' | 'length', name: string): Length | null => {
    const found = readLength(answers[field], unit);
    if ('nm' in found) return found;
    problems[field] = answers[field].trim() ? found.sentence : `Type ${name}.`;
    return null;
  };
  const sides = [read('first', `the ${names[0]?.toLowerCase()}`)];
  if (sidesOf(form, square) === 2) sides.push(read('second', `the ${names[1]?.toLowerCase()}`));
  const length = read('length', 'how long it is');
  if (!answers.ends) problems.ends = 'Say how many of its ends are square and dressed.';
  const thickness = readThickness(wall, unit, gauges);
  if ('sentence' in thickness)
    problems.thickness = wall.trim() ? thickness.sentence : 'Tap the wall, or type it.';
  const given = sides.flatMap((side) => (side ? [side] : []));
  if ('nm' in thickness && given.length === sides.length) {
    const fault = faultOf(
      form,
      square,
      given.map(({ nm }) => nm),
      thickness.nm,
    );
    if (fault) problems.thickness = fault;
  }
  if (Object.keys(problems).length || !length || 'sentence' in thickness) return { problems };
  return {
    form,
    section: { sides: given, hand: answers.hand, ...(square ? { square } : {}) },
    thickness,
    shape: { kind: 'length', length, square_ends: Number(answers.ends) },
    clad: 'unknown',
    grain: 'unknown',
  };
}

/** The answers that would make these fields, to change them; figures with their unit. */
export function sectionAnswersOf({ section, shape }: SectionFields): SectionAnswers {
  const run = shape?.kind === 'length' ? (shape as Run) : null;
  const text = (measure: Measure | undefined): string => (measure ? withUnit(measure) : '');
  const ends = String(run?.square_ends ?? '');
  return {
    square: section?.square ?? false,
    first: text(section?.sides[0]),
    second: text(section?.sides[1]),
    length: text(run?.length),
    ends: ends === '0' || ends === '1' || ends === '2' ? ends : '',
    hand: section?.hand ?? 'none',
  };
}

export function formOf(fields: SectionFields): Form | 'sheet' {
  return isSectionForm(fields.form) ? fields.form : 'sheet';
}
