import { describe, expect, test } from 'vitest';
import type { Piece } from '../../wanted/wish.ts';
import { anotherMetal, blankOf, readBlank, readPieces, type Typing, wayOn } from './made.ts';

const IN = 25_400_000;
const L = (nm: number, text: string) => ({ nm, text });
const piece = {
  alloy: '2024',
  temper: 'T3',
  clad: 'clad',
  thickness: L(812_800, '.032'),
  a: L(4 * IN, '4'),
  b: L(3 * IN, '3'),
  grain: 'b',
  count: 2,
} as unknown as Piece;
const typed: Typing = { name: '', width: '', height: '', length: '', count: '', grain: 'any' };

describe('what is cut', () => {
  test('a piece wanted is its blank, with the grain by its own sides', () => {
    expect(blankOf(piece)).toEqual({
      width: 4 * IN,
      height: 3 * IN,
      grain: 'along height',
      count: 2,
    });
    expect(wayOn('a', 'along height')).toBe('width along b');
    expect(wayOn('b', 'along height')).toBe('width along a');
    expect(wayOn('unknown', 'along height')).toBe('any');
  });
  test('what was typed, or a sentence for each line that cannot be read', () => {
    const read = readBlank({ ...typed, width: '4', height: '76.2 mm', count: '3' }, 'in');
    expect(read).toEqual({ blank: { width: 4 * IN, height: 3 * IN, grain: 'any', count: 3 } });
    const wrong = readBlank({ ...typed, height: 'x', count: '1.5' }, 'in');
    expect(Object.keys('problems' in wrong ? wrong.problems : {})).toEqual([
      'width',
      'height',
      'count',
    ]);
    expect(readPieces({ ...typed, length: '6', count: '2' }, 'in')).toEqual({
      lengths: [6 * IN, 6 * IN],
    });
    expect('problems' in readPieces({ ...typed, count: '51', length: '6' }, 'in')).toBe(true);
  });
  test('another metal or thickness than was asked for is said', () => {
    const same = {
      alloy: '2024',
      temper: 'T3',
      clad: 'clad',
      thickness: L(812_800, '.032'),
    } as const;
    const show = (nm: number): string => `${nm}`;
    expect(anotherMetal(piece, same, show)).toBe('');
    expect(anotherMetal(piece, { ...same, clad: 'bare' }, show)).toBe(
      'This offcut is 2024-T3, and the piece asks for 2024-T3 clad.',
    );
    expect(anotherMetal(piece, { ...same, thickness: L(635_000, '.025') }, show)).toMatch(
      '635000, and the piece asks for 812800',
    );
    expect(anotherMetal(piece, { thickness: L(812_800, '.032') }, show)).toMatch(/metal unknown/);
  });
});
