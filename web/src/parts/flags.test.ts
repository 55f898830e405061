import { expect, it } from 'vitest';
import type { Fact } from '../twins/facts.ts';
import type { Flag } from '../twins/flags.ts';
import type { State } from '../twins/fold.ts';
import { moment } from './dates.ts';
import { flagSayings, lastTold } from './flags.ts';
import { headlineWords, standingOf } from './headlines.ts';
import { historyLines } from './history.ts';

const state = (flags: Flag[], more: object = {}): State =>
  ({ flags, steps: { window_h: 8, final_after_dimple: false, ...more } }) as unknown as State;
const flag = (name: string, key: string, needs?: string): Flag => ({
  flag: name,
  key,
  event: 'e',
  ...(needs ? { needs } : {}),
});

it('says every flag in a sentence', () => {
  const all = [
    flag('out of order', 'dimple', 'deburr'),
    flag('keep bare', 'prime:outside'),
    flag('two records', 'deburr:inside'),
    flag('check hole match', 'form'),
    flag('clean lapsed', 'prime:inside'),
    flag('look', 'trimmed'),
    flag('more taken out', 'pieces'),
    flag('rivet length not confirmed', 'rivet'),
    flag('riveted before confirmed', 'rivet'),
  ];
  const words = flagSayings(state(all)).map((one) => one.words);
  expect(words[0]).toBe(
    'Dimple is recorded, and deburr was not done before it. Look whether that matters here.',
  );
  expect(words[1]).toContain('Prime outside');
  expect(words[2]).toContain('Two phones recorded deburr inside differently');
  expect(words[3]).toContain('holes still match');
  expect(words[4]).toContain('more than 8 hours after cleaning');
  expect(words[5]).toContain('it was trimmed');
  expect(words[6]).toContain('More pieces were taken out');
  expect(words[7]).toContain('It is riveted, and the length of some');
  expect(words[8]).toContain('before the length of its rivets was confirmed');
});

it('says the same thing once, and nothing where it was planned', () => {
  const both = [
    flag('out of order', 'deburr:inside', 'drill'),
    flag('out of order', 'deburr:outside', 'drill'),
  ];
  expect(flagSayings(state([both[0] as Flag, both[0] as Flag]))).toHaveLength(1);
  expect(flagSayings(state(both, { final_after_dimple: true }))).toEqual([]);
});

it('finds the later of two entries that told the same change', () => {
  const told = (id: string, at: number): Fact =>
    ({ id, at, kind: 'metal.changed.v1', body: { change: 'trimmed' } }) as unknown as Fact;
  expect(lastTold([told('late', 2), told('early', 1)], 'trimmed')).toBe('late');
  expect(lastTold([], 'trimmed')).toBeNull();
});

it('tells the headline states', () => {
  expect(headlineWords('-dddddt--t-')).toBe('Film off and deburred. Not yet dimpled or primed.');
  expect(headlineWords('-----------')).toBe('');
  expect(headlineWords('-----d-t---')).toBe('Deburred. Not yet countersunk.');
  expect(standingOf('------dt---', 'flush')).toBe('not yet');
  expect(standingOf('------d----', 'flush')).toBe('yes');
  expect(standingOf('---------b-', 'prime')).toBe('not asked');
});

it('writes the history in words, newest first, with what was taken back and what is not sent', () => {
  const fact = (seq: number, kind: string, body: object, pos: number | null = seq): Fact =>
    ({
      id: `e${seq}`,
      kind,
      device: 'a',
      seq,
      at: seq,
      pos,
      base: 0,
      by: 'sam',
      via: null,
      body,
    }) as Fact;
  const facts = [
    fact(1, 'part.added.v1', { name: 'Rib 4' }),
    fact(2, 'step.recorded.v1', {
      op: 'deburr',
      result: 'all',
      done: 164,
      of: 164,
      sides: ['inside', 'outside'],
    }),
    fact(3, 'step.recorded.v1', { op: 'dimple', result: 'some', done: 20, of: 164, die: '3/32' }),
    fact(4, 'event.withdrawn.v1', { event: 'e3' }),
    fact(5, 'thing.moved.v1', { to: 'shelf' }),
    fact(6, 'metal.changed.v1', { change: 'holes added', holes: 2 }),
    fact(7, 'part.described.v1', { station: null, thickness: { nm: 812800, text: '.032' } }),
    fact(8, 'later.kind.v9', {}, null),
  ];
  const lines = historyLines(facts, { thing: (id) => (id === 'shelf' ? 'Shelf 2' : id) });
  expect(lines.map((line) => line.words)).toEqual([
    'something this version does not know yet',
    'changed station: none; thickness: .032',
    'added 2 holes',
    'moved it to Shelf 2',
    'took back: dimpled, 20 of 164, die 3/32',
    'dimpled, 20 of 164, die 3/32',
    'deburred, both sides, all 164',
    'entered it as Rib 4',
  ]);
  expect(lines.filter((line) => line.gone).map((line) => line.id)).toEqual(['e3']);
  expect(lines.filter((line) => line.unsent).map((line) => line.id)).toEqual(['e8']);
});

it('names the year only where it is another one', () => {
  const at = new Date(2025, 10, 12, 18, 4).getTime();
  expect(moment(at, new Date(2025, 11, 1).getTime())).toBe('12 Nov, 18:04');
  expect(moment(at, new Date(2026, 1, 1).getTime())).toBe('12 Nov 2025, 18:04');
});
