import { describe, expect, test } from 'vitest';
import { type Answers, answersOf, changesIn, readAnswers, UNANSWERED } from '../draft.ts';
import { nameOf } from '../name.ts';
import { type Fields, grainWords, shapeWords } from '../piece.ts';
import { BLANK_KEEP, BLANK_SHAPE, BLANK_SIDE, type ShapeAnswers } from './answers.ts';
import { faultsIn } from './faults.ts';
import { areaUm2, doubledArea, sizeOf } from './rings.ts';
import type { OutlineShape } from './texts.ts';
import { sizeInOther, sizeWords, unitOf } from './told.ts';

const COMPLETE: Answers = {
  ...UNANSWERED,
  metal: 'listed',
  alloy: '2024',
  temper: 'T3',
  clad: 'clad',
  thickness: '.032',
  measured: 'bare',
  known_by: 'mill marking',
  a: '12',
  b: '8 1/2',
  grain: 'a',
};
const ROUND = { ...BLANK_KEEP, x: '3', y: '2', width: '1', fromX: 'right' } as const;
const SQUARE = {
  ...BLANK_KEEP,
  sort: 'square',
  x: '0',
  y: '0',
  width: '1',
  height: '2',
  fromY: 'top',
} as const;
const OFF = { corner: 'bottom left', a: '3', b: '50 mm' } as const;

const WAYS: Record<string, Partial<ShapeAnswers>> = {
  'a sheet with keep-outs': { keeps: [ROUND, SQUARE, { ...ROUND, sort: 'mark', y: '4' }] },
  'a corner off': { way: 'corner off', offs: [OFF, { corner: 'top right', a: '1', b: '1' }] },
  'an L with a hole': { way: 'ell', offs: [OFF], keeps: [ROUND] },
  'a triangle': { way: 'triangle', c: '14.7' },
  'a walk': {
    way: 'walked',
    back: true,
    sides: [
      { ...BLANK_SIDE, length: '12', corner: 'out', angle: '100' },
      { ...BLANK_SIDE, length: '150 mm', curve: 'in', rise: '10 mm' },
      { ...BLANK_SIDE, length: '5', corner: 'in', angle: '150.5°' },
      { ...BLANK_SIDE, length: '2', corner: 'inward' },
    ],
  },
  'corners from two edges': {
    way: 'offsets',
    points: [
      { x: '0', y: '1' },
      { x: '10', y: '0' },
      { x: '7', y: '200mm' },
    ],
  },
};

const read = (
  shape: Partial<ShapeAnswers>,
  change: Partial<Answers> = {},
  unit: 'in' | 'mm' = 'in',
) => {
  const body = readAnswers({ ...COMPLETE, ...change, shape: { ...BLANK_SHAPE, ...shape } }, unit);
  if ('problems' in body) throw new Error(JSON.stringify(body.problems));
  return body as typeof body & { shape: OutlineShape };
};

