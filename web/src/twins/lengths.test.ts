import { describe, expect, test } from 'vitest';
import rows from '../../../tests/vectors/lengths.json';
import { gauges } from '../generated/gauges.json';
import {
  gaugeOf,
  readLength,
  readThickness,
  showLength,
  showThickness,
  type Unit,
} from './lengths';

type Reading = { read: 'length' | 'thickness'; text: string; unit: Unit; gives: object };
type Showing = { show: string; nm: number; unit: Unit; named: boolean; gives: string };
type Matching = { gauge: number; gives: string | null };

const readings = (rows as object[]).filter((row) => 'read' in row) as Reading[];
const matchings = (rows as object[]).filter((row) => 'gauge' in row) as Matching[];
const showings = (rows as object[]).filter((row) => 'show' in row) as Showing[];

describe('the vectors written from Python', () => {
  test('there are enough of them to mean something', () => {
    expect(readings.length).toBeGreaterThan(700);
    expect(showings.length).toBeGreaterThan(200);
    expect(matchings.length).toBeGreaterThan(200);
    expect(readings.length + showings.length + matchings.length).toBe(rows.length);
  });
  test('every reading is the same, sentences included', () => {
    for (const row of readings) {
      const gives =
        row.read === 'length'
          ? readLength(row.text, row.unit)
          : readThickness(row.text, row.unit, gauges);
      expect(gives, `${row.text} in ${row.unit}`).toStrictEqual(row.gives);
    }
  });
  test('every thickness belongs to the same listed one', () => {
    for (const row of matchings) {
      expect(gaugeOf(row.gauge, gauges)?.text ?? null, `${row.gauge}`).toBe(row.gives);
    }
  });
  test('every length is shown the same', () => {
    for (const row of showings) {
      const show = row.show === 'length' ? showLength : showThickness;
      expect(show(row.nm, row.unit, row.named), `${row.nm} in ${row.unit}`).toBe(row.gives);
    }
  });
});

describe('published', () => {
  // the international inch is 25.4 mm exactly
  test('1/64 in is 396 875 nm, whatever the workshop works in', () => {
    expect(readLength('1/64', 'mm')).toEqual({ nm: 396_875, text: '1/64' });
    expect(readLength('25.4 mm', 'in')).toEqual({ nm: 25_400_000, text: '25.4 mm' });
  });
});

test('no text at all makes the reader throw', () => {
  const marks = '0123456789./,- "\'inmceE\u00bd\u2044\u2033\u00a0x+\ud83d\ude00';
  let state = 7;
  for (let n = 0; n < 5000; n += 1) {
    let text = '';
    for (let length = n % 12; length > 0; length -= 1) {
      state = (state * 48_271) % 2_147_483_647;
      text += marks[state % marks.length];
    }
    for (const answer of [readLength(text, 'in'), readThickness(text, 'mm', gauges)]) {
      if ('nm' in answer) expect(answer.nm > 0 && answer.nm <= 1e10, text).toBe(true);
      else expect(answer.sentence).toMatch(/\.$/);
    }
  }
});
