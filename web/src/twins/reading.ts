// What was typed for a sum, as values: part of the unit reader, twin of
// server/bucktail/rules/reading.py. The sentences and lists of words come with the rulebook.
import { type Listed, readLength, readThickness, type Unit } from './lengths.ts';
import { compare, decimal, isRational, mul, type Rational, rational, whole } from './rational.ts';
import type { Value } from './rules.ts';
import { written } from './written.ts';

export interface Takes {
  key: string;
  kind: string;
  label: string;
  example: string;
  choices: readonly string[];
  default: string | null;
  optional: boolean;
  least: number;
  most: number;
}
// what the reader needs of the rulebook
export interface Words {
  accepted: Readonly<Record<string, string>>;
  metals: readonly string[];
  rivets: readonly number[]; // nm, thinnest first
  rivets_accepted: string;
  gauges: readonly Listed[];
}
export type Unread = { sentence: string };

const LONGEST_LIST = 12;
const RIVET_NEAR_NM = 50_000;
const LONGEST_TEXT = 200;
const FIGURE = /^([0-9]{1,7})?(?:[.,]([0-9]{0,9}))?$/;
const AFTER = /^([0-9.,]+) ?((?:[^0-9.,].*)?)$/u;
const MIX = /^[1-9][0-9]?(?: ?: ?[1-9][0-9]?){1,3}$/;
const SPACES = ' \t\n\r\u00a0\u2002\u2003\u2007\u2009\u200a\u202f';

const alike = (words: readonly string[], per: Rational): [string, Rational][] =>
  words.map((word) => [word, per]);
const ENDINGS: Readonly<Record<string, ReadonlyMap<string, Rational>>> = {
  angle: new Map(alike(['', 'deg', 'degrees', '°'], whole(1))),
  count: new Map(alike([''], whole(1))),
  number: new Map(alike([''], whole(1))),
  percent: new Map(alike(['%', 'percent'], rational(1n, 100n))),
  area: new Map([
    ...alike(['mm2', 'mm²'], whole(1)),
    ...alike(['cm2', 'cm²'], whole(100)),
    ...alike(['m2', 'm²'], whole(1_000_000)),
    ...alike(['in2', 'in²', 'sq in'], rational(64516n, 100n)),
    ...alike(['ft2', 'ft²', 'sq ft'], rational(9290304n, 100n)),
  ]),
};

export const isUnread = (value: Value | Unread): value is Unread =>
  typeof value === 'object' && value !== null && 'sentence' in value;

export function trimmed(text: string): string {
  return text.replace(new RegExp(`^[${SPACES}]+|[${SPACES}]+$`, 'g'), '');
}

const small = (text: string): string => text.replace(/[A-Z]/g, (mark) => mark.toLowerCase());

export function read(takes: Takes, typed: string, unit: Unit, words: Words): Value | Unread {
  const text = trimmed(typed);
  const sentence = (kind: string): Unread => ({ sentence: words.accepted[kind] ?? '' });
  if ([...text].length > LONGEST_TEXT) return sentence('long');
  if (takes.kind in SINGLE) return readList(takes, text, unit, words);
  if (takes.kind === 'word') return readWord(takes, text);
  if (takes.kind === 'metal') return readMetal(text, words);
  if (takes.kind === 'marking') {
    const metal = readMetal(text, words);
    return isUnread(metal) ? text : metal;
  }
  if (takes.kind === 'text') return text || sentence('text');
  if (takes.kind === 'mix')
    return MIX.test(text) ? text.split(':').map((one) => whole(Number(one))) : sentence('mix');
  return readOne(takes.kind, takes, text, unit, words);
}

function readOne(
  kind: string,
  takes: Takes,
  text: string,
  unit: Unit,
  words: Words,
): Value | Unread {
  if (kind === 'thickness') {
    const found = readThickness(text, unit, words.gauges);
    if ('inch' in found)
      return { sentence: `${found.sentence} Write ${found.inch.text} or ${found.mm.text}.` };
    return 'nm' in found ? whole(found.nm) : found;
  }
  if (kind !== 'length' && kind !== 'rivet') return readFigure(kind, takes, text, words);
  const found = readLength(text, unit);
  if ('sentence' in found) return found;
  if (kind === 'length') return whole(found.nm);
  const away = (nm: number): number => Math.abs(nm - found.nm);
  const near = words.rivets.reduce((best, nm) => (away(nm) < away(best) ? nm : best));
  return away(near) > RIVET_NEAR_NM ? { sentence: words.rivets_accepted } : whole(near);
}