describe('an outline as it is recorded', () => {
  test.each(Object.entries(WAYS))('%s: in the corner, turned as it should be', (_, shape) => {
    for (const change of [{}, { grain: 'angle', lean: '37.5' }, { grain: 'angle', lean: '120' }]) {
      const { lean = '', ...answers } = change as { lean?: string; grain?: Answers['grain'] };
      const { shape: made, grain } = read({ ...shape, lean }, answers);
      expect([made.kind, grain]).toEqual(['outline', 'a']);
      const { outer, holes } = made;
      expect(Math.min(...outer.map(([x]) => x))).toBe(0);
      expect(Math.min(...outer.map(([, y]) => y))).toBe(0);
      expect(doubledArea(outer) > 0n).toBe(true);
      for (const hole of holes) expect(doubledArea(hole) < 0n).toBe(true);
      expect(faultsIn(outer, holes)).toEqual([]);
      const all = [...outer, ...holes.flat()].flat();
      expect(all.every((at) => Number.isSafeInteger(at) && at >= 0 && !Object.is(at, -0))).toBe(
        true,
      );
      const texts = Object.entries(made.entered.texts);
      expect(texts.length).toBeLessThan(400);
      expect(texts.every(([name, text]) => name.length <= 40 && text.length <= 40)).toBe(true);
    }
  });

  test.each(Object.entries(WAYS))(
    '%s: the form is filled again as it was, in any unit',
    (_, shape) => {
      for (const grain of ['a', 'b', 'unknown', 'angle'] as const) {
        const body = read({ ...shape, lean: grain === 'angle' ? '30' : '' }, { grain });
        const fields: Fields = JSON.parse(JSON.stringify(body));
        for (const unit of ['in', 'mm'] as const) {
          const again = readAnswers(answersOf(fields, true), unit);
          expect('problems' in again ? again : changesIn(again, fields)).toEqual({});
        }
      }
    },
  );

  test('one change is one change', () => {
    const body = read(WAYS['an L with a hole'] ?? {});
    const answers = answersOf(body as Fields, true);
    const again = readAnswers({ ...answers, shape: { ...answers.shape, keeps: [] } }, 'in');
    const changes = 'problems' in again ? {} : changesIn(again, body as Fields);
    expect(Object.keys(changes)).toEqual(['shape']);
  });

  test('a plain sheet stays a rectangle', () => {
    expect(read({}).shape).toMatchObject({ kind: 'rectangle' });
    // what was typed for another shape, and not chosen, says nothing
    expect(read({ offs: [OFF], c: '3', lean: '30' }).shape).toMatchObject({ kind: 'rectangle' });
  });

  test('the grain at an angle turns the sheet so that it runs along x', () => {
    const { shape } = read({ lean: '90.0' }, { grain: 'angle' });
    expect(sizeOf(shape.outer)).toEqual({ width: 215_900_000, height: 304_800_000 });
    expect(areaUm2(shape)).toBe(304_800 * 215_900);
    expect(grainWords({ grain: 'a', shape })).toBe('grain at 90.0° to its first side');
  });

  test('what was read from a file or left over comes back untouched', () => {
    const shape: OutlineShape = {
      kind: 'outline',
      outer: [
        [5, 0],
        [9_000_000, 0],
        [9_000_000, 9_000_000],
        [0, 4_000_000],
      ],
      holes: [],
      entered: { way: 'remnant', texts: {} },
    };
    const fields = { ...read({}), shape, grain: 'b' } as Fields;
    const again = readAnswers(answersOf(fields, true), 'in');
    expect('problems' in again ? again : changesIn(again, fields)).toEqual({});
  });
});

describe('what it is called', () => {
  const name = (way: string, change: Partial<ShapeAnswers> = {}) =>
    nameOf({ alloy: '2024', temper: 'T3', shape: read({ ...WAYS[way], ...change }).shape });
  test.each([
    ['a sheet with keep-outs', '2024-T3 , 12 × 8 1/2 in, 3 keep-outs'],
    ['a corner off', '2024-T3 , 12 × 8 1/2 in, corner off'],
    ['an L with a hole', '2024-T3 , 12 × 8 1/2 in, L, 1 keep-out'],
    ['a triangle', '2024-T3 , 12 × 8 31/64 in, triangle'],
    ['corners from two edges', '2024-T3 , 10 × 7 55/64 in, odd shape'],
  ])('%s', (way, words) => {
    expect(name(way)).toBe(words);
  });
  test('a sheet with its grain at an angle, by its own sides', () => {
    const { shape } = read({ lean: '30' }, { grain: 'angle' });
    expect(shapeWords(shape)).toBe('12 × 8 1/2 in, grain at an angle');
    expect(sizeInOther(shape, 'in')).toBe('304.8 × 215.9 mm');
  });
  test('in the unit that most of it was measured in', () => {
    expect(unitOf(read(WAYS['a walk'] ?? {}).shape)).toBe('in');
    const metric = read(
      { way: 'ell', offs: [{ ...OFF, a: '30' }] },
      { a: '300', b: '200', thickness: '.032 in' },
      'mm',
    ).shape;
    expect(unitOf(metric)).toBe('mm');
    expect(sizeWords(metric)).toBe('300 × 200 mm');
    expect(sizeInOther(metric, 'mm')).toBe('11.811 × 7.874 in');
  });
});
