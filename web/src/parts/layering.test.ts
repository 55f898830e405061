import { describe, expect, it } from 'vitest';
import { dashFor } from '../reckoner/linerivet.ts';
import type { State } from '../twins/fold.ts';
import {
  changesOf,
  parted,
  rivetAndLength,
  segmentsAlong,
  stackBefore,
  stackTouched,
  upSized,
  withLayer,
  wrongWithLayer,
} from './layering.ts';
import type { Line, LineLayer } from './lines.ts';
import { groupsOf } from './segments.ts';

const sheet = (part: string, text: string): LineLayer => ({
  part,
  thickness: { nm: Math.round(Number(text) * 25_400_000), text },
  treat: 'plain',
});
const line = (text: string, ...layers: LineLayer[]): Line => ({
  name: 'rear spar, top',
  count: 74,
  supplied: 'final',
  head: 'protruding',
  fastener: { kind: 'rivet', text },
  layers,
  open: [],
});
const none = { sort: 'line' } as unknown as State;
// .032 + .025 take a 3/32 rivet of grip + 1.5 D = .1976 in: -3; with .040 under it -3.5
const spar = line('MS20470AD3-3.5', sheet('skin', '.032'), sheet('spar', '.040'));
const shim = sheet('shim', '.032');

describe('T6 a .032 shim joins a line of -3.5 rivets', () => {
  const before = segmentsAlong(spar, none, dashFor(spar));
  const after = withLayer(before, [{ at: 0, holes: 12 }], { layer: shim, under: 1 }, dashFor(spar));

  it('begins as one stack with the rivets that the plans name', () => {
    expect(before).toMatchObject([{ count: 74, dash: 7, confirmed: true }]);
  });
  it('shows the touched holes with what the rule gives: grip .104 + 1.5 x 3/32 is .2446, -4', () => {
    expect(changesOf(after)).toEqual([{ name: 'with the new layer', holes: 12, was: 7, now: 8 }]);
  });
  it('leaves the old group with the rest of the holes', () => {
    expect(groupsOf(after).map((one) => [one.dash, one.holes])).toEqual([
      [7, 62],
      [8, 12],
    ]);
  });
  it('waits until somebody confirms it, with the layer where it was put', () => {
    expect(after[1]?.confirmed).toBe(false);
    expect(after[1]?.layers.map((one) => one.part)).toEqual(['skin', 'shim', 'spar']);
  });
  it('touches every segment it is said to touch', () => {
    const both = withLayer(
      after,
      [
        { at: 0, holes: null },
        { at: 1, holes: null },
      ],
      { layer: sheet('doubler', '.040'), under: 2 },
      dashFor(spar),
    );
    expect(both.every((one) => !one.confirmed)).toBe(true);
    // the second was never confirmed at -4: what it was is still -3.5
    expect(changesOf(both).map((one) => one.was)).toEqual([7, 7]);
    expect(both.map((one) => one.layers.length)).toEqual([3, 4]);
  });
});

it('puts a layer beneath the same one in stacks that differ', () => {
  const segments = segmentsAlong(spar, none, dashFor(spar));
  const some = withLayer(
    segments,
    [{ at: 0, holes: 12 }],
    { layer: shim, under: 1 },
    dashFor(spar),
  );
  const doubler = { layer: sheet('doubler', '.040'), under: 2 };
  const all = [
    { at: 1, holes: null },
    { at: 0, holes: null },
  ];
  const names = withLayer(some, all, doubler, dashFor(spar)).map((one) =>
    one.layers.map((each) => each.part),
  );
  expect(names).toEqual([
    ['skin', 'spar', 'doubler'],
    ['skin', 'shim', 'spar', 'doubler'],
  ]);
  // only the stretch with the shim is touched: its own stack is meant
  const [, only] = withLayer(some, all.slice(0, 1), doubler, dashFor(spar));
  expect(only?.layers.map((one) => one.part)).toEqual(['skin', 'shim', 'doubler', 'spar']);
  expect(stackTouched(some, all.slice(0, 1))).toHaveLength(3);
});

it('gives no length where a sheet or the rivet is not known, and does not guess', () => {
  const unknown = { ...shim, thickness: null };
  const segments = segmentsAlong(spar, none, dashFor(spar));
  const [only] = withLayer(
    segments,
    [{ at: 0, holes: null }],
    { layer: unknown, under: 1 },
    dashFor(spar),
  );
  expect(only).toMatchObject({ dash: null, was_dash: 7, confirmed: false });
  const bare = line('', sheet('skin', '.032'));
  expect(segmentsAlong(bare, none, dashFor(bare))[0]).toMatchObject({
    dash: null,
    confirmed: false,
  });
});

it('finds the stack before among the segments that lack the layer', () => {
  const segments = segmentsAlong(spar, none, dashFor(spar));
  const added = { layer: shim, under: 1 };
  const after = withLayer(segments, [{ at: 0, holes: 12 }], added, dashFor(spar));
  const [old, touched] = after;
  if (!old || !touched) throw new Error('not parted');
  expect(stackBefore(after, touched)).toBe(old.layers);
  expect(stackBefore(after, old)).toBeNull();
});

it('parts the touched holes from the rest, and all of them from nothing', () => {
  const [segment] = segmentsAlong(spar, none, dashFor(spar));
  if (!segment) throw new Error('no segment');
  expect(parted(segment, 12, 'shim').map((one) => [one.name, one.count])).toEqual([
    ['rear spar, top', 62],
    ['shim', 12],
  ]);
  expect(parted(segment, null, 'shim')).toEqual([segment]);
  expect(parted(segment, 74, 'shim')).toEqual([segment]);
  expect(parted({ ...segment, count: null }, 5, 'shim').map((one) => one.count)).toEqual([null, 5]);
});

it('gives a larger rivet its own length', () => {
  const larger = { kind: 'rivet' as const, text: 'MS20470AD4' };
  const segments = segmentsAlong(spar, none, dashFor(spar));
  const after = upSized(segments, [{ at: 0, holes: 2 }], larger, dashFor(spar));
  expect(after[1]).toMatchObject({
    fastener: larger,
    count: 2,
    dash: 8,
    was_dash: 7,
    confirmed: false,
  });
});

it.each([
  ['MS20470AD4-3.5', 'MS20470AD4', 7],
  ['1/8', '1/8', null],
  ['MS20426AD3-12', 'MS20426AD3', 24],
  ['', '', null],
])('reads %s', (text, rivet, dash) => {
  expect(rivetAndLength(text)).toEqual({ text: rivet, dash });
});

it('says what is wrong with a layer', () => {
  const segments = segmentsAlong(spar, none, dashFor(spar));
  expect(wrongWithLayer(segments, [{ at: 0, holes: 99 }], 'shim')).toContain('74 holes');
  expect(wrongWithLayer(segments, [{ at: 0, holes: null }], 'skin')).toContain('already');
  expect(wrongWithLayer(segments, [{ at: 0, holes: 0 }], 'shim')).toContain('at least one');
  expect(wrongWithLayer(segments, [], 'shim')).toContain('which holes');
  expect(wrongWithLayer(segments, [{ at: 0, holes: 12 }], '')).toContain('Choose the part');
  expect(wrongWithLayer(segments, [{ at: 0, holes: 12 }], 'shim')).toBe('');
});
