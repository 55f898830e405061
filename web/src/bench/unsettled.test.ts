import { expect, test } from 'vitest';
import { waitingWords } from './unsettled.ts';

const DAY = 86_400_000;
const NOW = 1_700_000_000_000;

test('what is not sent for a day or more is said, with how long', () => {
  expect(waitingWords(0, null, NOW)).toBe('');
  expect(waitingWords(3, NOW - DAY / 2, NOW)).toBe('');
  expect(waitingWords(3, NOW - 3.5 * DAY, NOW)).toBe(
    '3 entries are on this phone only. It last met the workshop computer 3 days ago.',
  );
  expect(waitingWords(1, null, NOW)).toBe(
    '1 entry is on this phone only. It has not met the workshop computer since it was paired.',
  );
});
