import { describe, expect, it } from 'vitest';
import type { Body, Fact } from '../twins/facts.ts';
import { fold, type State } from '../twins/fold.ts';
import { wholeLine } from './along.ts';
import { allOf, bodyOf, settle } from './choices.ts';
import {
  fastenerWords,
  groundOfLine,
  type Line,
  letterAt,
  nextTarget,
  notFinished,
  notReady,
  targetsOf,
  wrongWithLine,
} from './lines.ts';
import { sayChoice } from './words.ts';

const LINE: Line = {
  name: 'rear spar, top',
  count: 164,
  supplied: 'pilot',
  head: 'flush',
  fastener: { kind: 'rivet', text: '3/32' },
  layers: [
    { part: 'skin', treat: 'dimple' },
    { part: 'rib', treat: 'countersink' },
  ],
  open: [{ n: 16, fills: 'nut plates' }],
};
let seq = 0;
function fact(kind: string, body: Body): Fact {
  seq += 1;
  return {
    id: `e${seq}`,
    kind,
    device: 'a',
    seq,
    at: seq,
    pos: seq,
    base: seq,
    by: 'sam',
    via: null,
    body,
  };
}
const lineAfter = (bodies: Body[], line: Line = LINE): State =>
  fold([
    fact('line.set.v1', line as unknown as Body),
    ...bodies.map((body) => fact('step.recorded.v1', body)),
  ]);

describe('a rivet line', () => {
  it('is worked through once for all layers, then layer by layer, then riveted', () => {
    const order: string[] = [];
    const bodies: Body[] = [];
    for (let left = 20; left; left -= 1) {
      const ground = groundOfLine(lineAfter(bodies));
      const next = nextTarget(ground, LINE);
      if (!next) break;
      order.push([next.op, next.layer].filter(Boolean).join(' '));
      bodies.push(bodyOf(settle(allOf(ground, next.op, next.layer))));
    }
    expect(order).toEqual([
      'fit',
      'drill',
      'deburr skin',
      'deburr rib',
      'dimple skin',
      'countersink rib',
      'rivet',
    ]);
    expect(lineAfter(bodies).flags).toEqual([]);
  });

  it('records the side and the layer', () => {
    const ground = groundOfLine(lineAfter([]));
    expect(bodyOf(allOf(ground, 'deburr', 'rib'))).toEqual({
      op: 'deburr',
      result: 'all',
      done: 164,
      of: 164,
      layer: 'rib',
      sides: ['inside', 'outside'],
    });
    expect(bodyOf(allOf(ground, 'drill', null))).toEqual({
      op: 'drill',
      result: 'all',
      done: 164,
      of: 164,
    });
  });

  it('T3: is not finished with 16 of 164 open, and names what fills them', () => {
    const ground = groundOfLine(lineAfter([]));
    const rivet = allOf(ground, 'rivet', null);
    expect(sayChoice(ground, rivet)).toBe('Riveted: 148 of 164, 16 left open for the nut plates');
    const riveted = groundOfLine(lineAfter([bodyOf(settle(rivet))]));
    expect(riveted.marks.rivet?.done).toBe(148);
    expect(notFinished(riveted, LINE)).toBe(
      'Not finished: 16 of 164 holes are open, for nut plates.',
    );
    const filled = groundOfLine(
      lineAfter([bodyOf(settle(rivet)), bodyOf(settle(allOf(riveted, 'rivet', null)))]),
    );
    expect(notFinished(filled, LINE)).toBe('');
    expect(filled.marks.rivet?.done).toBe(164);
  });

  it('leaves out what holes at final size do not need', () => {
    const line: Line = { ...LINE, supplied: 'final' };
    expect(letterAt(groundOfLine(lineAfter([], line)), { op: 'drill', layer: null })).toBe('-');
    expect(nextTarget(groundOfLine(lineAfter([], line)), line)).toEqual({
      op: 'deburr',
      layer: 'skin',
    });
    expect(targetsOf(LINE).filter((one) => one.op === 'dimple')).toEqual([
      { op: 'dimple', layer: 'skin' },
    ]);
  });

  it('names the parts that are not primed before it is riveted', () => {
    const parts: Record<string, { name: string; strip: string }> = {
      skin: { name: 'Skin', strip: '---------d-' },
      rib: { name: 'Rib 4', strip: '--------tt-' },
    };
    const ground = groundOfLine(lineAfter([]));
    expect(notReady(ground, LINE, (id) => parts[id])).toEqual([
      'Rib 4 is not cleaned or primed yet.',
    ]);
    expect(notReady(ground, LINE, () => undefined)).toHaveLength(2);
  });

  it('says what is wrong with it before it is kept', () => {
    expect(wrongWithLine(LINE)).toBe('');
    expect(wrongWithLine({ ...LINE, name: ' ' })).toContain('name');
    expect(wrongWithLine({ ...LINE, layers: [] })).toContain('factory head');
    expect(wrongWithLine({ ...LINE, count: 10 })).toContain('16 holes are to stay open');
    expect(wrongWithLine({ ...LINE, open: [{ n: 1, fills: '' }] })).toContain('what will fill');
    const plain: Line = { ...LINE, layers: [{ part: 'skin', treat: 'plain' }] };
    expect(wrongWithLine(plain)).toContain('flush head');
    expect(fastenerWords(LINE)).toBe('3/32 rivet, flush head');
  });
});

it('asks of a layer that came in what it asks of the others, at its own holes', () => {
  const over = {
    name: 'over the shim',
    count: 12,
    layers: [LINE.layers[0], { part: 'shim', treat: 'dimple' }, LINE.layers[1]],
    fastener: LINE.fastener,
    dash: 8,
    was_dash: 7,
    confirmed: true,
  };
  const state = fold([
    fact('line.set.v1', LINE as unknown as Body),
    fact('line.segments.v1', { segments: [over] } as unknown as Body),
  ]);
  const ground = groundOfLine(state);
  const asked = targetsOf(wholeLine(state)).filter((target) => target.layer === 'shim');
  expect(asked.map((target) => target.op)).toEqual(['deburr', 'dimple']);
  expect(sayChoice(ground, allOf(ground, 'dimple', 'shim'))).toBe('Dimpled: all 12');
  expect(sayChoice(ground, allOf(ground, 'dimple', 'skin'))).toBe('Dimpled: all 164');
});
