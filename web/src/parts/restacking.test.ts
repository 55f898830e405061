import { describe, expect, it } from 'vitest';
import { dashFor } from '../reckoner/linerivet.ts';
import type { State } from '../twins/fold.ts';
import { segmentsAlong, withLayer } from './layering.ts';
import type { Line, LineLayer } from './lines.ts';
import { segmentsAfter } from './restacking.ts';

const sheet = (part: string, text: string, treat: LineLayer['treat'] = 'plain'): LineLayer => ({
  part,
  thickness: { nm: Math.round(Number(text) * 25_400_000), text },
  treat,
});
const [skin, spar, shim] = [sheet('skin', '.032'), sheet('spar', '.040'), sheet('shim', '.032')];
const LINE: Line = {
  name: 'rear spar, top',
  count: 74,
  supplied: 'final',
  head: 'protruding',
  fastener: { kind: 'rivet', text: 'MS20470AD3-3.5' },
  layers: [skin, spar],
  open: [],
};
const none = { sort: 'line', line: LINE } as unknown as State;
const dashOf = dashFor(LINE);
const changedTo = (more: Partial<Line>, state = none) =>
  segmentsAfter(state, LINE, { ...LINE, ...more }, dashOf);

describe('T6 a .032 shim that joins a line of -3.5 rivets when the line is written anew', () => {
  it('makes them -4, and they wait', () => {
    expect(changedTo({ layers: [skin, shim, spar] })).toMatchObject([
      { count: 74, dash: 8, was_dash: 7, confirmed: false, layers: [skin, shim, spar] },
    ]);
  });
  it('is left to whoever writes the length for it in the same go', () => {
    const fastener = { kind: 'rivet' as const, text: 'MS20470AD3-4' };
    expect(changedTo({ layers: [skin, shim, spar], fastener })).toBeNull();
  });
});

it('leaves alone what touches no rivet', () => {
  expect(changedTo({ name: 'rear spar', count: 80 })).toBeNull();
  expect(changedTo({ layers: [sheet('skin', '.032', 'dimple'), spar] })).toBeNull();
  expect(changedTo({})).toBeNull();
});

it('asks nothing of a line whose length nobody knew, or that is not riveted', () => {
  const unknown: Line = { ...LINE, fastener: { kind: 'rivet', text: '' } };
  const bolted: Line = { ...LINE, fastener: { kind: 'bolt', text: 'AN3-5' } };
  for (const line of [unknown, bolted])
    expect(segmentsAfter(none, line, { ...line, layers: [skin, shim, spar] }, dashOf)).toBeNull();
});

// grip .072 in + 1.5 x 1/8 in is .2595 in, 4.15 sixteenths
it('makes a line that gets a larger rivet without a length wait', () => {
  expect(changedTo({ fastener: { kind: 'rivet', text: 'MS20470AD4' } })).toMatchObject([
    { fastener: { text: 'MS20470AD4' }, dash: 8, was_dash: 7, confirmed: false },
  ]);
});

describe('a line with stretches', () => {
  const [rest, over] = withLayer(
    segmentsAlong(LINE, none, dashOf),
    [{ at: 0, holes: 12 }],
    { layer: shim, under: 1 },
    dashOf,
    'over the shim',
  );
  const state = { ...none, segments: [rest, { ...over, confirmed: true }] } as unknown as State;

  it('takes a new layer in all of them, beneath the one it lies beneath', () => {
    const found = changedTo({ layers: [skin, spar, sheet('doubler', '.040')] }, state);
    expect(found?.map((one) => one.layers.map((each) => each.part))).toEqual([
      ['skin', 'spar', 'doubler'],
      ['skin', 'shim', 'spar', 'doubler'],
    ]);
    expect(found?.map((one) => [one.was_dash, one.confirmed])).toEqual([
      [7, false],
      [8, false],
    ]);
  });
  it('loses what is taken out, and keeps what only a stretch has', () => {
    const found = changedTo({ layers: [skin] }, state);
    expect(found?.map((one) => one.layers.map((each) => each.part))).toEqual([
      ['skin'],
      ['skin', 'shim'],
    ]);
  });
  it('is treated anew without touching the rivets', () => {
    const found = changedTo({ layers: [sheet('skin', '.032', 'dimple'), spar] }, state);
    expect(found?.map((one) => one.layers[0]?.treat)).toEqual(['dimple', 'dimple']);
    expect(found?.map((one) => one.confirmed)).toEqual([true, true]);
  });
  it('turns its stack round without taking the shim out of it', () => {
    const found = changedTo({ layers: [spar, skin] }, state);
    expect(found?.[1]?.layers.map((one) => one.part)).toEqual(['spar', 'shim', 'skin']);
  });
  it('has its name and further holes in the rest of it', () => {
    const found = changedTo({ name: 'top', count: 80 }, state);
    expect(found?.map((one) => [one.name, one.count])).toEqual([
      ['top', 68],
      ['over the shim', 12],
    ]);
    expect(found?.map((one) => one.confirmed)).toEqual([true, true]);
  });
  it('is the same where nothing was changed', () => {
    expect(changedTo({}, state)).toBeNull();
  });
});
