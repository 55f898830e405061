import { describe, expect, test } from 'vitest';
import { readLength } from '../twins/lengths.ts';
import { nameOf, typedIn } from './name.ts';
import { inBoth, pieceOf } from './piece.ts';
import type { Measure } from './wanted.ts';

const read = (text: string, unit: 'in' | 'mm'): Measure => readLength(text, unit) as Measure;

describe('the unit a length was typed in', () => {
  test.each([
    ['.032', 'in', '.032 in (0.81 mm)'],
    ['0.8', 'mm', '0.8 mm (.0315 in)'],
    ['0,8', 'mm', '0,8 mm (.0315 in)'],
    ['8 1/2', 'mm', '8 1/2 in (215.9 mm)'],
    ['8 ½', 'in', '8 ½ in (215.9 mm)'],
    ['12"', 'mm', '12" (304.8 mm)'],
    ['30 cm', 'in', '30 cm (11.811 in)'],
    ['25 mils', 'mm', '25 mils (0.64 mm)'],
  ] as const)('%s typed in a workshop in %s reads %s', (text, unit, shown) => {
    expect(inBoth(read(text, unit))).toBe(shown);
  });

  test('a bare figure keeps its unit when the workshop changes its own', () => {
    expect(typedIn(read('300', 'mm'))).toBe('mm');
    expect(typedIn(read('12', 'in'))).toBe('in');
  });
});

describe('what an offcut is called', () => {
  const fields = {
    alloy: '2024',
    temper: 'T3',
    clad: 'clad',
    thickness: read('.032', 'in'),
    shape: { a: read('12', 'in'), b: read('8 1/2', 'in') },
  };
  test('by its metal and figures as typed', () => {
    expect(nameOf(fields)).toBe('2024-T3 clad .032, 12 × 8 1/2');
  });
  test('by its own name where it has one', () => {
    expect(nameOf({ ...fields, name: 'rudder leftover' })).toBe('rudder leftover');
  });
  test('and where nothing is known of the metal', () => {
    expect(nameOf({ ...fields, alloy: null })).toBe('metal unknown .032, 12 × 8 1/2');
  });
});

describe('what two people answered differently counts at its worst', () => {
  const fields = {
    alloy: '2024',
    temper: 'T3',
    clad: 'clad',
    measured: 'bare',
    known_by: 'mill marking',
    grain: 'a',
    thickness: read('.032', 'in'),
  } as const;
  test.each([
    ['alloy', { alloy: null }],
    ['temper', { temper: null }],
    ['clad', { clad: 'unknown' }],
    ['measured', { measured: 'over film' }],
    ['known_by', { known_by: 'unknown' }],
    ['grain', { grain: 'unknown' }],
    ['thickness', { measured: 'over film', measure_again: true }],
    ['shape', { measure_again: true }],
  ])('%s', (field, worst) => {
    expect(pieceOf('x', fields, [])).toMatchObject(fields);
    expect(pieceOf('x', fields, [field])).toMatchObject(worst);
  });
});
