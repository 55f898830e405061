import { expect, test } from 'vitest';
import { counted, MOST, type SheetWish, wishOf, wrongWith } from './printing.ts';

const wish: SheetWish = {
  which: 'new',
  count: 12,
  size: 'tiny',
  paper: 'a4',
  width: 50,
  height: 25,
  dpi: '203',
  skip: 4,
};

test('a sheet of new tags', () => {
  expect(wishOf(wish, ['A'])).toEqual({ new: 12, size: 'tiny', dpi: 203, paper: 'a4', skip: 4 });
});

test('a roll has no labels used already', () => {
  expect(wishOf({ ...wish, paper: 'roll' }, [])).toMatchObject({ paper: '50x25mm', skip: 0 });
});

test('blank ones again, as many as one sheet takes; new ones where none is blank', () => {
  const blank = Array.from({ length: MOST + 5 }, (_, at) => String(at));
  expect(wishOf({ ...wish, which: 'again' }, blank)).toMatchObject({ codes: blank.slice(0, MOST) });
  expect(wishOf({ ...wish, which: 'again' }, [])).toMatchObject({ new: 12 });
});

test('one is not many', () => {
  expect([counted(1, 'tag'), counted(2, 'page')]).toEqual(['1 tag', '2 pages']);
});

test('what is missing is said', () => {
  expect(wrongWith(wish, [])).toBe('');
  expect(wrongWith({ ...wish, skip: null }, [])).toBe('');
  for (const count of [null, 0, MOST + 1])
    expect(wrongWith({ ...wish, count }, [])).toBe('Say how many: 1 to 200 at a time.');
  expect(wrongWith({ ...wish, count: null, which: 'again' }, ['A'])).toBe('');
  expect(wrongWith({ ...wish, paper: 'roll', height: null }, [])).toContain('one label');
});
