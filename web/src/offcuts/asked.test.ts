import { describe, expect, test } from 'vitest';
import {
  type Asked,
  addressOf,
  askedIn,
  likeThisPart,
  NOTHING_ASKED,
  understand,
} from './asked.ts';

const asking = (change: Partial<Asked>) => understand({ ...NOTHING_ASKED, ...change }, 'in');
const IN = 25_400_000;

describe('what can be answered', () => {
  test('nothing asked: all', () => {
    expect(asking({})).toMatchObject({ is: 'all', problems: {} });
    expect(asking({ structure: false }).is).toBe('all');
  });

  test('metal or thickness alone: those like it, of any size', () => {
    expect(asking({ metal: '2024-T3' })).toMatchObject({
      is: 'like',
      want: { alloy: '2024', temper: 'T3', width_nm: 1, height_nm: 1 },
    });
    expect(asking({ thickness: '.032' })).toMatchObject({
      is: 'like',
      want: { thickness: { kind: 'gauge', nm: 812_800 } },
    });
  });

  test('two sides: the search', () => {
    const asked = asking({ width: '4', height: '2 1/2', clear: '1/8', grain: 'along width' });
    expect(asked).toMatchObject({ is: 'search', problems: {} });
    expect(asked.want).toMatchObject({
      width_nm: 4 * IN,
      height_nm: 2.5 * IN,
      clearance_nm: IN / 8,
      grain: 'along width',
    });
  });

  test.each(['0', '0.0', ' ', '.0'])('a clearance of "%s" is none', (clear) => {
    const asked = asking({ width: '4', height: '2', clear });
    expect(asked).toMatchObject({ is: 'search', problems: {}, want: { clearance_nm: 0 } });
  });
});

describe('thickness', () => {
  test.each([
    [{ how: 'gauge' }, { kind: 'gauge', nm: 812_800 }],
    [{ how: 'at least' }, { kind: 'at least', nm: 812_800 }],
    [
      { how: 'range', to: '.040' },
      { kind: 'range', from_nm: 812_800, to_nm: 1_016_000 },
    ],
  ] as const)('%j', (change, wanted) => {
    expect(asking({ thickness: '.032', ...change }).want.thickness).toEqual(wanted);
  });

  test('a range without its end, or the wrong way round, is said and asks no less than it can', () => {
    const open = asking({ thickness: '.032', how: 'range' });
    expect(open.problems.to).toContain('up to what');
    expect(open.want.thickness).toEqual({ kind: 'at least', nm: 812_800 });
    expect(asking({ thickness: '.032', how: 'range', to: '.025' }).problems.to).toContain(
      'thinner',
    );
  });
});

describe('what cannot be read is said beside it and searches nothing', () => {
  test.each([
    ['width', { width: 'abc', height: '2' }, 'cannot be read'],
    ['height', { width: '2', height: '-4' }, 'below zero'],
    ['height', { width: '2' }, 'Give this side too'],
    ['width', { height: '2' }, 'Give this side too'],
    ['clear', { width: '2', height: '2', clear: 'x' }, 'cannot be read'],
    ['thickness', { thickness: '1e9' }, 'in full'],
    ['thickness', { thickness: '0.8' }, 'Which did you mean'],
  ] as const)('%s of %j', (field, change, said) => {
    const asked = asking(change);
    expect(Object.keys(asked.problems)).toEqual([field]);
    expect(asked.problems[field]).toContain(said);
    expect(asked.is).not.toBe('search');
  });
});

describe('addresses', () => {
  const asked: Asked = {
    metal: '2024-T3',
    clad: 'clad',
    thickness: '.032 in',
    to: '.040',
    how: 'range',
    width: '4 1/2',
    height: '3"',
    grain: 'along height',
    clear: '1/8',
    structure: false,
    part: '0190a0a0-0000-7000-8000-000000000001',
    place: '0190a0a0-0000-7000-8000-000000000002',
  };
  test('keep all that is asked', () => {
    expect(askedIn(new URL(addressOf(asked), 'https://x').search)).toEqual(asked);
  });
  test('are short where nothing is', () => {
    expect(addressOf(NOTHING_ASKED)).toBe('/offcuts');
    expect(addressOf({ place: 'p1', width: '4' })).toBe('/offcuts?width=4&in=p1');
    expect(askedIn('?in=p1').place).toBe('p1');
    expect(askedIn('')).toEqual(NOTHING_ASKED);
  });
  test('cannot bring in words that are none of ours', () => {
    expect(askedIn('?grain=sideways&how=x&clad=y')).toEqual(NOTHING_ASKED);
  });
  test('a part asks for its own metal and thickness', () => {
    const fields = { material: '2024-T3 clad', thickness: { nm: 812_800, text: '.032' } };
    const search = new URL(likeThisPart({ id: 'p', fields }), 'https://x').search;
    expect(askedIn(search)).toEqual({
      ...NOTHING_ASKED,
      metal: '2024-T3',
      clad: 'clad',
      thickness: '.032 in',
      part: 'p',
    });
    expect(likeThisPart({ id: 'p', fields: {} })).toBe('/offcuts?for=p');
  });
});
