import { describe, expect, it } from 'vitest';
import { rowOf } from '../store/rows.ts';
import type { Body, Fact } from '../twins/facts.ts';
import { fold, type State } from '../twins/fold.ts';
import { flagSayings } from './flags.ts';
import { historyLines } from './history.ts';
import { groundOfLine, type Line, nextTarget, notReady } from './lines.ts';
import {
  confirmedIn,
  dashWords,
  groupsOf,
  restacked,
  type Segment,
  segmentsOf,
  waitingWords,
  wrongWithSegments,
} from './segments.ts';

const LINE: Line = {
  name: 'rear spar, top',
  count: 164,
  supplied: 'final',
  head: 'protruding',
  fastener: { kind: 'rivet', text: 'MS20470AD4' },
  layers: [
    { part: 'skin', treat: 'plain' },
    { part: 'spar', treat: 'plain' },
  ],
  open: [],
};
const segment = (name: string, count: number | null): Segment => ({
  name,
  count,
  layers: LINE.layers,
  fastener: LINE.fastener,
  dash: 7,
  was_dash: null,
  confirmed: true,
});
const INBOARD = segment('inboard', 52);
const SHIMMED = segment('over the shim', 12);
const OUTBOARD = segment('outboard', 100);
const SHIM = { part: 'shim', thickness: { nm: 812_800, text: '.032' }, treat: 'plain' as const };
const changed = restacked(SHIMMED, { layers: [...LINE.layers, SHIM], dash: 8 });

let seq = 0;
function fact(kind: string, body: object): Fact {
  seq += 1;
  const told = { id: `e${seq}`, kind, device: 'a', seq, at: seq, pos: seq, base: seq };
  return { ...told, by: 'sam', via: null, body: body as Body };
}
const deburred = (): Fact =>
  fact('step.recorded.v1', { op: 'deburr', result: 'all', done: null, of: null });
const told = (segments: Segment[]): Fact => fact('line.segments.v1', { segments });
// written in the order given
const inOrder = (facts: Fact[]): Fact[] =>
  facts.map((one, at) => ({ ...one, seq: at + 1, at: at + 1, pos: at + 1, base: at }));
const lineWith = (...facts: Fact[]): State =>
  fold(inOrder([fact('line.set.v1', LINE), deburred(), ...facts]));

describe('T6: a .032 shim joins a line of -3.5 rivets', () => {
  it('takes the touched segment out of its group', () => {
    const before = groupsOf([INBOARD, SHIMMED, OUTBOARD]);
    expect(before.map(({ dash, holes }) => [dash, holes])).toEqual([[7, 164]]);
    const after = groupsOf([INBOARD, changed, OUTBOARD]);
    expect(after.map(({ dash, holes }) => [dash, holes])).toEqual([
      [7, 152],
      [8, 12],
    ]);
    expect(after[1]?.segments).toEqual([changed]);
  });

  it('shows what it was and what it is, and is not ready until someone confirms', () => {
    expect([changed.was_dash, changed.dash, changed.confirmed]).toEqual([7, 8, false]);
    const sentence = 'The rivets of 12 holes changed from -3.5 to -4: confirm them first.';
    expect(waitingWords([INBOARD, changed])).toEqual([sentence]);
    const state = lineWith(told([INBOARD, changed]));
    expect(state.unconfirmed).toBe(1);
    const ground = groundOfLine(state);
    expect(nextTarget(ground, LINE)).toBeNull();
    const part = { name: 'Skin', strip: '-----------' };
    expect(notReady(ground, LINE, () => part)).toEqual([sentence]);
    expect(state.flags?.map((one) => one.flag)).toEqual(['rivet length not confirmed']);
    expect(flagSayings(state)).toEqual([]); // the line says it itself
  });

  it('is ready once the group is confirmed', () => {
    const segments = [INBOARD, changed];
    const [, group] = groupsOf(segments);
    const confirmed = confirmedIn(segments, group as NonNullable<typeof group>);
    expect(confirmed[1]).toEqual({ ...changed, confirmed: true });
    const state = lineWith(told(segments), told(confirmed));
    expect(segmentsOf(state)).toEqual(confirmed);
    expect(nextTarget(groundOfLine(state), LINE)).toEqual({ op: 'rivet', layer: null });
    expect(notReady(groundOfLine(state), LINE, () => ({ name: 'Skin', strip: '-' }))).toEqual([]);
  });

  it('keeps riveting recorded meanwhile, and names it', () => {
    const rivet = { op: 'rivet', result: 'all', done: null, of: null };
    const state = lineWith(told([changed]), fact('step.recorded.v1', rivet));
    expect(state.marks?.rivet?.is).toBe('done');
    expect(flagSayings(state).map((one) => one.words)).toEqual([
      expect.stringContaining('It is riveted, and the length of some'),
      expect.stringContaining('riveted before the length'),
    ]);
  });

  it('remembers the last length that was confirmed', () => {
    expect(restacked(changed, { dash: 9 }).was_dash).toBe(7);
    expect(restacked({ ...changed, confirmed: true }, { dash: 9 }).was_dash).toBe(8);
  });
});

