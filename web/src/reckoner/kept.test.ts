import { describe, expect, test } from 'vitest';
import type { Row } from '../store/rows.ts';
import { keptAnswer } from '../twins/kept.ts';
import { lands, readThickness } from '../twins/lengths.ts';
import { isUnreckoned, reckon, type Sum } from '../twins/reckon.ts';
import { RULES, RULES_VERSION, sumNamed } from './book.ts';
import { gaugeKeys } from './gauges.ts';
import { keptDraft, keptWords } from './keeping.ts';
import { keptTitle, otherwiseWords, readAgain } from './kept.ts';
import { knownOf } from './known.ts';
import { thingsWith } from './picking.ts';

const rivet = sumNamed('rivet') as Sum;
const inputs = { stack: '.032,.040', diameter: '1/8', head: 'protruding', kind: 'solid' };
const answer = (() => {
  const found = reckon(RULES, 'rivet', inputs, 'in');
  if (isUnreckoned(found)) throw new Error(found.sentence);
  return found;
})();
const kept = { sum: 'rivet', inputs, unit: 'in' as const, answer: keptAnswer(answer) };

describe('a kept sum', () => {
  test('is recorded with what it was reckoned from, and by which rules', () => {
    const draft = keptDraft('abc', { sum: rivet, answer, inputs, unit: 'in', note: ' ' }, 'f00d');
    expect(draft).toMatchObject({ kind: 'sum.kept.v1', subject: 'abc' });
    expect(draft.body).toMatchObject({
      sum: 'rivet',
      inputs,
      unit: 'in',
      rulebook: 'f00d',
      note: null,
    });
    const texts = Object.values(draft.body?.answer as Record<string, unknown>);
    expect(texts.every((text) => typeof text === 'string')).toBe(true);
  });
  test('the version of the rules is one that can be recorded', () => {
    expect(RULES_VERSION).toMatch(/^[0-9a-f]{8,64}$/);
  });
  test('is named by what it was asked for', () => {
    expect(keptTitle(rivet, kept, 'in')).toBe('Rivet length: MS20470AD4-4');
    expect(keptTitle(undefined, { ...kept, sum: 'later' }, 'in')).toBe('later');
    expect(keptWords(answer, null)).toBe('Kept: meets');
  });
  test('what the workshop computer says instead is told in a sentence', () => {
    const other = { ...kept.answer, verdict: 'fails', part_number: 'MS20470AD4-5' };
    expect(otherwiseWords(rivet, other, 'in')).toContain('otherwise: MS20470AD4-5, fails.');
    expect(otherwiseWords(rivet, {}, 'in')).toContain('it cannot reckon this');
  });
  test('opens again with the same lengths where the workshop changed its unit', () => {
    expect(readAgain(rivet, kept, 'in')).toEqual(inputs);
    const again = readAgain(rivet, kept, 'mm');
    expect(again).toMatchObject({ stack: '.032 in,.040 in', diameter: '1/8' });
    expect(reckon(RULES, 'rivet', again, 'mm')).toMatchObject({ part_number: 'MS20470AD4-4' });
  });
});

describe('what is on record fills the fields', () => {
  test('of a part: its thickness, and its metal where the rules know it', () => {
    const fields = { material: '2024-T3 clad', thickness: { nm: 812800, text: '.032' } };
    const mass = sumNamed('mass') as Sum;
    expect(knownOf(mass, { sort: 'part', fields }, RULES.words.metals)).toEqual({
      thickness: '.032 in',
      alloy: '2024-T3',
    });
    const odd = { ...fields, material: 'painted steel' };
    expect(knownOf(mass, { sort: 'part', fields: odd }, RULES.words.metals).alloy).toBeUndefined();
    expect(knownOf(rivet, { sort: 'part', fields }, RULES.words.metals)).toEqual({});
  });
  test('of a rivet line: its rivet and head', () => {
    const line = { head: 'flush', fastener: { kind: 'rivet', text: '3/32' }, layers: [] };
    const edge = sumNamed('edge') as Sum;
    expect(knownOf(edge, { sort: 'line', fields: { line } }, [])).toEqual({
      diameter: '3/32',
      head: 'flush',
    });
  });
});

test.each(['in', 'mm'] as const)('every key of a gauge, %s, is a listed one', (unit) => {
  for (const key of gaugeKeys(unit)) {
    const read = readThickness(key, unit, RULES.words.gauges);
    expect('nm' in read && lands(read.nm, RULES.words.gauges), key).toBe(true);
  }
  expect(gaugeKeys(unit).length).toBe(12);
});

test('things are found by all their words, touched last first', () => {
  const row = (name: string, touched: number): Row =>
    ({ id: name, name, touched, fields: { number: 'RB-1' } }) as unknown as Row;
  const things = [row('Nose rib', 1), row('Tip rib', 2), row('Spar', 3)];
  const found = (words: string) => thingsWith(things, words, () => 'shelf').map(({ name }) => name);
  expect(found('')).toEqual(['Spar', 'Tip rib', 'Nose rib']);
  expect(found('RIB rb-1')).toEqual(['Tip rib', 'Nose rib']);
  expect(found('rib shelf tip')).toEqual(['Tip rib']);
  expect(found('rib rudder')).toEqual([]);
});
