import { describe, expect, it } from 'vitest';
import { rivetSize } from '../reckoner/address.ts';
import type { Line, LineLayer } from './lines.ts';
import type { Segment } from './segments.ts';
import {
  cameIn,
  missingWords,
  otherByRule,
  rivetWords,
  stackWas,
  waitingSentence,
} from './stretches.ts';

const sheet = (part: string): LineLayer => ({
  part,
  thickness: { nm: 812_800, text: '.032' },
  treat: 'plain',
});
const [skin, shim, spar] = [sheet('Skin'), sheet('Shim'), sheet('Spar')];
const line = { layers: [skin, spar] } as unknown as Line;
const over: Segment = {
  name: 'over the shim',
  count: 12,
  layers: [skin, shim, spar],
  fastener: { kind: 'rivet', text: 'MS20470AD3' },
  dash: 8,
  was_dash: 7,
  confirmed: false,
};
const name = (part: string): string => part;

describe('what changed in a stretch', () => {
  it('is said with its lengths until it is confirmed', () => {
    expect(waitingSentence(over)).toBe('Was -3.5, now -4: confirm.');
    expect(waitingSentence({ ...over, was_dash: 8 })).toContain('Stays -4');
    expect(waitingSentence({ ...over, was_dash: null })).toBe('To be -4: confirm.');
    expect(waitingSentence({ ...over, dash: null })).toContain('Was -3.5');
    expect(waitingSentence({ ...over, dash: null, was_dash: null })).toBe('');
    expect(waitingSentence({ ...over, confirmed: true })).toBe('');
  });
  it('is found in the other stretches, or in the line where it is all along', () => {
    const was = stackWas(line, [over], over);
    expect(was).toEqual([skin, spar]);
    expect(cameIn(over, was, name)).toBe('Shim came in between Skin and Spar.');
    expect(stackWas(line, [over], { ...over, confirmed: true })).toBeNull();
  });
  it('is named by where it lies', () => {
    expect(cameIn({ layers: [shim, skin, spar] }, [skin, spar], name)).toContain('factory head');
    expect(cameIn({ layers: [skin, spar, shim] }, [skin, spar], name)).toContain('beneath Spar');
    expect(cameIn(over, null, name)).toBe('');
    expect(cameIn(over, over.layers, name)).toBe('');
  });
});

it('names a rivet with its length', () => {
  expect(rivetWords(over)).toBe('MS20470AD3-4');
  expect(rivetWords({ ...over, fastener: { kind: 'rivet', text: '3/32' } })).toBe('3/32 -4');
  expect(rivetWords({ ...over, fastener: { kind: 'rivet', text: '' } })).toBe('rivet -4');
  expect(rivetWords({ ...over, dash: null })).toBe('MS20470AD3, length not known');
});

it('says which figure is missing, and guesses none', () => {
  const unknown = { ...skin, thickness: null };
  expect(missingWords(over, rivetSize, name)).toBe('');
  expect(missingWords({ ...over, layers: [unknown, spar] }, rivetSize, name)).toBe(
    'To work out its length, the thickness of Skin is needed.',
  );
  const bare = { layers: [unknown, spar], fastener: { kind: 'rivet' as const, text: '' } };
  expect(missingWords(bare, rivetSize, name)).toContain('and the size of the rivet');
});

it('says where the rule gives another length than the line has', () => {
  expect(otherByRule(over, 8)).toBe('');
  expect(otherByRule(over, null)).toBe('');
  expect(otherByRule(over, 9)).toBe('For this stack the rule gives -4.5: look at the plans.');
});
