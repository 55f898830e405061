import { describe, expect, test } from 'vitest';
import {
  BLANK_KEEP,
  BLANK_SHAPE,
  BLANK_SIDE,
  type ShapeAnswers,
  type TypedSide,
} from './answers.ts';
import { IN, MM } from './drawn.test.support.ts';
import { leanOf, trace } from './reading.ts';
import { areaUm2, sizeOf } from './rings.ts';

const shaped = (shape: Partial<ShapeAnswers>, a = '12', b = '8') =>
  trace({ a, b, shape: { ...BLANK_SHAPE, ...shape } }, 'in');
const side = (length: string, change: Partial<TypedSide> = {}): TypedSide => ({
  ...BLANK_SIDE,
  length,
  ...change,
});
const SQ_IN = 25_400 ** 2;

describe('what is typed becomes an outline, in either unit or both', () => {
  test('two sides', () => {
    const traced = shaped({}, '4 3/8', '110mm');
    expect(traced).toMatchObject({ problems: {}, faults: [], open: false });
    expect(sizeOf(traced.sheet)).toEqual({ width: 111_125_000, height: 110 * MM });
  });
  test('a corner off', () => {
    const offs = [{ corner: 'top right', a: '3', b: '50.8 mm' }] as const;
    const { region, problems } = shaped({ way: 'corner off', offs: [...offs] });
    expect(problems).toEqual({});
    expect(region && areaUm2(region)).toBe((96 - 3) * SQ_IN);
  });
  test('an L', () => {
    const offs = [{ corner: 'bottom left', a: '3', b: '2' }] as const;
    const { region } = shaped({ way: 'ell', offs: [...offs] });
    expect(region && areaUm2(region)).toBe((96 - 6) * SQ_IN);
  });
  test('a triangle', () => {
    const { region, texts } = shaped({ way: 'triangle', c: '10' }, '8', '6');
    expect(region && areaUm2(region)).toBe(24 * SQ_IN);
    expect(texts.map(({ text }) => text)).toEqual(['8', '6', '10']);
  });
  test('walked, the row that is not written in yet left out', () => {
    const sides = [
      side('12'),
      side('8', { corner: 'out', angle: '90°' }),
      side('12'),
      side('203,2 mm'),
      BLANK_SIDE,
    ];
    const { region, problems, texts } = shaped({ way: 'walked', sides });
    expect(problems).toEqual({});
    expect(region && areaUm2(region)).toBe(96 * SQ_IN);
    expect(texts.map(({ text }) => text)).toEqual(['12', '8', '12', '203,2 mm']);
  });
  test('corners from two edges, in either order', () => {
    const points = [
      { x: '0', y: '0 mm' },
      { x: '0"', y: '4' },
      { x: '6', y: '4' },
      { x: '6', y: '.0' },
    ];
    const { region, problems } = shaped({ way: 'offsets', points });
    expect(problems).toEqual({});
    expect(region && areaUm2(region)).toBe(24 * SQ_IN);
  });
  test('with a keep-out', () => {
    const keep = {
      ...BLANK_KEEP,
      sort: 'square',
      x: '1',
      y: '0',
      width: '2',
      height: '25.4 mm',
    } as const;
    const { region, faults } = shaped({ keeps: [keep] });
    expect(faults).toEqual([]);
    expect(region && areaUm2(region) / SQ_IN).toBeCloseTo(94, 2);
    expect(region && areaUm2(region)).toBeLessThanOrEqual(94 * SQ_IN);
  });
  test('read from a file, with the holes it has', () => {
    const outer = [
      [0, 0],
      [9 * MM, 0],
      [9 * MM, 9 * MM],
    ] as const;
    const hole = [
      [6 * MM, MM],
      [6 * MM, 2 * MM],
      [7 * MM, MM],
    ] as const;
    const given = { region: { outer, holes: [hole] }, entered: { way: 'dxf', texts: {} } };
    expect(shaped({ way: 'dxf', given }).region).toEqual({ outer, holes: [hole] });
  });
});

