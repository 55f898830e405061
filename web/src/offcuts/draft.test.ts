import { describe, expect, test } from 'vitest';
import { type Answers, answersOf, changesIn, readAnswers, UNANSWERED } from './draft.ts';
import type { Fields } from './piece.ts';

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

const problemsOf = (change: Partial<Answers>, unit: 'in' | 'mm' = 'in') => {
  const read = readAnswers({ ...COMPLETE, ...change }, unit);
  return 'problems' in read ? read.problems : {};
};

describe('answers become a body', () => {
  test('with every figure as typed and in nanometres', () => {
    expect(readAnswers(COMPLETE, 'in')).toEqual({
      name: null,
      alloy: '2024',
      temper: 'T3',
      clad: 'clad',
      form: 'sheet',
      thickness: { nm: 812_800, text: '.032' },
      measured: 'bare',
      known_by: 'mill marking',
      shape: {
        kind: 'rectangle',
        a: { nm: 304_800_000, text: '12' },
        b: { nm: 215_900_000, text: '8 1/2' },
      },
      grain: 'a',
      note: null,
    });
  });

  test.each([
    ['0.032', 812_800],
    ['.032', 812_800],
    ['1/32', 793_750],
    ['0.8 mm', 800_000],
  ])('thickness %s', (thickness, nm) => {
    expect(readAnswers({ ...COMPLETE, thickness }, 'in')).toMatchObject({ thickness: { nm } });
  });

  test('metal that is not known has neither alloy nor temper', () => {
    const read = readAnswers({ ...COMPLETE, metal: 'unknown' }, 'in');
    expect(read).toMatchObject({ alloy: null, temper: null });
  });
});

describe('what is wanting is said beside it, and nothing else is', () => {
  test('nothing answered', () => {
    const read = readAnswers(UNANSWERED, 'in');
    expect('problems' in read && Object.keys(read.problems).sort()).toEqual(
      ['a', 'b', 'clad', 'grain', 'known_by', 'measured', 'metal', 'thickness'].sort(),
    );
  });

  test.each([
    ['thickness', 'abc', 'cannot be read as a length'],
    ['thickness', '-0.032', 'cannot be below zero'],
    ['thickness', '1e9', 'Write the figure out in full'],
    ['thickness', '2 in', 'thicker than any sheet'],
    ['thickness', '0.8', 'Which did you mean, 0.8 in or 0.8 mm'],
    ['a', 'abc', 'cannot be read as a length'],
    ['a', '-3', 'cannot be below zero'],
    ['b', '1000000', 'longer than 10 m'],
    ['b', '0', 'more than zero'],
    ['b', '', 'Type the second side'],
  ] as const)('%s %s', (question, text, said) => {
    const problems = problemsOf({ [question]: text });
    expect(Object.keys(problems)).toEqual([question]);
    expect(problems[question]).toContain(said);
  });

  test('another metal wants its alloy', () => {
    expect(Object.keys(problemsOf({ metal: 'other', alloy: ' ' }))).toEqual(['metal']);
  });
});

describe('changing', () => {
  const stands = readAnswers(COMPLETE, 'in') as Fields;
  const again = (change: Partial<Answers>, unit: 'in' | 'mm' = 'in') => {
    const read = readAnswers({ ...answersOf(stands, true), ...change }, unit);
    return 'problems' in read ? read : changesIn(read, stands);
  };

  test('nothing changed writes nothing, in whatever unit the workshop is by now', () => {
    expect(again({})).toEqual({});
    expect(again({}, 'mm')).toEqual({});
  });

  test('whatever order the card has its keys in', () => {
    const turned = Object.fromEntries(Object.entries(stands.shape ?? {}).reverse());
    const read = readAnswers(answersOf(stands, true), 'in');
    expect('problems' in read || changesIn(read, { ...stands, shape: turned as never })).toEqual(
      {},
    );
  });

  test('only what differs is written', () => {
    expect(again({ grain: 'unknown', note: 'dent in one corner' })).toEqual({
      grain: 'unknown',
      note: 'dent in one corner',
    });
    expect(again({ thickness: '.040' })).toEqual({ thickness: { nm: 1_016_000, text: '.040' } });
    expect(again({ metal: 'unknown' })).toEqual({ alloy: null, temper: null });
  });
});
