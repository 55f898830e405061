import { describe, expect, it } from 'vitest';
import { changedPiece, draftOf, wrongWithPiece } from './change.ts';
import type { Piece } from './wish.ts';

const PIECE: Piece = {
  what: 'shim',
  name: 'Shim',
  why: null,
  alloy: '2024',
  temper: 'T3',
  clad: 'bare',
  thickness: { nm: 812_800, text: '.032 in' },
  a: { nm: 152_400_000, text: '6 in' },
  b: { nm: 15_875_001, text: '5/8 in' },
  grain: 'any',
  count: 1,
  for_parts: ['part'],
  lines: ['line'],
};
const isLine = (id: string): boolean => id === 'line';
const changed = (more: object) => changedPiece(PIECE, { ...draftOf(PIECE), ...more }, 'in', isLine);

describe('a wanted piece described anew', () => {
  it('writes nothing where nothing changed, and only what did', () => {
    expect(changed({})).toEqual({});
    expect(changed({ metal: '6061-T6', count: 2 })).toEqual({
      alloy: '6061',
      temper: 'T6',
      count: 2,
    });
    expect(changed({ b: '3/4' })).toEqual({ b: { nm: 19_050_000, text: '3/4' } });
    expect(changed({ metal: '' })).toEqual({ alloy: null, temper: null });
    expect(changed({ things: ['part'] })).toEqual({ lines: [] });
  });
  it.each([
    [{ name: ' ' }, 'Give the piece a name'],
    [{ count: null }, 'How many'],
    [{ count: 0 }, 'How many'],
    [{ thickness: null }, 'how thick'],
    [{ a: 'wide' }, 'The first side: “wide” cannot be read as a length.'],
    [{ b: '-1' }, 'The second side: A length cannot be below zero.'],
  ])('says what is wrong with %j', (more, sentence) => {
    expect(wrongWithPiece({ ...draftOf(PIECE), ...more }, 'in')).toContain(sentence);
  });
  it('has nothing against it as it stands', () => {
    expect(wrongWithPiece(draftOf(PIECE), 'in')).toBe('');
  });
});
