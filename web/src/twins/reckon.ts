// Works out a sum from what was typed, without a network: twin of server/bucktail/rules/reckon.py.
// tests/vectors/reckon.json holds both to the same verdicts, figures and sentences.
import type { Unit } from './lengths.ts';
import { isRational, mul, rational, toNumber } from './rational.ts';
import { isUnread, read, readAs, type Takes, trimmed, type Words } from './reading.ts';
import { type Book, type Program, run, type Value } from './rules.ts';

export type Flat = number | string | boolean | (number | string | boolean)[];
export type Answer = {
  verdict: string;
  why: string;
  source: string;
  caution: string;
  read_as: string;
} & {
  [key: string]: Flat;
};
export interface Sum extends Program {
  name: string;
  title: string;
  question: string;
  first: boolean;
  piece: boolean;
  takes: readonly Takes[];
  gives: readonly { key: string; label: string }[];
  caution: string;
}
export interface Rulebook extends Book {
  version: string;
  sums: readonly Sum[];
  words: Words;
}
// what cannot be reckoned with: the input at fault, and what to do
export type Unreckoned = { key: string; sentence: string };

// begins the output that says why an input is refused
const REFUSED = 'refused:';
const PLACES: Readonly<Record<string, number>> = {
  _mm: 6,
  _deg: 4,
  _g: 3,
  _l: 6,
  _m2: 6,
  _d: 4,
  _percent: 2,
};

export const isUnreckoned = (found: Answer | Unreckoned): found is Unreckoned =>
  'sentence' in found && !('verdict' in found);

export function reckon(
  rulebook: Rulebook,
  name: string,
  typed: Readonly<Record<string, string>>,
  unit: Unit,
): Answer | Unreckoned {
  const sum = rulebook.sums.find((one) => one.name === name);
  if (!sum) return { key: '', sentence: `There is no sum “${name}”.` };
  const values = readAll(rulebook, sum, typed, unit);
  if ('sentence' in values) return values;
  const outputs = run(sum, values.read, rulebook, unit);
  for (const { key } of sum.takes) {
    const sentence = outputs[REFUSED + key] ?? null;
    if (sentence !== null) return { key, sentence: String(sentence) };
  }
  const told = sum.takes.filter((take) => take.key in values.read);
  const echo = told.map(
    (take) => `${take.key} ${readAs(take, values.read[take.key] ?? null, unit)}`,
  );
  return flat(sum, outputs, echo.join('; '));
}

// Every input read, defaults filled in; or the first that cannot be.
export function readAll(
  rulebook: Rulebook,
  sum: Sum,
  typed: Readonly<Record<string, string>>,
  unit: Unit,
): { read: Record<string, Value> } | Unreckoned {
  const known = sum.takes.map((take) => take.key);
  for (const key of Object.keys(typed))
    if (!known.includes(key))
      return { key, sentence: `The sum ${sum.name} takes ${known.join(', ')}.` };
  const values: Record<string, Value> = {};
  for (const take of sum.takes) {
    const text = trimmed(typed[take.key] ?? '') || take.default || '';
    if (!text && take.optional) continue;
    const needed = `${take.label} is needed, for example ${take.key}=${take.example}.`;
    if (!text) return { key: take.key, sentence: needed };
    const value = read(take, text, unit, rulebook.words);
    if (isUnread(value)) return { key: take.key, sentence: value.sentence };
    values[take.key] = value;
  }
  return { read: values };
}

function flat(sum: Sum, outputs: Record<string, Value>, echo: string): Answer {
  const answer: Answer = {
    verdict: String(outputs.verdict ?? ''),
    why: String(outputs.why ?? ''),
    source: String(outputs.source ?? ''),
    caution: sum.caution,
    read_as: echo,
  };
  if (answer.verdict === 'not covered') return answer;
  for (const { key } of sum.gives) {
    const value = outputs[key] ?? null;
    if (Array.isArray(value))
      answer[key] = value.filter((one) => one !== null).map((one) => plain(key, one));
    else if (value !== null) answer[key] = plain(key, value);
  }
  return answer;
}

function plain(key: string, value: Value): number | string | boolean {
  if (!isRational(value)) return typeof value === 'boolean' ? value : String(value);
  const places = PLACES[/_[a-z0-9]+$/.exec(key)?.[0] ?? ''] ?? 6;
  return toNumber(key.endsWith('_mm') ? mul(value, rational(1n, 1_000_000n)) : value, places);
}
