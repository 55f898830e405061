// Twin of events/strip.py: one letter per operation. Part of the fold twin.
import { type Layer, type Marks, OPERATIONS } from './marks.ts';

const LETTER: Record<string, string> = {
  not: '-',
  bare: 'b',
  todo: 't',
  part: 'p',
  done: 'd',
  again: 'a',
  look: 'l',
};
const WORD = Object.fromEntries(Object.entries(LETTER).map(([word, letter]) => [letter, word]));

function one(words: string[]): string {
  const asked = words.filter((word) => word !== 'not' && word !== 'bare');
  if (!asked.length) return words.includes('bare') ? 'b' : '-';
  for (const word of ['look', 'again', 'part'])
    if (asked.includes(word)) return LETTER[word] ?? '-';
  if (asked.includes('todo')) return asked.includes('done') ? 'p' : 't';
  return 'd';
}

export function makeStrip(marks: Marks, layer: string | null = null): string {
  return OPERATIONS.map((row) => {
    const words: string[] = [];
    for (const [key, mark] of Object.entries(marks)) {
      const names = key.split(':');
      const mine =
        layer === null || row.scope === 'line' || (names.length > 1 && names[1] === layer);
      if (names[0] === row.op && mine) words.push(mark.is);
    }
    return one(words);
  }).join('');
}

export function joinStrips(strips: string[]): string {
  return OPERATIONS.map((_, at) => one(strips.map((s) => WORD[s[at] ?? '-'] ?? 'not'))).join('');
}

// Open, in no doubt, and everything that comes first is done.
export function isReady(strip: string, op: string): boolean {
  const letter = (name: string): string => strip[OPERATIONS.findIndex((r) => r.op === name)] ?? '-';
  const after = OPERATIONS.find((row) => row.op === op)?.after ?? [];
  return 'tpa'.includes(letter(op)) && after.every((earlier) => 'db-'.includes(letter(earlier)));
}

// The operation in doubt: someone has to look at the part before it goes on. Else empty.
export function lookAt(strip: string): string {
  return OPERATIONS[strip.indexOf('l')]?.op ?? '';
}

// What to offer next. What has to be looked at is never offered, nor anything later in the table.
export function nextOperation(strip: string): string {
  for (const [at, row] of OPERATIONS.entries()) {
    if (strip[at] === 'l') return '';
    if (isReady(strip, row.op)) return row.op;
  }
  return '';
}

/** All layers of a rivet line: those of its own, and those of each of its segments. */
export function layersAlong<L extends Layer>(
  own: readonly L[],
  segments: readonly { layers: L[] }[],
): L[] {
  return [...own, ...segments.flatMap((one) => one.layers)];
}
