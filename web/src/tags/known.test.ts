import { expect, test } from 'vitest';
import type { Row } from '../store/rows.ts';
import { tagsIn } from './known.ts';
import { matching } from './search.ts';

function row(id: string, more: Partial<Row> = {}): Row {
  return {
    id,
    sort: 'part',
    name: id,
    codes: [],
    oldCodes: [],
    place: null,
    touched: 0,
    retired: false,
    answers: 0,
    flags: 0,
    fields: {},
    strip: '',
    strips: {},
    next: '',
    ...more,
  } as Row;
}
const blanks = row('run', { sort: 'tags', fields: { codes: ['A', 'B', 'C'] } });

test('every printed tag is known, with what it is on', () => {
  const rib = row('rib', { codes: ['B'] });
  const gone = row('gone', { codes: ['C', 'B'], retired: true });
  for (const rows of [
    [blanks, rib, gone],
    [gone, rib, blanks],
  ]) {
    const known = tagsIn(rows);
    expect(known.get('A')).toBeNull();
    expect(known.get('B')).toBe(rib); // not the thing that is gone
    expect(known.get('C')).toBe(gone);
    expect([...known.keys()].sort()).toEqual(['A', 'B', 'C']);
  }
});

test('things are found by every word of name or number, last touched first', () => {
  const rows = [
    row('1', { name: 'Rib 4 left', fields: { number: 'W-412' }, touched: 5 }),
    row('2', { name: 'Rib 5 left', fields: { number: 'W-413' }, touched: 9 }),
    row('3', { name: 'Rib 4 left', retired: true }),
    row('4', { name: 'Left shelf', sort: 'place', touched: 1 }),
    blanks,
  ];
  const names = (typed: string, sorts = ['part', 'place']): string[] =>
    matching(rows, sorts, typed).map(({ id }) => id);
  expect(names('')).toEqual(['2', '1', '4']);
  expect(names('LEFT rib')).toEqual(['2', '1']);
  expect(names('412')).toEqual(['1']);
  expect(names('left', ['place'])).toEqual(['4']);
  expect(names('rib w-413 left x')).toEqual([]);
});
