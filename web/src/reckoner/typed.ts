// What is typed for a sum: every field by itself, what is still to give, and the answer. Pure.
import { readLength, showLength, showThickness, type Unit } from '../twins/lengths.ts';
import { isUnread, read, type Takes, trimmed } from '../twins/reading.ts';
import { type Answer, isUnreckoned, type Rulebook, reckon, type Sum } from '../twins/reckon.ts';
import { BETWEEN, type Typed } from './address.ts';
import { gaugeKeys } from './gauges.ts';

const NM_PER_MM = 1_000_000;
const FINE_NM = 10 * NM_PER_MM; // below, a hundredth of a millimetre is too coarse

/** What one entry of a list is. */
const ENTRY: Readonly<Record<string, Takes['kind']>> = {
  thicknesses: 'thickness',
  lengths: 'length',
  angles: 'angle',
};

export interface Understood {
  /** what cannot be read, by field: "diameter", or "stack.1" for the second entry of a list */
  problems: Readonly<Record<string, string>>;
  /** what is still to give, in words */
  missing: readonly string[];
  /** what was reckoned with, by key, as it is kept */
  inputs: Typed;
  answer: Answer | null;
}

export const isList = (take: Takes): boolean => take.kind in ENTRY;

/** The entries of a list, one of them may be empty: a field with nothing in it yet. */
export function entriesOf(text: string): string[] {
  const entries = text.split(BETWEEN);
  return entries.at(-1) === '' ? entries.slice(0, -1) : entries;
}

export function listOf(entries: readonly string[]): string {
  return entries.map((entry) => `${entry}${BETWEEN}`).join('');
}

/** A sum's fields at first: what was given, and what stands where nothing is typed. */
export function startWith(sum: Sum, given: Typed): Record<string, string> {
  const start: Record<string, string> = {};
  for (const take of sum.takes) {
    const text = given[take.key] ?? take.default ?? '';
    start[take.key] = isList(take) && !text.includes(BETWEEN) ? opened(text) : text;
  }
  return start;
}

// a list as it is kept has commas between
const opened = (text: string): string => (text ? listOf(text.split(',').map(trimmed)) : '');

export function understand(rules: Rulebook, sum: Sum, typed: Typed, unit: Unit): Understood {
  const problems: Record<string, string> = {};
  const missing: string[] = [];
  const inputs: Record<string, string> = {};
  for (const take of sum.takes) {
    const entries = isList(take) ? entriesOf(typed[take.key] ?? '') : [typed[take.key] ?? ''];
    const texts = entries.map(trimmed);
    if (!texts.some(Boolean)) {
      if (!take.optional && !take.default) missing.push(small(take.label));
      continue;
    }
    for (const [at, text] of texts.entries()) {
      const field = isList(take) ? `${take.key}.${at}` : take.key;
      if (!text) missing.push(`${small(take.label)}, number ${at + 1}`);
      else {
        const wrong = wrongWith(rules, take, text, unit);
        if (wrong) problems[field] = wrong;
      }
    }
    inputs[take.key] = texts.map((text) => plain(take, text)).join(',');
  }
  if (missing.length || Object.keys(problems).length)
    return { problems, missing, inputs, answer: null };
  const found = reckon(rules, sum.name, inputs, unit);
  if (!isUnreckoned(found)) return { problems, missing, inputs, answer: found };
  problems[fieldOf(sum, found.key)] = found.sentence;
  return { problems, missing, inputs, answer: null };
}

const fieldOf = (sum: Sum, key: string): string =>
  sum.takes.some((take) => take.key === key && isList(take)) ? `${key}.0` : key;

function wrongWith(rules: Rulebook, take: Takes, text: string, unit: Unit): string {
  const kind = ENTRY[take.kind] ?? take.kind;
  const value = read({ ...take, kind }, plainEntry(kind, text), unit, rules.words);
  return isUnread(value) ? value.sentence : '';
}

/** As the sum reads it: a comma in a figure of a list would part the list. */
function plain(take: Takes, text: string): string {
  if (isList(take)) return text.replace(',', '.');
  return plainEntry(take.kind, text);
}

// a bare figure in a field of percentages can be nothing else
function plainEntry(kind: string, text: string): string {
  return kind === 'percent' && /^[\d.,]+$/.test(text) ? `${text}%` : text;
}

export const small = (label: string): string =>
  /^[A-Z][a-z']/.test(label) ? label.charAt(0).toLowerCase() + label.slice(1) : label;

/** An example in the workshop's unit: those of the rules are in inches. */
export function exampleOf(take: Takes, unit: Unit): string {
  const kind = ENTRY[take.kind] ?? take.kind;
  const [first = ''] = take.example.split(',');
  if (unit === 'in' || (kind !== 'thickness' && kind !== 'length') || /[a-z]/i.test(first))
    return first;
  const found = readLength(`${first} in`, 'in');
  if (!('nm' in found)) return first;
  if (kind === 'thickness') return nearestGauge(found.nm);
  const whole = Math.round(found.nm / NM_PER_MM);
  return whole > 1 ? String(whole) : showThickness(found.nm, 'mm', false);
}

function nearestGauge(nm: number): string {
  const away = (key: string): number => Math.abs(Number(key) * NM_PER_MM - nm);
  return gaugeKeys('mm').reduce((best, key) => (away(key) < away(best) ? key : best));
}

/** What was understood of one figure, in the unit in which it was not typed; empty where none. */
export function otherwise(text: string, unit: Unit, sheet: boolean): string {
  const found = readLength(text, unit);
  if (!('nm' in found)) return '';
  const typed = /mm|cm|milli|centi/i.test(text) ? 'mm' : /[a-z"'/]/i.test(text) ? 'in' : unit;
  const other = typed === 'in' ? 'mm' : 'in';
  const fine = sheet || (other === 'mm' && found.nm < FINE_NM);
  return fine ? showThickness(found.nm, other) : showLength(found.nm, other);
}
