import { describe, expect, it } from 'vitest';
import { RULES, sumNamed } from '../reckoner/book.ts';
import { type Answer, isUnreckoned, reckon, type Sum } from '../twins/reckon.ts';
import { notOffered, type Piece, sameBlank, whatOf, wishBody } from './wish.ts';
import {
  asSentence,
  bendWords,
  grainWords,
  metalWords,
  offcutsAddress,
  otherUnitWords,
  pieceWords,
  unbroken,
} from './words.ts';

const shim = sumNamed('shim') as Sum;
const inputs = {
  gap: '.032',
  length: '6',
  width: '5/8',
  alloy: '2024-T3',
  clad: 'yes',
  stack: '.032,.025',
  diameter: '3/32',
};
const wish = { name: ' Shim ', count: 2, why: '', parts: [], lines: ['line'] };

function answered(name: string, typed: Record<string, string>): Answer {
  const found = reckon(RULES, name, typed, 'in');
  if (isUnreckoned(found)) throw new Error(found.sentence);
  return found;
}

describe('a shim wanted', () => {
  const answer = answered('shim', inputs);
  const body = wishBody(shim, answer, inputs, '2024-T3', wish, 'in');

  it('has the blank of the answer in whole nanometres', () => {
    expect(body).toMatchObject({
      what: 'shim',
      name: 'Shim',
      why: null,
      alloy: '2024',
      temper: 'T3',
      clad: 'clad',
      thickness: { nm: 812_800, text: '.032 in' },
      a: { nm: 152_400_000, text: '6 in' },
      b: { nm: 15_875_000, text: '5/8 in' },
      grain: 'any',
      count: 2,
      lines: ['line'],
    });
    expect(body?.holes).toBe(answer.holes);
  });
  it('is said in words', () => {
    const piece = body as unknown as Piece;
    expect(pieceWords(piece, 'in')).toBe('2 from .032 in 2024-T3 clad, 6 in × 5/8 in');
    expect(pieceWords({ ...piece, count: 1 }, 'mm')).toBe(
      'from 0.813 mm 2024-T3 clad, 152.4 mm × 15.88 mm',
    );
    expect(otherUnitWords(piece, 'in')).toBe('0.813 mm thick, 152.4 mm × 15.88 mm');
    expect(otherUnitWords(piece, 'mm')).toBe('.032 in thick, 6 in × 5/8 in');
    expect(grainWords(piece, 'in')).toBe('The grain may run either way.');
    expect(grainWords({ ...piece, grain: 'b' }, 'in')).toContain('5/8 in side');
    expect(metalWords({ ...piece, alloy: null })).toBe('metal not said');
    expect(unbroken('6 1/4 in × 15.88 mm')).toBe('6\u00a01/4\u00a0in ×\u00a015.88\u00a0mm');
    expect(asSentence('the plans show one')).toBe('The plans show one.');
    expect(asSentence('Is it short?')).toBe('Is it short?');
  });
  it('is drawn from its sum only while that gives the blank that is recorded', () => {
    const piece = body as unknown as Piece;
    expect(sameBlank(answer, piece)).toBe(true);
    expect(sameBlank(answer, { ...piece, b: { nm: 15_875_001, text: '5/8 in' } })).toBe(false);
  });
  it('asks the offcuts for no less than it is', () => {
    const piece = body as unknown as Piece;
    const asked = (unit: 'in' | 'mm', more = {}): URLSearchParams =>
      new URL(offcutsAddress({ ...piece, ...more }, unit), 'https://bench').searchParams;
    const grained = Object.fromEntries(asked('in', { grain: 'b' }));
    expect(grained).toEqual({
      metal: '2024-T3',
      clad: 'clad',
      thickness: '.032 in',
      width: '6 in',
      height: '5/8 in',
      grain: 'along height',
    });
    // 15.871 mm would be shown as 15.87 mm
    expect(asked('mm', { b: { nm: 15_871_000, text: '' } }).get('height')).toBe('15.88 mm');
    expect(asked('mm', { b: { nm: 15_870_000, text: '' } }).get('height')).toBe('15.87 mm');
    expect(asked('in', { alloy: null, temper: null, clad: 'unknown' }).has('metal')).toBe(false);
  });
});

it('is not offered where the sum fails: a shim of 5/16 in is too narrow', () => {
  const narrow = answered('shim', { ...inputs, width: '5/16' });
  expect(narrow.verdict).toBe('fails');
  expect(narrow.why).toContain('1/16 in');
  expect(notOffered(narrow)).toContain('fails');
  expect(wishBody(shim, narrow, inputs, '2024-T3', wish, 'in')).toBeNull();
});

it('keeps the bends of a stiffener, and names doublers and splices apart', () => {
  const sum = sumNamed('stiffener') as Sum;
  const typed = {
    legs: '5/8,5/8',
    length: '12',
    thickness: '.032',
    alloy: '2024-T3',
    stack: '.032,.040',
    diameter: '1/8',
  };
  const body = wishBody(sum, answered('stiffener', typed), typed, '2024-T3', wish, 'in');
  expect(body?.bends).toHaveLength(1);
  // AC 43.13-1B, Table 4-6: 2024-T3 at .032 up to 4 t, .128; setback .160 leaves a flat of .465; the
  // bend takes (.01743 x .128 + .0078 x .032) x 90 = .2233, half of it .1116
  expect(bendWords(body as unknown as Piece, 'in')).toEqual([
    'Bent by 90 degrees .5766 in from the edge, inside radius .128 in.',
  ]);
  expect(body?.grain).toBe('b');
  const section = sumNamed('section-splice') as Sum;
  expect(whatOf(section, { damage: '1' })).toBe('doubler');
  expect(whatOf(section, { damage: ' ' })).toBe('splice');
});