describe('what is wanting is said by its own name', () => {
  test.each([
    [{}, '', '8', ['a']],
    [{ way: 'corner off' }, '12', '8', ['off.0.a', 'off.0.b']],
    [{ way: 'triangle', c: '' }, '12', '8', ['c']],
    [{ way: 'triangle', c: '3' }, '12', '8', ['c']],
    [{ way: 'walked' }, '', '', ['side.0.length']],
    [{ way: 'walked', sides: [side('x'), side('4')] }, '', '', ['side.0.length']],
    [{ way: 'walked', sides: [side('4', { corner: 'out' }), side('4')] }, '', '', ['side.0.angle']],
    [
      { way: 'walked', sides: [side('4', { corner: 'in', angle: '181' }), side('4')] },
      '',
      '',
      ['side.0.angle'],
    ],
    [{ way: 'walked', sides: [side('4', { curve: 'out' })] }, '', '', ['side.0.rise']],
    [{ way: 'walked', sides: [side('4', { curve: 'out', rise: '2.1' })] }, '', '', ['side.0.rise']],
    [{ way: 'offsets', points: [{ x: '1', y: '' }] }, '', '', ['point.0.y', 'point.more']],
    [{ way: 'dxf' }, '', '', ['file']],
    [{ keeps: [BLANK_KEEP] }, '12', '8', ['keep.0.width', 'keep.0.x', 'keep.0.y']],
  ] as const)('%j', (shape, a, b, names) => {
    const traced = shaped(shape as unknown as Partial<ShapeAnswers>, a, b);
    expect(Object.keys(traced.problems).sort()).toEqual([...names]);
    expect(traced.region).toBeNull();
    for (const sentence of Object.values(traced.problems)) expect(sentence).toMatch(/\.$/);
  });

  test('more off than there is of a side', () => {
    const offs = [
      { corner: 'top right', a: '7', b: '1' },
      { corner: 'top left', a: '6', b: '1' },
    ] as const;
    expect(shaped({ way: 'corner off', offs: [...offs] }).problems['off.0.a']).toContain(
      'more than there is',
    );
  });
});

describe('what is wrong with a walk is said as it is walked', () => {
  test('open, with how far', () => {
    const { faults, open, region } = shaped({
      way: 'walked',
      sides: [side('12'), side('8'), side('10'), side('8')],
    });
    expect([open, region]).toEqual([true, null]);
    expect(faults[0]?.sentence).toBe(
      'Not closed: the last side ends 2 in from where the first began. Add the next side, look at the lengths and corners, or go straight back.',
    );
    expect(faults[0]?.sides).toHaveLength(1);
  });
  test('closed on the safe side, which is said', () => {
    const sides = [side('12'), side('8'), side('11 63/64'), side('8')];
    const { remarks, region, faults } = shaped({ way: 'walked', sides });
    expect(faults).toEqual([]);
    expect(remarks).toEqual([
      'The last side ends 1/64 in from where the first began: closed on the safe side.',
    ]);
    expect(region && areaUm2(region)).toBeLessThan(96 * SQ_IN);
  });
  test('straight back closes it', () => {
    const { region, texts } = shaped({ way: 'walked', back: true, sides: [side('3'), side('4')] });
    expect(region && areaUm2(region)).toBe(6 * SQ_IN);
    expect(texts).toHaveLength(2);
  });
  test('crossed, before it is closed', () => {
    const sides = [side('12'), side('6'), side('5'), side('9'), side('not a length')];
    const { faults, problems } = shaped({ way: 'walked', sides });
    expect(faults.map(({ code, points }) => [code, points])).toEqual([['crossed', [[7 * IN, 0]]]]);
    expect(Object.keys(problems)).toEqual(['side.4.length']);
  });
});

describe('the angle of the grain', () => {
  test.each([
    ['30', 30_000_000],
    ['22.5°', 22_500_000],
    ['135 deg', 135_000_000],
    ['0,5', 500_000],
  ])('%s', (text, udeg) => {
    expect(leanOf(text)).toEqual({ udeg });
  });
  test.each(['', '0', '180', '-3', 'steep', '1e2', '90 90'])('"%s" is no angle here', (text) => {
    expect(leanOf(text)).toHaveProperty('sentence');
  });
});
