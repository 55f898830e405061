import { describe, expect, it } from 'vitest';
import type { Listed } from '../parts/listing.ts';
import { uuid7 } from '../store/ids.ts';
import { OPERATIONS } from '../twins/marks.ts';
import {
  benchOf,
  byPlace,
  enteredAt,
  filmDays,
  finished,
  lastVisit,
  VISIT_GAP_MS,
} from './sentences.ts';

const HOUR = 3_600_000;
const T0 = Date.UTC(2026, 4, 1);

// letters by operation name; everything else is not needed
function part(name: string, touched: number, letters: Record<string, string>, answers = 0): Listed {
  const strip = OPERATIONS.map((row) => letters[row.op] ?? '-').join('');
  const row = {
    id: uuid7(T0 + touched, new Uint8Array(10).fill(name.length)),
    sort: 'part',
    name,
    codes: [],
    oldCodes: [],
    place: null,
    touched: T0 + touched,
    retired: false,
    answers,
    doubts: [],
    flags: 0,
    fields: {},
    strip,
    strips: {},
    next: '',
  };
  return { row, strip };
}
const names = (some: Listed[]): string[] => some.map((one) => one.row.name);

describe('the first screen', () => {
  it('has nothing to say of an empty workshop', () => {
    const bench = benchOf([]);
    expect(bench.last).toBeNull();
    expect(bench.ready).toEqual([]);
  });

  it('tells what was begun on the last visit and is not finished, newest first', () => {
    const bench = benchOf([
      part('done', 10 * HOUR, { film: 'd', deburr: 'd' }),
      part('half', 9 * HOUR, { film: 'd', deburr: 'p' }),
      part('begun', 9.5 * HOUR, { film: 'd', deburr: 't' }),
      part('not begun', 9.2 * HOUR, { film: 't', deburr: 't' }),
      part('long ago', 0, { film: 'd', deburr: 'p' }),
    ]);
    expect(bench.last?.row.name).toBe('done');
    expect(names(bench.underWay)).toEqual(['begun', 'half']);
  });

  it('does not offer to rivet what waits for the length of its rivets', () => {
    const riveted = part('skin', 1, { deburr: 'd', rivet: 't' });
    const shimmed = { ...part('rib', 2, { deburr: 'd', rivet: 't' }), waits: true };
    const earlier = { ...part('spar', 3, { deburr: 't', rivet: 't' }), waits: true };
    const bench = benchOf([riveted, shimmed, earlier]);
    expect(bench.ready.map(({ row, parts }) => [row.op, names(parts)])).toEqual([
      ['deburr', ['spar']],
      ['rivet', ['skin']],
    ]);
  });

  it('ends a visit at a break of more than the gap, not at one as long', () => {
    const at = (hours: number): Listed => part(`${hours}`, hours * HOUR, { film: 't' });
    const gap = VISIT_GAP_MS / HOUR;
    expect(names(lastVisit([at(30), at(30 - gap)]))).toEqual(['30', `${30 - gap}`]);
    expect(names(lastVisit([at(30), at(29.9 - gap)]))).toEqual(['30']);
  });

  it('puts parts under the operation that is next for them, in working order', () => {
    const bench = benchOf([
      part('a', 1, { film: 'd', drill: 'd', deburr: 'd', dimple: 't' }),
      part('b', 2, { film: 'd', drill: 'd', deburr: 't', dimple: 't' }),
      part('c', 3, { film: 'd', drill: 'd', deburr: 'a', dimple: 't' }),
      part('d', 4, { film: 'd', drill: 'd', deburr: 'd', dimple: 'd' }),
    ]);
    expect(bench.ready.map(({ row, parts }) => [row.op, names(parts)])).toEqual([
      ['deburr', ['c', 'b']],
      ['dimple', ['a']],
    ]);
  });

  it('T1: never offers as ready what has to be looked at', () => {
    const bench = benchOf([part('a', 1, { drill: 'd', countersink: 'l', rivet: 't' })]);
    expect(bench.ready).toEqual([]);
    expect(names(bench.look)).toEqual(['a']);
  });

  it('names a part with two different answers once, even when nothing is left to do', () => {
    const bench = benchOf([part('a', 1, { film: 'd' }, 1), part('b', 2, { countersink: 'l' }, 1)]);
    expect(names(bench.look)).toEqual(['b', 'a']);
  });

  it('counts a part as finished only when no operation is open', () => {
    expect(finished(part('a', 1, { film: 'd', prime: 'b' }))).toBe(true);
    for (const letter of 't p a l'.split(' '))
      expect(finished(part('a', 1, { film: 'd', prime: letter })), letter).toBe(false);
  });

  it('lists film by how long it has been on, from when the part was entered', () => {
    const [old, young] = [part('old', 0, { film: 't' }), part('young', 50 * HOUR, { film: 't' })];
    expect(names(benchOf([young, old, part('off', 1, { film: 'd' })]).film)).toEqual([
      'old',
      'young',
    ]);
    expect(enteredAt(old)).toBe(T0);
    expect(filmDays(old, T0 + 49 * HOUR)).toBe(2);
    expect(filmDays(young, T0)).toBe(0);
  });

  it('lists parts to fetch place by place, where most of them lie first', () => {
    const at = (name: string, place: string | null) => ({ ...part(name, 1, {}).row, place });
    const found = byPlace([at('a', 'box'), at('b', 'wall'), at('c', null), at('d', 'wall')]);
    expect(found.map((one) => one.name)).toEqual(['b', 'd', 'a', 'c']);
  });
});
