import { expect, test } from 'vitest';
import { symbolPath } from './symbol.ts';

test('dark runs become rectangles, one row high', () => {
  expect(symbolPath(['0000', '0110', '0101', '0000'])).toBe(
    'M1 1h2v1h-2z' + 'M1 2h1v1h-1z' + 'M3 2h1v1h-1z',
  );
});

test('nothing dark draws nothing', () => {
  expect(symbolPath(['00', '00'])).toBe('');
});
