import { describe, expect, it } from 'vitest';
import type { Row } from '../store/rows.ts';
import {
  choose,
  EVERYTHING,
  type Filter,
  filterWords,
  haystack,
  underName,
  withStrips,
} from './listing.ts';

function row(name: string, strip: string, more: Partial<Row> = {}): Row {
  return {
    id: name,
    sort: 'part',
    name,
    codes: [],
    oldCodes: [],
    place: null,
    touched: 0,
    retired: false,
    answers: 0,
    doubts: [],
    flags: 0,
    fields: {},
    strip,
    strips: {},
    next: '',
    ...more,
  };
}
const hay = (one: { row: Row; strip: string }): string =>
  haystack(
    one,
    () => 'Left elevator',
    (place) => (place ? ['Back wall', 'Shelf 2'] : []),
  );
const names = (parts: Row[], filter: Partial<Filter>, lines: Row[] = []): string[] =>
  choose(withStrips(parts, lines), { ...EVERYTHING, ...filter }, hay).map((one) => one.row.name);

const PARTS = [
  row('Rib 10', '-ddddd---t-', {
    touched: 1,
    place: 's',
    fields: { number: 'LE-10', assembly: 'a' },
  }),
  row('Rib 9', '-ddddt---t-', { touched: 3, fields: { hand: 'left' } }),
  row('Horn', '---------b-', { touched: 2 }),
];

describe('the list of parts', () => {
  it('begins with what was touched last, or goes by name with figures as numbers', () => {
    expect(names(PARTS, {})).toEqual(['Rib 9', 'Horn', 'Rib 10']);
    expect(names(PARTS, { by: 'name' })).toEqual(['Horn', 'Rib 9', 'Rib 10']);
  });

  it('finds by name, number, assembly, place and state, all words together', () => {
    expect(names(PARTS, { words: 'rib' })).toEqual(['Rib 9', 'Rib 10']);
    expect(names(PARTS, { words: 'le-10' })).toEqual(['Rib 10']);
    expect(names(PARTS, { words: 'elevator shelf' })).toEqual(['Rib 10']);
    expect(names(PARTS, { words: 'to deburr' })).toEqual(['Rib 9']);
    expect(names(PARTS, { words: 'nothing like it' })).toEqual([]);
  });

  it('asks the headline states; what is not asked of a part is neither', () => {
    const states = { ...EVERYTHING.states, deburr: 'yes', prime: 'not yet' } as Filter['states'];
    expect(names(PARTS, { states })).toEqual(['Rib 10']);
    expect(names(PARTS, { states: { ...EVERYTHING.states, prime: 'yes' } })).toEqual([]);
  });

  it('counts the least prepared of a part and its layers in rivet lines', () => {
    const line = row('spar line', '', { sort: 'line', strips: { 'Rib 10': '-----t-----' } });
    expect(withStrips(PARTS, [line])[0]?.strip).toBe('-ddddp---t-');
    const states = { ...EVERYTHING.states, deburr: 'yes' } as Filter['states'];
    expect(names(PARTS, { states }, [line])).toEqual([]);
  });

  it('knows which parts are in a line whose rivets wait to be confirmed', () => {
    const [first, second] = PARTS;
    const line = row('line', '', {
      sort: 'line',
      strips: { [first?.id ?? '']: '----------t' },
      fields: { unconfirmed: 1 },
    });
    const waits = (lines: Row[]): (boolean | undefined)[] =>
      withStrips(PARTS.slice(0, 2), lines).map((one) => one.waits);
    expect(second).toBeDefined();
    expect(waits([line])).toEqual([true, undefined]);
    expect(waits([{ ...line, fields: { unconfirmed: 0 } }])).toEqual([undefined, undefined]);
  });

  it('says itself in one sentence', () => {
    expect(filterWords(EVERYTHING)).toBe('All parts, last touched first');
    const states = { ...EVERYTHING.states, deburr: 'yes', prime: 'not yet' } as Filter['states'];
    expect(filterWords({ ...EVERYTHING, states, by: 'name' })).toBe(
      'Parts deburred and not yet primed, by name',
    );
  });

  it('says number, hand, pieces and where it lies', () => {
    const bag = row('Clip', '', { fields: { number: 'C-1', hand: 'right', pieces: 12 } });
    expect(underName(bag, ['Back wall', 'Box 7'])).toBe(
      'C-1 · right · 12 pieces · Back wall, Box 7',
    );
    expect(underName(row('Clip', ''), [])).toBe('place not known');
  });

  it('goes through five thousand parts well within the time of a keystroke', () => {
    const many = Array.from({ length: 5000 }, (_, at) =>
      row(`Rib ${at}`, '-ddddd---t-', { touched: at }),
    );
    const all = withStrips(many, []);
    const started = performance.now();
    expect(choose(all, { ...EVERYTHING, words: 'rib 49', by: 'name' }, hay).length).toBeGreaterThan(
      100,
    );
    expect(performance.now() - started).toBeLessThan(1000);
  });
});
