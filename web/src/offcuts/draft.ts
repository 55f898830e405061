// What was answered about an offcut, on its way to the record: typed text in, a body or a sentence
// beside each answer out. Pure.
import { gauges } from '../generated/gauges.json';
import { canonical } from '../twins/facts.ts';
import { type Length, readLength, readThickness, type Unit } from '../twins/lengths.ts';
import { withUnit } from './name.ts';
import { BLANK_SHAPE, type ShapeAnswers } from './outline/answers.ts';
import type { Fault } from './outline/faults.ts';
import { leanOf, trace } from './outline/reading.ts';
import { answersFor, type OutlineShape, recorded } from './outline/texts.ts';
import type { Fields } from './piece.ts';
import type { Measure, Offcut } from './wanted.ts';

/** The answers as they stand on the screen. An empty text is a question not answered yet. */
export interface Answers {
  metal: '' | 'listed' | 'other' | 'unknown';
  alloy: string;
  temper: string;
  clad: '' | Offcut['clad'];
  thickness: string;
  measured: '' | Offcut['measured'];
  known_by: '' | Offcut['known_by'];
  a: string;
  b: string;
  /** all of the shape question but the first two sides */
  shape: ShapeAnswers;
  grain: '' | Offcut['grain'] | 'angle';
  name: string;
  note: string;
}
export type Question = Exclude<keyof Answers, 'alloy' | 'temper'> | 'tag';
export type Problems = Partial<Record<Question, string>> & {
  /** of the shape question, by the name of the answer */
  asked?: Record<string, string>;
  faults?: readonly Fault[];
};

export const UNANSWERED: Answers = {
  metal: '',
  alloy: '',
  temper: '',
  clad: '',
  thickness: '',
  measured: '',
  known_by: '',
  a: '',
  b: '',
  shape: BLANK_SHAPE,
  grain: '',
  name: '',
  note: '',
};

type Body = Required<Omit<Fields, 'reserved' | 'section'>>;

const ASKED: Problems = {
  metal: 'Say which metal it is, or that it is not known.',
  clad: 'Say whether it is clad or bare, or that you do not know.',
  measured: 'Say whether the thickness is of the bare metal or over film.',
  known_by: 'Say how you know what metal it is.',
  grain: 'Say which way the grain runs, or that you do not know.',
};
const OTHER = 'Write the alloy as it is marked, for example 2017, or say that it is not known.';
const THICKNESS = 'Tap the thickness, or type it.';
const LONGEST_WORD = 60;

/** The body of offcut.added, or a sentence for every answer that is wanting. */
export function readAnswers(answers: Answers, unit: Unit): Body | { problems: Problems } {
  const problems: Problems = {};
  for (const question of ['metal', 'clad', 'measured', 'known_by', 'grain'] as const)
    if (!answers[question]) problems[question] = ASKED[question] ?? '';
  if (answers.metal === 'other' && !answers.alloy.trim()) problems.metal = OTHER;
  const thickness = readThickness(answers.thickness, unit, gauges);
  if ('sentence' in thickness)
    problems.thickness = answers.thickness.trim() ? thickness.sentence : THICKNESS;
  const shape = readShape(answers, unit, problems);
  if (Object.keys(problems).length || !shape) return { problems };
  const known = answers.metal !== 'unknown';
  return {
    name: answers.name.trim().slice(0, 200) || null,
    alloy: known ? word(answers.alloy) : null,
    temper: known ? word(answers.temper) : null,
    clad: answers.clad as Offcut['clad'],
    form: 'sheet',
    thickness: thickness as Length,
    measured: answers.measured as Offcut['measured'],
    known_by: answers.known_by as Offcut['known_by'],
    ...shape,
    note: answers.note.trim().slice(0, 4000) || null,
  };
}

/** Shape and grain for the body; null, with what is wanting or wrong in `problems`. */
function readShape(
  answers: Answers,
  unit: Unit,
  problems: Problems,
): Pick<Body, 'shape' | 'grain'> | null {
  const traced = trace(answers, unit);
  const lean = answers.grain === 'angle' ? leanOf(answers.shape.lean) : null;
  const { a, b, ...asked } = { ...traced.problems };
  if (a) problems.a = a;
  if (b) problems.b = b;
  if (lean && 'sentence' in lean) asked.lean = lean.sentence;
  if (Object.keys(asked).length) problems.asked = asked;
  if (traced.faults.length) problems.faults = traced.faults;
  if (!traced.region || !answers.grain || (lean && 'sentence' in lean)) return null;
  if (answers.shape.way === 'two sides' && !answers.shape.keeps.length && !lean) {
    const sides = [readLength(answers.a, unit), readLength(answers.b, unit)] as [Length, Length];
    const shape = { kind: 'rectangle', a: sides[0], b: sides[1] } as const;
    return { shape, grain: answers.grain as Offcut['grain'] };
  }
  const shape = recorded(traced.region, answers, lean ? lean.udeg : null, unit);
  return { shape, grain: answers.grain === 'angle' ? 'a' : answers.grain };
}

function word(text: string): string | null {
  return text.trim().slice(0, LONGEST_WORD) || null;
}

/**
 * The answers that would make these fields, to change them. Figures have their unit written out:
 * the workshop may have changed its own since they were typed.
 */
export function answersOf(fields: Fields, isListed: boolean): Answers {
  const known = fields.alloy ? (isListed ? 'listed' : 'other') : 'unknown';
  return {
    metal: known,
    alloy: fields.alloy ?? '',
    temper: fields.temper ?? '',
    clad: fields.clad ?? '',
    thickness: lengthText(fields.thickness),
    measured: fields.measured ?? '',
    known_by: fields.known_by ?? '',
    ...shapeAnswersOf(fields),
    name: fields.name ?? '',
    note: fields.note ?? '',
  };
}

function shapeAnswersOf({
  shape,
  ...fields
}: Fields): Pick<Answers, 'a' | 'b' | 'shape' | 'grain'> {
  const grain: Answers['grain'] = fields.grain ?? '';
  if (shape?.kind !== 'outline') {
    const { a, b }: { a?: Measure; b?: Measure } = shape ?? {};
    return { a: lengthText(a), b: lengthText(b), shape: BLANK_SHAPE, grain };
  }
  const asked = answersFor(shape as OutlineShape);
  const leans = asked.shape.lean !== '' && grain === 'a';
  return { ...asked, grain: leans ? 'angle' : grain };
}

const lengthText = (measure: Measure | undefined): string => (measure ? withUnit(measure) : '');

/** What of `body` differs from what stands. Lengths compare by their nanometres. */
export function changesIn(body: Body, fields: Fields): Partial<Body> {
  const changed = Object.entries(body).filter(
    ([field, value]) => contentOf(value) !== contentOf(fields[field as keyof Fields] ?? null),
  );
  return Object.fromEntries(changed) as Partial<Body>;
}

function contentOf(value: unknown): string {
  return canonical({ value: JSON.parse(withoutTexts(value)) });
}

function withoutTexts(value: unknown): string {
  return JSON.stringify(value, (key, inner) => (key === 'text' ? undefined : inner));
}
