import { describe, expect, test } from 'vitest';
import type { Row } from '../store/rows.ts';
import { moveLabel } from './moving.ts';
import { whereIs } from './search.ts';
import { below, branches, lying, ring, whyNotInto } from './tree.ts';
import { named, thingsWords, whyNotEmpty } from './words.ts';

function row(id: string, place: string | null = null, more: Partial<Row> = {}): Row {
  return {
    id,
    sort: 'place',
    name: id,
    codes: [],
    oldCodes: [],
    place,
    touched: 0,
    retired: false,
    answers: 0,
    doubts: [],
    flags: 0,
    fields: {},
    strip: '',
    strips: {},
    next: '',
    ...more,
  };
}
const part = (id: string, place: string | null, more: Partial<Row> = {}): Row =>
  row(id, place, { sort: 'part', ...more });
const drawn = (places: Row[]): string[] =>
  branches(places).map(
    ({ place, depth, loop }) => `${'>'.repeat(depth)}${place.id}${loop ? '!' : ''}`,
  );

describe('the tree of places', () => {
  test('is drawn with every place below the one it lies in, figures in their order', () => {
    const places = ['Shelf 10', 'Shelf 2'].map((id) => row(id, 'wall'));
    expect(drawn([row('box', 'Shelf 2'), ...places, row('wall'), row('attic')])).toEqual([
      'attic',
      'wall',
      '>Shelf 2',
      '>>box',
      '>Shelf 10',
    ]);
  });
  test('a place in one that is no longer there stands at the top', () => {
    expect(drawn([row('box', 'gone'), row('wall')])).toEqual(['box', 'wall']);
  });
  test('two places moved into each other on two phones are drawn, once, and marked', () => {
    const places = [
      row('a', 'b'),
      row('b', 'a'),
      row('c', 'b'),
      row('d', 'c'),
      row('self', 'self'),
    ];
    expect(drawn(places)).toEqual(['a!', '>b', '>>c', '>>>d', 'self!']);
    const known = new Map(places.map((one) => [one.id, one]));
    expect(ring(known.get('a') as Row, known).map((one) => one.id)).toEqual(['a', 'b']);
    expect(ring(known.get('d') as Row, known)).toEqual([]);
  });
});

describe('what lies in a place', () => {
  const rows = [
    row('wall'),
    row('shelf', 'wall'),
    part('rib', 'shelf'),
    part('skin', 'wall'),
    part('scrap', 'shelf', { retired: true }),
    part('lost', null),
    row('sheet', 'shelf', { sort: 'offcut' }),
    row('line', 'shelf', { sort: 'line' }),
  ];
  const things = lying(rows);
  const ids = (found: Row[] | undefined): string[] => (found ?? []).map((one) => one.id).sort();
  test('directly, and in the places below it', () => {
    expect(ids(things.get('wall'))).toEqual(['shelf', 'skin']);
    expect(ids(below('wall', things))).toEqual(['rib', 'sheet', 'shelf', 'skin']);
    expect(ids(things.get(''))).toEqual(['lost', 'wall']);
  });
  test('is said in words', () => {
    expect(thingsWords(below('wall', things))).toBe('1 place, 2 parts and 1 offcut');
    expect(thingsWords([])).toBe('nothing');
    expect(whyNotEmpty(row('wall'), things.get('wall') ?? [])).toBe(
      'wall is not empty: 1 place and 1 part are in it. Move them first.',
    );
    expect(whyNotEmpty(row('attic'), [])).toBe('');
  });
  test('a ring of places does not go round for ever', () => {
    const round = lying([row('a', 'b'), row('b', 'a'), part('rib', 'b')]);
    expect(ids(below('a', round))).toEqual(['b', 'rib']);
  });
});

describe('where a thing may be put', () => {
  const places = [row('wall'), row('shelf', 'wall'), row('box', 'shelf')];
  const known = new Map(places.map((one) => [one.id, one]));
  const place = (id: string | null): Row | undefined => known.get(id ?? '');
  const [wall, shelf, box] = places as [Row, Row, Row];
  test('a place goes neither into itself nor below itself', () => {
    expect(whyNotInto(wall, wall, place)).toBe('wall cannot lie in itself. Choose another place.');
    expect(whyNotInto(wall, box, place)).toMatch('box lies in wall. Move box out of it first');
    expect(whyNotInto(box, wall, place)).toBe('');
    expect(whyNotInto(shelf, null, place)).toBe('');
  });
  test('a part goes anywhere that is still there', () => {
    expect(whyNotInto(part('rib', 'box'), box, place)).toBe('');
    expect(whyNotInto(part('rib', 'box'), row('old', null, { retired: true }), place)).toMatch(
      'old is no longer there',
    );
  });
});

describe('what a move is called', () => {
  test('one thing by name and hand, many by their number', () => {
    const rib = part('Rib 4', null, { fields: { hand: 'left' } });
    expect(moveLabel([rib], row('Shelf 2'))).toBe('Rib 4 left: in Shelf 2');
    expect(moveLabel([rib, rib], null)).toBe('2 things: nowhere known');
    expect(named(part('Left rib', null, { fields: { hand: 'left' } }))).toBe('Left rib');
  });
});

describe('where is it', () => {
  const rows = [
    part('Rib 4', 'shelf', { fields: { number: 'W-412' }, codes: ['7K2QD0ABCD'], touched: 3 }),
    part('Rib 40', 'shelf', { touched: 9 }),
    part('Old rib', null, { retired: true, touched: 99 }),
    row('Ribs', 'wall'),
    row('line', null, { sort: 'line', name: 'Rib line' }),
  ];
  const found = (typed: string): string[] => whereIs(rows, typed).map(({ row: one }) => one.name);
  test('by name, what is meant exactly first and what is gone last', () => {
    expect(found('rib 4')).toEqual(['Rib 4', 'Rib 40']);
    expect(found('rib')).toEqual(['Rib 40', 'Rib 4', 'Ribs', 'Old rib']);
    expect(found('  ')).toEqual([]);
  });
  test('by number, and by a tag however it is written', () => {
    expect(found('w-412')).toEqual(['Rib 4']);
    for (const typed of ['abcd', '7k2qd oabcd', '7K2QD-0ABCD', '7K2'])
      expect(whereIs(rows, typed).map((hit) => hit.code)).toEqual(['7K2QD0ABCD']);
    expect(found('cd')).toEqual([]);
  });
});
