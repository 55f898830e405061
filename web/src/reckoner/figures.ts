// An answer as it is read: its figures in both units, the one that was asked for, and as texts to
// keep. Pure.
import { answerText } from '../twins/kept.ts';
import { showLength, showThickness, type Unit } from '../twins/lengths.ts';
import type { Answer, Flat, Sum } from '../twins/reckon.ts';

export interface Figure {
  key: string;
  label: string;
  /** in the workshop's unit */
  own: string;
  /** in the other; empty where there is none */
  other: string;
}

export const VERDICT_WORDS: Readonly<Record<string, string>> = {
  meets: 'Meets',
  check: 'Check',
  fails: 'Fails',
  'not covered': 'Not covered',
};
export const verdictWord = (verdict: string): string => VERDICT_WORDS[verdict] ?? verdict;

/** The figure that a sum is asked for, where it is not the first that it gives. */
const ASKED: Readonly<Record<string, (answer: Answer) => string>> = {
  rivet: () => 'part_number',
  // what it lacks, where it cannot be what was asked
  flush: ({ verdict }) => (verdict === 'fails' ? 'needed_mm' : 'treatment'),
  // the verdict is all that is asked
  substitute: () => NONE,
};
const NONE = 'none';

export function figuresOf(sum: Sum, answer: Answer, unit: Unit): Figure[] {
  return sum.gives.flatMap(({ key, label }): Figure[] => {
    const value = answer[key];
    if (value === undefined || (Array.isArray(value) && !value.length)) return [];
    if (value === 0 && /(^|_)short_/.test(key)) return []; // short by nothing
    return [{ key, label, ...shown(key, value, unit) }];
  });
}

/** The figure asked for, and the others in their order. */
export function asked(sum: Sum, answer: Answer, unit: Unit): [Figure | null, Figure[]] {
  const figures = figuresOf(sum, answer, unit);
  const blank = sum.piece ? blankOf(answer, unit) : null;
  if (blank) return [blank, figures.filter(({ key }) => !/^blank_[ab]_mm$/.test(key))];
  const key = ASKED[sum.name]?.(answer);
  const first = key === NONE ? undefined : figures[0];
  const main = figures.find((one) => one.key === key) ?? first ?? null;
  return [main, figures.filter((one) => one !== main)];
}

/** The blank of a piece, as its two sides. */
function blankOf({ blank_a_mm: a, blank_b_mm: b }: Answer, unit: Unit): Figure | null {
  if (typeof a !== 'number' || typeof b !== 'number') return null;
  const sides = (which: Unit): string => `${figure(a, which)} × ${figure(b, which)} ${which}`;
  const other = sides(unit === 'in' ? 'mm' : 'in');
  return { key: 'blank', label: 'Blank, a × b', own: sides(unit), other };
}

const ROUND_MM = 10_000_000; // thinner than this, a hundredth of a millimetre is too coarse

function figure(value: number, unit: Unit): string {
  const nm = Math.round(Math.abs(value) * 1e6);
  if (nm === 0) return '0';
  const show = unit === 'mm' && nm < ROUND_MM ? showThickness : showLength;
  return `${value < 0 ? '−' : ''}${show(nm, unit, false)}`;
}

/** One length or several, their unit named once. */
function lengths(values: readonly number[], unit: Unit): string {
  return `${values.map((value) => figure(value, unit)).join(', ')} ${unit}`;
}

// what stands behind a figure by the ending of its key, and how many of it are one of the other
const OTHERS: Readonly<Record<string, { own: string; other: string; per: number }>> = {
  _g: { own: 'g', other: 'oz', per: 28.349523125 },
  _l: { own: 'l', other: 'US fl oz', per: 0.0295735295625 },
  _m2: { own: 'm²', other: 'ft²', per: 0.09290304 },
};
const ENDINGS: readonly (readonly [string, string])[] = [
  ['_deg', '°'],
  ['_d', ' D'],
  ['_percent', ' %'],
  ['_m2_per_l', ' m²/l'],
  ['_kg_m3', ' kg/m³'],
];

export function shown(key: string, value: Flat, unit: Unit): Pick<Figure, 'own' | 'other'> {
  const ending = /_[a-z0-9]+$/.exec(key)?.[0] ?? '';
  const numbers = (Array.isArray(value) ? value : [value]).filter((one) => typeof one === 'number');
  if (ending === '_mm' && numbers.length) {
    const beside: Unit = unit === 'in' ? 'mm' : 'in';
    return { own: lengths(numbers, unit), other: lengths(numbers, beside) };
  }
  if (!numbers.length) return { own: capital(answerText(value)), other: '' };
  const single = ENDINGS.find(([end]) => key.endsWith(end));
  const per = single ? undefined : OTHERS[ending];
  if (!per) return { own: `${listed(numbers, plain)}${single?.[1] ?? ''}`, other: '' };
  const own = `${listed(numbers, plain)} ${per.own}`;
  const other = `${listed(numbers, (one) => rounded(one / per.per))} ${per.other}`;
  return unit === 'in' ? { own: other, other: own } : { own, other };
}

// a word begins with a capital; a drill or a part number is left as it is
const capital = (text: string): string =>
  /^[a-z]{2}/.test(text) ? text.charAt(0).toUpperCase() + text.slice(1) : text;
const listed = (all: readonly number[], show: (one: number) => string): string =>
  all.map(show).join(', ');
const rounded = (value: number): string => String(Number(value.toPrecision(3)));
const plain = (value: number): string => String(Number(value.toFixed(3)));

/** For figures that were kept as texts: what can be shown in both units. */
export function keptValue(key: string, text: string): Flat {
  if (!/_[a-z0-9]+$/.test(key)) return text;
  const texts = text.split(', ');
  const numbers = texts.map(Number);
  if (texts.some((one) => one === '') || numbers.some(Number.isNaN)) return text;
  return numbers.length > 1 ? numbers : (numbers[0] ?? text);
}

/** What an answer says in one breath, for those who hear it. */
export function spoken(answer: Answer, main: Figure | null): string {
  const figure = main ? ` ${main.label}: ${main.own}.` : '';
  return `${verdictWord(answer.verdict)}.${figure} ${answer.why}`.trim();
}
