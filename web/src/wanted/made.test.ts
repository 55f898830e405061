import { describe, expect, it } from 'vitest';
import { withLayer } from '../parts/layering.ts';
import type { LineLayer } from '../parts/lines.ts';
import type { Segment } from '../parts/segments.ts';
import { type Template, templateOf } from '../parts/steps.ts';
import { dashFor } from '../reckoner/linerivet.ts';
import type { Fact } from '../twins/facts.ts';
import {
  inPlace,
  layerOf,
  madeDrafts,
  rivetsWords,
  sortOf,
  stepsOf,
  stepsWords,
  unmade,
} from './made.ts';
import type { Piece } from './wish.ts';

const length = (inches: number) => ({ nm: Math.round(inches * 25_400_000), text: `${inches} in` });
const SHIM: Piece = {
  what: 'shim',
  name: 'Shim',
  why: null,
  alloy: '2024',
  temper: 'T3',
  clad: 'clad',
  thickness: length(0.032),
  a: length(6),
  b: length(0.625),
  grain: 'any',
  count: 2,
  holes: 12,
  for_parts: [],
  lines: ['line'],
};
const STACK: LineLayer[] = [
  { part: 'skin', thickness: length(0.032), treat: 'plain' },
  { part: 'spar', thickness: length(0.04), treat: 'plain' },
];
const ALONG: Segment = {
  name: 'rear spar',
  count: 74,
  layers: STACK,
  fastener: { kind: 'rivet', text: 'MS20470AD3' },
  dash: 7,
  was_dash: null,
  confirmed: true,
};
const small = templateOf('small clip') as Template;

describe('what is recorded when a shim is made', () => {
  const layer = layerOf('shim-1', SHIM, STACK);
  const dash = dashFor({ head: 'protruding' });
  const after = withLayer([ALONG], [{ at: 0, holes: 12 }], { layer, under: 1 }, dash, 'over it');
  const drafts = madeDrafts(
    {
      wanted: 'wish',
      part: 'shim-1',
      name: ' Shim ',
      piece: SHIM,
      steps: stepsOf(small, SHIM, false),
      assembly: 'wing',
      for: ['Skin', 'rear spar'],
      segments: { line: after },
    },
    'in',
  );

  it('is a part with its steps, the piece met, and the line it joins', () => {
    expect(drafts.map(({ kind, subject }) => [kind, subject])).toEqual([
      ['part.added.v1', 'shim-1'],
      ['steps.set.v1', 'shim-1'],
      ['piece.met.v1', 'wish'],
      ['line.segments.v1', 'line'],
    ]);
    expect(drafts[0]?.body).toEqual({
      name: 'Shim',
      assembly: 'wing',
      material: '2024-T3 clad',
      thickness: SHIM.thickness,
      pieces: 2,
      note: 'Cut from .032 in 2024-T3 clad, 6 in × 5/8 in, for Skin and rear spar.',
    });
    expect(drafts[2]?.body).toEqual({ part: 'shim-1' });
  });
  it('T6: twelve rivets go from -3.5 to -4 and wait, the others stay', () => {
    // .104 + 1.5 x 3/32 is .2446 in, 3.91 sixteenths
    const [rest, touched] = after;
    expect([rest?.count, rest?.dash, rest?.confirmed]).toEqual([62, 7, true]);
    expect([touched?.count, touched?.dash, touched?.was_dash]).toEqual([12, 8, 7]);
    expect(touched?.confirmed).toBe(false);
    expect(touched?.layers.map(({ part }) => part)).toEqual(['skin', 'shim-1', 'spar']);
    expect(rivetsWords(after, 'shim-1')).toEqual(['12 holes: -3.5 to -4']);
    expect(rivetsWords([{ ...ALONG, confirmed: false }], 'shim-1')).toEqual([]);
  });
});