// A plain figure with an ending: degrees, a count, a percentage, an area.
function readFigure(kind: string, takes: Takes, text: string, words: Words): Value | Unread {
  const accepted = words.accepted[kind] ?? '';
  const parts = AFTER.exec(small(text));
  const shape = parts && FIGURE.exec(parts[1] ?? '');
  const per = parts && ENDINGS[kind]?.get(trimmed(parts[2] ?? ''));
  if (!shape || !per || (shape[1] ?? '') + (shape[2] ?? '') === '') return { sentence: accepted };
  const after = shape[2] ?? '';
  const value = rational(BigInt((shape[1] ?? '0') + after), 10n ** BigInt(after.length));
  const fits =
    (value.d === 1n || kind !== 'count') &&
    compare(value, whole(takes.least)) >= 0 &&
    compare(value, whole(takes.most)) <= 0 &&
    (value.n !== 0n || takes.least !== 0);
  if (fits) return mul(value, per);
  const lowest = takes.least ? `from ${takes.least}` : 'more than 0';
  return { sentence: `${accepted} It may be ${lowest} to ${takes.most}.` };
}

const SINGLE: Readonly<Record<string, string>> = {
  thicknesses: 'thickness',
  lengths: 'length',
  angles: 'angle',
};

function readList(takes: Takes, text: string, unit: Unit, words: Words): Value | Unread {
  const texts = text.split(',').map(trimmed);
  if (texts.includes(''))
    return { sentence: (words.accepted.list ?? '').split('{example}').join(takes.example) };
  if (texts.length > LONGEST_LIST) return { sentence: words.accepted.most ?? '' };
  const found: Value[] = [];
  for (const one of texts) {
    const value = readOne(SINGLE[takes.kind] ?? '', takes, one, unit, words);
    if (isUnread(value)) return { sentence: `“${one}”: ${value.sentence}` };
    found.push(value);
  }
  return found;
}

function readWord(takes: Takes, text: string): Value | Unread {
  const joinedWords = takes.choices.join('').includes('-');
  const word = joinedWords ? small(text).split(' ').join('-') : small(text);
  const found = takes.choices.find((one) => word === one || word === one.split(' ').join('-'));
  return found ?? { sentence: `Write one of: ${takes.choices.join(', ')}.` };
}

function readMetal(text: string, { metals }: Words): Value | Unread {
  const tidy = text
    .replace(/[a-z]/g, (mark) => mark.toUpperCase())
    .split(new RegExp(`[-${SPACES}]+`))
    .filter(Boolean)
    .join('-');
  if (metals.includes(tidy)) return tidy;
  return { sentence: `“${text}” is not on the list. Write one of: ${metals.join(', ')}.` };
}

// How a value was understood, as it stands in the answer's `read_as`.
export function readAs(takes: Takes, value: Value, unit: Unit): string {
  const numbers = (Array.isArray(value) ? value : [value]).filter(isRational);
  const figures = (places: number, times = 1): string[] =>
    numbers.map((one) => decimal(mul(one, whole(times)), places));
  switch (takes.kind) {
    case 'thickness':
    case 'thicknesses':
    case 'length':
    case 'lengths':
      return written(takes.kind, value, unit) ?? '';
    case 'rivet':
      return written('length', value, unit) ?? '';
    case 'angles':
      return `${figures(3).join(' + ')} deg`;
    case 'mix':
      return figures(3).join(':');
    case 'angle':
      return `${figures(6)[0]} deg`;
    case 'percent':
      return `${figures(3, 100)[0]}%`;
    case 'area':
      return `${numbers.map((one) => decimal(mul(one, rational(1n, 1_000_000n)), 6))[0]} m2`;
    case 'count':
    case 'number':
      return figures(6)[0] ?? '';
    default:
      return String(value);
  }
}
