import { describe, expect, it } from 'vitest';
import type { LineLayer } from '../parts/lines.ts';
import { type Answer, isUnreckoned } from '../twins/reckon.ts';
import { largerRivet, treatmentOf, upsizeAnswer } from './upsizing.ts';

const sheet = (treat: LineLayer['treat']): LineLayer => ({
  part: treat,
  thickness: { nm: 812_800, text: '.032' },
  treat,
});
const segment = {
  layers: [sheet('plain'), sheet('plain')],
  fastener: { kind: 'rivet' as const, text: 'MS20470AD3' },
};
const line = { head: 'protruding' as const };
const answered = (edge: string): Answer => {
  const found = upsizeAnswer(line, segment, { edge, pitch: '3/4' }, 'in');
  if (!found || isUnreckoned(found)) throw new Error('no answer');
  return found;
};

describe('T8 a hole drilled out to 1/8', () => {
  // AC 43.13-1B, paragraph 4-57c(1): 2 D to the edge; .1875 in is 1.5 D of 1/8
  it('fails at .1875 in from the edge, and nothing larger is offered', () => {
    const answer = answered('.1875');
    expect(answer).toMatchObject({ verdict: 'fails', edge_d: 1.5 });
    expect(answer.part_number).toBeUndefined();
    expect(largerRivet(answer)).toBeNull();
  });
  it('is offered with 2.5 D, as the next size with its own length left to the stack', () => {
    expect(largerRivet(answered('5/16'))).toBe('MS20470AD4');
  });
});

it('asks nothing where the line does not say its rivet or a thickness', () => {
  const bare = { ...segment, fastener: { kind: 'rivet' as const, text: '' } };
  expect(upsizeAnswer(line, bare, { edge: '1/4', pitch: '' }, 'in')).toBeNull();
  const unknown = { ...segment, layers: [{ ...sheet('plain'), thickness: null }] };
  expect(upsizeAnswer(line, unknown, { edge: '1/4', pitch: '' }, 'in')).toBeNull();
  const read = upsizeAnswer(line, segment, { edge: 'abc', pitch: '' }, 'in');
  expect(read && isUnreckoned(read) && read.key).toBe('edge');
});

it('knows how the layers at the head are made', () => {
  expect(treatmentOf([sheet('dimple'), sheet('countersink')])).toBe('dimple-on-countersink');
  expect(treatmentOf([sheet('dimple'), sheet('dimple')])).toBe('dimple');
  expect(treatmentOf([sheet('countersink'), sheet('plain')])).toBe('countersink');
});
