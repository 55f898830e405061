import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/vectors/fold.json';
import { before, canonical, type Fact } from './facts.ts';
import { fold } from './fold.ts';
import { OPERATIONS } from './marks.ts';
import { isReady, joinStrips, lookAt, nextOperation } from './strip.ts';

const rows = vectors as unknown as [number, string, string, string][];

// counted UUIDs are written ~n to keep the file small
function long(text: string): Fact[] {
  const uuid = (_: string, n: string): string => `00000000-0000-7000-8000-${n.padStart(12, '0')}`;
  return JSON.parse(text.replace(/~([0-9a-f]+)/g, uuid));
}

function cardText(id: string, facts: Fact[]): string {
  const state = fold(facts);
  return canonical({ facts: [...facts].sort(before), id, sort: state.sort, state });
}

describe('the vectors written from Python', () => {
  test('there are enough of them', () => {
    expect(rows.length).toBe(300);
    expect(new Set(rows.map(([, , , digest]) => digest)).size).toBe(300);
  });
  test('every card has the same text', () => {
    for (const [seed, id, facts, digest] of rows) {
      const text = cardText(id, long(facts));
      const found = createHash('sha256').update(text).digest('hex').slice(0, 16);
      expect(found, `history ${seed}: ${text}`).toBe(digest);
    }
  });
  test('the order in which facts arrive changes nothing', () => {
    for (const [seed, id, facts] of rows) {
      const told = long(facts);
      expect(cardText(id, [...told].reverse()), `history ${seed}`).toBe(cardText(id, told));
    }
  });
});

describe('the frozen samples', () => {
  const folder = fileURLToPath(new URL('../../../tests/events/samples/', import.meta.url));
  const cards = readdirSync(folder).filter((name) => name.endsWith('.card.json'));

  test('there is one of every kind', () => {
    expect(cards.length).toBeGreaterThanOrEqual(27);
  });
  test.each(cards)('%s comes out of its facts', (name) => {
    const text = readFileSync(folder + name, 'utf-8');
    const card = JSON.parse(text) as { id: string; facts: Fact[] };
    expect(cardText(card.id, card.facts)).toBe(text);
  });
});

describe('the strip', () => {
  const strip = (letters: Record<string, string>): string =>
    OPERATIONS.map((row) => letters[row.op] ?? '-').join('');

  test('what has to be looked at is never offered, nor what comes later', () => {
    const doubt = strip({ drill: 'd', countersink: 'l', rivet: 't' });
    expect(nextOperation(doubt)).toBe('');
    expect(lookAt(doubt)).toBe('countersink');
    expect(isReady(doubt, 'countersink')).toBe(false);
    expect(isReady(doubt, 'rivet')).toBe(false);
  });
  test('what comes before it in the table is still offered', () => {
    expect(nextOperation(strip({ film: 't', countersink: 'l' }))).toBe('film');
  });
  test('the least prepared of a part and its layers speaks', () => {
    expect(joinStrips(['d-td', 'ldt-'].map((start) => start.padEnd(11, '-')))).toBe('ldtd-------');
  });
  test('keep bare stands for done', () => {
    expect(nextOperation(strip({ clean: 'b', prime: 'b', rivet: 't' }))).toBe('rivet');
  });
});

describe('the text that is recorded', () => {
  test('half a sign is replaced, whole ones stay', () => {
    const plane = '🛩️';
    expect(canonical({ name: `${plane}${plane.slice(0, 1)}` })).toBe(`{"name":"${plane}\ufffd"}`);
  });
  test('a number that is not whole is not recorded', () => {
    expect(() => canonical({ n: 1.5 })).toThrow('whole numbers');
    expect(() => canonical({ n: Number.NaN })).toThrow('whole numbers');
    expect(() => canonical({ n: 2 ** 53 })).toThrow('whole numbers');
  });
});
