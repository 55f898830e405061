import { describe, expect, test } from 'vitest';
import type { Row } from '../store/rows.ts';
import { closedWords, decidedWords, FINDING_WORDS, isOpen, standingWords } from './words.ts';

function finding(fields: Record<string, unknown>, doubts: string[] = []): Row {
  return { id: '1', sort: 'finding', fields, doubts, retired: false } as unknown as Row;
}
const decided = { decision: 'repair', who: 'Kim Brook' };

describe('how a finding stands', () => {
  test('nothing decided, decided, closed', () => {
    expect(standingWords(finding({}))).toBe('nothing decided yet');
    expect(standingWords(finding({ decided }))).toBe('decided to repair it, not done yet');
    const closed = { outcome: 'no fault', evidence: null };
    expect(standingWords(finding({ decided, closed }))).toBe('no fault');
    expect(isOpen(finding({ decided, closed }))).toBe(false);
    expect(isOpen(finding({ decided }))).toBe(true);
  });
  test('two decisions that differ are not said to be one', () => {
    expect(standingWords(finding({ decided }, ['decision']))).toBe('two different decisions');
  });
});

describe('in words', () => {
  test('who decided, and what shows that it is done', () => {
    expect(decidedWords({ decision: 'ask the maker', who: 'Kim Brook' })).toBe(
      'Kim Brook decided to ask the maker of the kit first',
    );
    expect(decidedWords({ decision: 'use as is', who: null })).toBe(
      'It was decided to use it as it is',
    );
    expect(closedWords({ outcome: 'repaired', evidence: 'Work order 7' })).toBe(
      'Repaired. Shown by: Work order 7',
    );
  });
  test('a name keeps its capital in the record', () => {
    expect(FINDING_WORDS['finding.decided.v1']?.(decided)).toBe('Kim Brook decided to repair it');
    expect(FINDING_WORDS['finding.closed.v1']?.({ outcome: 'repaired', evidence: null })).toBe(
      'closed it: repaired',
    );
  });
});