describe('what a piece cut at the bench needs', () => {
  it('has no holes yet: they are drilled in place although a small clip comes with its own', () => {
    expect(small.ops.drill).toBe('not');
    const steps = stepsOf(small, SHIM, false);
    expect(steps.holes).toEqual({ count: 12, supplied: 'none' });
    expect([steps.ops.fit, steps.ops.drill, steps.ops.dimple]).toEqual(['do', 'do', 'not']);
    expect(stepsWords(steps)).toContain('final drill');
    expect(stepsOf(small, SHIM, true).ops.dimple).toBe('do');
    expect(stepsOf(small, { ...SHIM, holes: 0 }, false).ops.drill).toBe('not');
  });
  it('is formed where it is bent', () => {
    const bend = { at: length(0.5), angle: 90, radius: length(0.16) };
    const bent = { ...SHIM, bends: [bend] };
    expect([sortOf(SHIM), sortOf(bent)]).toEqual(['small clip', 'angle']);
    expect(stepsOf(templateOf(sortOf(bent)) as Template, bent, false).ops.form).toBe('do');
  });
  it('takes the place of the piece wanted in a line that has it already', () => {
    const planned = [ALONG, { ...ALONG, layers: [layerOf('wish', SHIM, STACK), ...STACK] }];
    const [rest, there] = inPlace(planned, 'wish', 'shim-1') ?? [];
    expect(rest).toEqual(ALONG);
    expect(there?.layers.map(({ part }) => part)).toEqual(['shim-1', 'skin', 'spar']);
    expect(inPlace([ALONG], 'wish', 'shim-1')).toBeNull();
  });
  it('is dimpled where others of the line are, plain under a countersink', () => {
    const [skin, spar] = STACK as [LineLayer, LineLayer];
    expect(layerOf('it', SHIM, STACK).treat).toBe('plain');
    expect(layerOf('it', SHIM, [{ ...skin, treat: 'countersink' }, spar]).treat).toBe('plain');
    expect(layerOf('it', SHIM, [{ ...skin, treat: 'dimple' }, spar]).treat).toBe('dimple');
  });
});

describe('not made after all', () => {
  const fact = (seq: number, body: object, kind = 'line.segments.v1'): Fact => ({
    id: `f${seq}`,
    kind,
    device: 'phone',
    seq,
    at: seq,
    pos: seq,
    base: seq - 1,
    by: 'person',
    via: null,
    body: body as Fact['body'] & object,
  });
  const [plain, joined] = [
    { segments: [ALONG] },
    { segments: [{ ...ALONG, layers: [...STACK, { part: 'shim-1', treat: 'plain' }] }] },
  ];

  it('takes the layer out of a line that was told nothing since', () => {
    const line = { id: 'line', name: 'rear spar', facts: [fact(1, plain), fact(2, joined)] };
    const { drafts, left } = unmade('wish', 'shim-1', [line]);
    expect(left).toEqual([]);
    expect(drafts.map(({ kind, subject, body }) => [kind, subject, body])).toEqual([
      ['piece.met.v1', 'wish', { part: null }],
      ['thing.retired.v1', 'shim-1', { why: 'entered by mistake' }],
      ['event.withdrawn.v1', 'line', { event: 'f2' }],
    ]);
  });
  it('leaves a line that was told more, and names it', () => {
    const facts = [fact(1, joined), fact(2, joined)];
    const { drafts, left } = unmade('wish', 'shim-1', [{ id: 'line', name: 'rear spar', facts }]);
    expect(left).toEqual(['rear spar']);
    expect(drafts).toHaveLength(2);
  });
  it('has nothing to take out of a line that it never joined', () => {
    const line = { id: 'line', name: 'rear spar', facts: [fact(1, plain)] };
    expect(unmade('wish', 'shim-1', [line]).drafts).toHaveLength(2);
    const back = fact(3, { event: 'f2' }, 'event.withdrawn.v1');
    const undone = { ...line, facts: [fact(1, plain), fact(2, joined), back] };
    expect(unmade('wish', 'shim-1', [undone])).toMatchObject({ left: [] });
    expect(unmade('wish', 'shim-1', [undone]).drafts).toHaveLength(2);
  });
});
