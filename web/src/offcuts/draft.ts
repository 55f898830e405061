// What was answered about an offcut, on its way to the record: typed text in, a body or a sentence
// beside each answer out. Pure.
import { gauges } from '../generated/gauges.json';
import { canonical } from '../twins/facts.ts';
import { type Length, readLength, readThickness, type Unit } from '../twins/lengths.ts';
import { withUnit } from './name.ts';
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
  grain: '' | Offcut['grain'];
  name: string;
  note: string;
}
export type Question = Exclude<keyof Answers, 'alloy' | 'temper'> | 'tag';
export type Problems = Partial<Record<Question, string>>;

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
type Figure = 'thickness' | 'a' | 'b';
const EMPTY: Record<Figure, string> = {
  thickness: 'Tap the thickness, or type it.',
  a: 'Type the first side.',
  b: 'Type the second side.',
};
const LONGEST_WORD = 60;

/** The body of offcut.added, or a sentence for every answer that is wanting. */
export function readAnswers(answers: Answers, unit: Unit): Body | { problems: Problems } {
  const problems: Problems = {};
  for (const question of ['metal', 'clad', 'measured', 'known_by', 'grain'] as const)
    if (!answers[question]) problems[question] = ASKED[question] ?? '';
  if (answers.metal === 'other' && !answers.alloy.trim()) problems.metal = OTHER;
  const thickness = readThickness(answers.thickness, unit, gauges);
  const [a, b] = [readLength(answers.a, unit), readLength(answers.b, unit)];
  for (const [question, read] of Object.entries({ thickness, a, b }) as [Figure, Length][])
    if ('sentence' in read)
      problems[question] = answers[question].trim() ? String(read.sentence) : EMPTY[question];
  if (Object.keys(problems).length) return { problems };
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
    shape: { kind: 'rectangle', a: a as Length, b: b as Length },
    grain: answers.grain as Offcut['grain'],
    note: answers.note.trim().slice(0, 4000) || null,
  };
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
    a: lengthText(fields.shape?.a),
    b: lengthText(fields.shape?.b),
    grain: fields.grain ?? '',
    name: fields.name ?? '',
    note: fields.note ?? '',
  };
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
