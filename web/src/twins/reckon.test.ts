import { describe, expect, test } from 'vitest';
import rows from '../../../tests/vectors/reckon.json';
import { gauges } from '../generated/gauges.json';
import generated from '../generated/rulebook.json';
import type { Unit } from './lengths.ts';
import { type Rulebook, reckon } from './reckon.ts';

const rulebook = {
  ...generated,
  words: { ...generated.words, gauges },
} as unknown as Rulebook;
type Row = [string, Record<string, string>, Unit, Record<string, unknown>];
const told = rows as unknown as Row[];

describe('the vectors written from Python', () => {
  test('there are some for every sum, read and unread', () => {
    for (const { name } of rulebook.sums) {
      const own = told.filter(([sum]) => sum === name);
      expect(own.length, name).toBe(18);
      expect(own.filter(([, , , gives]) => 'sentence' in gives).length, name).toBeGreaterThan(0);
    }
  });
  test('every answer is the same, sentences included', () => {
    for (const [name, typed, unit, gives] of told) {
      const { source, caution, ...rest } = reckon(rulebook, name, typed, unit) as Row[3];
      expect(rest, `${name} ${JSON.stringify(typed)} ${unit}`).toStrictEqual(gives);
      expect(typeof caution === 'string' && typeof source === 'string').toBe('verdict' in gives);
    }
  });
});

test('a sum that is not there', () => {
  expect(reckon(rulebook, 'fly', {}, 'in')).toStrictEqual({
    key: '',
    sentence: 'There is no sum “fly”.',
  });
});
