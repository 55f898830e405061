import { expect, test } from 'vitest';
import { rulesWords } from './rules.ts';

test('rules that are the same, others, and those of a computer out of reach', () => {
  expect(rulesWords('8c9b3c2d9be0', '8c9b3c2d9be0')).toContain('the same as the workshop computer');
  expect(rulesWords('8c9b3c2d9be0', 'ffffffffffff')).toContain('has others, ffffffffffff');
  expect(rulesWords('8c9b3c2d9be0', null)).toBe('Rules of the bench sums: 8c9b3c2d9be0.');
  expect(rulesWords('', 'ffffffffffff')).toContain('not on this device');
});
