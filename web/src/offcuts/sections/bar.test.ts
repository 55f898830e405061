import { describe, expect, test } from 'vitest';
import { illegible } from '../../reckoner/drawings/legible.test.support.ts';
import { type DrawnBar, type DrawnSection, drawBar, marksOf } from './bar.ts';
import { layOut, type Stock } from './sawing.ts';

const IN = 25_400_000;
const SAW = { kerf_nm: IN / 16, dress_off_nm: IN / 32 };
const ANGLE: DrawnSection = {
  form: 'angle',
  square: false,
  sides: [IN, (3 * IN) / 4],
  wall: 1_600_200,
};

function bar(stock: Stock, lengths: readonly number[], unit: 'in' | 'mm' = 'in'): DrawnBar {
  const laid = lengths.length ? layOut(stock, lengths, SAW) : null;
  const letters = lengths.map((_, at) => String.fromCharCode(65 + at));
  return { section: ANGLE, length: stock.length_nm, laid, letters, unit };
}

const CASES: [string, DrawnBar][] = [
  ['a length as it is', bar({ length_nm: 24 * IN, square_ends: 0 }, [])],
  ['one piece of it', bar({ length_nm: 24 * IN, square_ends: 1 }, [6 * IN])],
  ['a short piece of a long one', bar({ length_nm: 144 * IN, square_ends: 1 }, [IN / 2])],
  ['all of it', bar({ length_nm: 6 * IN, square_ends: 2 }, [6 * IN])],
  ['three pieces', bar({ length_nm: 24 * IN, square_ends: 0 }, [9 * IN, 7 * IN, IN / 4])],
  ['in millimetres', bar({ length_nm: 24 * IN, square_ends: 0 }, [9 * IN, 7 * IN, IN], 'mm')],
  [
    'many short ones',
    bar(
      { length_nm: 40 * IN, square_ends: 1 },
      Array.from({ length: 14 }, () => IN / 2),
    ),
  ],
];
const SECTIONS: DrawnSection[] = [
  { form: 'channel', square: false, sides: [IN, IN / 2], wall: 1_600_200 },
  { form: 'channel', square: false, sides: [IN / 2, 2 * IN], wall: 1_600_200 },
  { form: 'tube', square: false, sides: [IN / 2], wall: 889_000 },
  { form: 'tube', square: true, sides: [IN, 2 * IN], wall: 3_175_000 },
  { form: 'angle', square: false, sides: [3 * IN, IN / 2], wall: 6_350_000 },
];

describe('every figure of the drawing can be read', () => {
  test.each(CASES)('%s', (_, drawn) => {
    for (const width of [288, 358, 520]) expect(illegible(drawBar(drawn, width))).toEqual([]);
  });

  test.each(SECTIONS)('a section of $form', (section) => {
    const drawn = { ...bar({ length_nm: 24 * IN, square_ends: 0 }, [6 * IN]), section };
    for (const width of [288, 358, 520]) expect(illegible(drawBar(drawn, width))).toEqual([]);
  });
});

test('pieces and cuts are drawn to scale', () => {
  const drawn = bar({ length_nm: 20 * IN, square_ends: 2 }, [10 * IN]);
  const picture = drawBar(drawn, 300);
  const metal = picture.solids.filter(({ look }) => look === 'metal').at(-1);
  const xs = metal?.points.map(([x]) => x) ?? [];
  expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo((300 - 28) / 2, 6);
});

test('running dimensions are told from the datum, in the order of the cuts', () => {
  const laid = layOut({ length_nm: 24 * IN, square_ends: 1 }, [6 * IN, 4 * IN], SAW);
  expect(marksOf(laid)).toEqual([0, 6 * IN + IN / 32, 6 * IN + IN / 8 + 4 * IN + IN / 32]);
  const texts = drawBar(bar({ length_nm: 24 * IN, square_ends: 1 }, [6 * IN, 4 * IN]), 358)
    .figures.filter(({ turned, hold }) => turned && hold === 'end')
    .map(({ text }) => text);
  expect(texts).toEqual(['0', '6 1/32', '10 5/32']);
});
