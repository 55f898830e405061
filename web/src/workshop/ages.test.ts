import { describe, expect, test } from 'vitest';
import { age, ago, clockLeft } from './ages.ts';

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;

test.each([
  [0, 'less than a minute'],
  [MINUTE, '1 minute'],
  [59 * MINUTE, '59 minutes'],
  [60 * MINUTE, '1 hour'],
  [47 * 60 * MINUTE, '47 hours'],
  [2 * DAY, '2 days'],
  [400 * DAY, '400 days'],
])('%i ms: %s', (ms, words) => {
  expect(age(ms)).toBe(words);
});

describe('ago', () => {
  test('is just now for less than a minute, and for a clock that runs ahead', () => {
    expect(ago(1000, 1000)).toBe('just now');
    expect(ago(5000, 1000)).toBe('just now');
    expect(ago(0, 3 * MINUTE)).toBe('3 minutes ago');
  });
});

test.each([
  [300_000, '5:00'],
  [299_001, '5:00'],
  [65_000, '1:05'],
  [999, '0:01'],
  [0, '0:00'],
  [-5, '0:00'],
])('%i ms left: %s', (ms, words) => {
  expect(clockLeft(ms)).toBe(words);
});