describe('segments', () => {
  it('a line without any is offered for riveting as before', () => {
    expect(segmentsOf(lineWith())).toEqual([]);
    expect(groundOfLine(lineWith()).waiting).toEqual([]);
    expect(nextTarget(groundOfLine(lineWith()), LINE)).toEqual({ op: 'rivet', layer: null });
  });

  it('of different fasteners with the same figure are two groups', () => {
    const pulled: Segment = { ...INBOARD, fastener: { ...INBOARD.fastener, kind: 'pulled rivet' } };
    expect(groupsOf([INBOARD, pulled])).toHaveLength(2);
    expect(groupsOf([INBOARD, segment('tip', null)])[0]?.holes).toBeNull();
  });

  it('that wait are named by their holes, or by name where those are not counted', () => {
    const words = (more: Partial<Segment>): string[] =>
      waitingWords([{ ...changed, ...more }, changed].slice(0, 1));
    expect(words({ count: 1, was_dash: null })).toEqual([
      'The rivets of 1 hole are to be -4: confirm them first.',
    ]);
    expect(words({ dash: null })).toEqual([
      'The rivets of 12 holes have no length yet: give them one first.',
    ]);
    expect(words({ dash: 7 })).toEqual([
      'The rivets of 12 holes stay -3.5 in a stack that changed: confirm them first.',
    ]);
    expect(waitingWords([changed, { ...changed, name: 'tip', count: null }])).toEqual([
      'The rivets of 12 holes and “tip” changed from -3.5 to -4: confirm them first.',
    ]);
    expect(dashWords(8)).toBe('-4');
  });

  it('cannot be confirmed without a length', () => {
    const none = { ...changed, dash: null };
    const [group] = groupsOf([none]);
    expect(confirmedIn([none], group as NonNullable<typeof group>)).toEqual([none]);
  });

  it('are refused with a sentence where they cannot be so', () => {
    expect(wrongWithSegments(LINE, [INBOARD, SHIMMED, OUTBOARD])).toBe('');
    expect(wrongWithSegments(LINE, [INBOARD, OUTBOARD, segment('tip', 13)])).toContain('165 holes');
    expect(wrongWithSegments(LINE, [segment(' ', 1)])).toContain('a name');
    expect(wrongWithSegments(LINE, [{ ...INBOARD, layers: [] }])).toContain('one layer');
    expect(wrongWithSegments(LINE, new Array(41).fill(segment('x', 1)))).toContain('at most 40');
  });
});

describe('in lists and in the record', () => {
  const PIECE = {
    what: 'shim',
    name: 'Shim under rib 4',
    alloy: '2024',
    temper: 'T3',
    clad: 'clad',
    thickness: { nm: 812_800, text: '.032' },
    a: { nm: 50_800_000, text: '2' },
    b: { nm: 19_050_000, text: '3/4' },
    grain: 'any',
    count: 2,
    for_parts: ['rib'],
  };

  it('a piece wanted is a row with its metal', () => {
    const wanted = fact('piece.wanted.v1', PIECE);
    const row = rowOf('p', fold([wanted]));
    expect([row.sort, row.name, row.retired]).toEqual(['wanted', 'Shim under rib 4', false]);
    expect(row.fields).toMatchObject({ what: 'shim', material: '2024-T3 clad', count: 2 });
    expect(row.fields.met).toBeUndefined();
    const met = rowOf('p', fold([wanted, fact('piece.met.v1', { part: 'shim-1' })]));
    expect(met.fields.met).toBe('shim-1');
  });

  it('a line says how many of its segments wait', () => {
    expect(rowOf('l', lineWith(told([changed, changed]))).fields.unconfirmed).toBe(2);
    expect(rowOf('l', lineWith()).fields.unconfirmed).toBe(0);
  });

  it('the record says it in words', () => {
    const sum = { sum: 'rivet', inputs: {}, unit: 'in', rulebook: '0123456789ab', answer: {} };
    const judged = { rulebook: '0123456789ab', answer: { verdict: 'check' } };
    const facts = [
      fact('piece.wanted.v1', PIECE),
      fact('piece.described.v1', { for_parts: ['rib', 'skin'], bends: [], grain: 'a' }),
      fact('piece.met.v1', { part: 'rib' }),
      fact('piece.met.v1', { part: null }),
      told([INBOARD, changed]),
      told([]),
      fact('sum.kept.v1', { ...sum, answer: { verdict: 'meets' }, note: 'left' }),
      { ...fact('sum.kept.v1', sum), judged },
    ];
    const lines = historyLines(facts, { thing: (id) => id.toUpperCase() });
    expect(lines.map((line) => line.words).reverse()).toEqual([
      'wanted it: Shim under rib 4, 2 pieces',
      'changed parts it is for: RIB and SKIN; bends: 0 bends; grain: a',
      'made it: RIB',
      'wanted it again',
      'set where its stack changes: 52 holes -3.5, 12 holes -4, 1 to confirm',
      'set where its stack changes: one stack all along',
      'kept a sum: rivet, meets, “left”',
      'kept a sum: rivet (the workshop computer reckons otherwise)',
    ]);
  });
});
