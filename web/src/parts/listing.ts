// Which parts a list shows, and in which order: words, headline states, what was touched last.
import type { Row } from '../store/rows.ts';
import { OPERATIONS } from '../twins/marks.ts';
import { wholeStrip } from './grounds.ts';
import { HEADLINES, type Headline, standingOf } from './headlines.ts';
import { listed } from './words.ts';

export type Asked = 'any' | 'yes' | 'not yet';
export interface Filter {
  words: string;
  states: Record<Headline, Asked>;
  by: 'touched' | 'name';
}
export const EVERYTHING: Filter = {
  words: '',
  states: { film: 'any', deburr: 'any', flush: 'any', prime: 'any' },
  by: 'touched',
};

export interface Listed {
  row: Row;
  strip: string; // with the part's layers in rivet lines
  waits?: boolean; // rivets of a line it is in wait until someone confirms their length
}

// Part id -> the strips of its layers in all rivet lines.
export function layerStrips(lines: Row[]): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const line of lines)
    for (const [part, strip] of Object.entries(line.strips))
      found.set(part, [...(found.get(part) ?? []), strip]);
  return found;
}

// Parts in rivet lines whose rivets wait until someone confirms their length.
function waitingParts(lines: Row[]): Set<string> {
  const waiting = lines.filter((line) => Number(line.fields.unconfirmed ?? 0) > 0);
  return new Set(waiting.flatMap((line) => Object.keys(line.strips)));
}

// Each part with its whole strip. Rows that need no joining keep their own.
export function withStrips(parts: Row[], lines: Row[]): Listed[] {
  const layers = layerStrips(lines);
  const waiting = waitingParts(lines);
  return parts.map((row) => ({
    row,
    strip: wholeStrip(row.strip, layers.get(row.id) ?? []),
    ...(waiting.has(row.id) ? { waits: true } : {}),
  }));
}

// What is said of a part when it is searched: what is done, and what is still to be done.
function stateWords(strip: string): string {
  const said = OPERATIONS.map((row, at) => {
    const letter = strip[at] ?? '-';
    if (letter === 'd') return row.done_word;
    if (letter === 'l') return `look at the part ${row.name}`;
    if (letter === 'b') return `keep bare ${row.name}`;
    return letter === '-' ? '' : `to ${row.name}`;
  });
  return said.filter(Boolean).join(' ');
}

export function haystack(
  { row, strip }: Listed,
  nameOf: (id: string) => string,
  way: (place: string | null) => string[],
): string {
  const { number, assembly, hand, station, material } = row.fields;
  const said = [number, hand, station, material].filter((word) => typeof word === 'string');
  const of = typeof assembly === 'string' ? nameOf(assembly) : '';
  return [row.name, ...said, of, ...way(row.place), stateWords(strip)].join('\n').toLowerCase();
}

export function choose(all: Listed[], filter: Filter, hay: (one: Listed) => string): Listed[] {
  const words = filter.words.toLowerCase().match(/\bto \S+|\S+/g) ?? [];
  const states = HEADLINES.filter(({ key }) => filter.states[key] !== 'any');
  const found = all.filter(
    (one) =>
      states.every(({ key }) => standingOf(one.strip, key) === filter.states[key]) &&
      (!words.length || fits(hay(one), words)),
  );
  return found.sort(filter.by === 'name' ? byName : byTouched);
}

const fits = (text: string, words: string[]): boolean => words.every((word) => text.includes(word));

const collator = new Intl.Collator('en-GB', { numeric: true, sensitivity: 'base' });
const byName = (a: Listed, b: Listed): number =>
  collator.compare(a.row.name, b.row.name) || (a.row.id < b.row.id ? -1 : 1);
const byTouched = (a: Listed, b: Listed): number =>
  b.row.touched - a.row.touched || (a.row.id < b.row.id ? -1 : 1);

// The filter as one sentence: "Parts deburred, not yet primed, by name."
export function filterWords({ states, by }: Filter): string {
  const said = HEADLINES.filter(({ key }) => states[key] !== 'any').map(({ key, word }) =>
    states[key] === 'yes' ? word : `not yet ${word}`,
  );
  const order = by === 'name' ? 'by name' : 'last touched first';
  return said.length ? `Parts ${listed(said)}, ${order}` : `All parts, ${order}`;
}

// What stands under a part's name in a list: number, hand, pieces, and where it lies.
export function underName(row: Row, way: string[]): string {
  const { number, hand, pieces } = row.fields;
  const said = [
    typeof number === 'string' ? number : '',
    typeof hand === 'string' ? hand : '',
    typeof pieces === 'number' && pieces > 1 ? `${pieces} pieces` : '',
    way.length ? way.join(', ') : 'place not known',
  ];
  return said.filter(Boolean).join(' · ');
}
