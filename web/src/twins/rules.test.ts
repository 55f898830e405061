import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/vectors/rules.json';
import type { Unit } from './lengths.ts';
import { isRational, rational } from './rational.ts';
import { type Book, type Program, run, type Value } from './rules.ts';

type Told = { n: string } | string | boolean | null | Told[];
const { book, program, rows } = vectors as unknown as {
  book: Book;
  program: Program;
  rows: [Told, Told, Unit, Told[]][];
};

function value(told: Told): Value {
  if (Array.isArray(told)) return told.map(value);
  if (told === null || typeof told !== 'object') return told;
  const [above = '', below = ''] = told.n.split('/');
  return rational(BigInt(above), BigInt(below));
}

function shown(one: Value): unknown {
  if (Array.isArray(one)) return one.map(shown);
  return isRational(one) ? `${one.n}/${one.d}` : one;
}

describe('the vectors written from Python', () => {
  test('there are enough of them', () => {
    expect(rows.length).toBeGreaterThan(70);
    expect(Object.keys(program.outputs).length).toBeGreaterThan(45);
  });
  test('every operation gives the same', () => {
    for (const [a, b, unit, gives] of rows) {
      const found = run(program, { a: value(a), b: value(b) }, book, unit);
      Object.keys(program.outputs).forEach((name, at) => {
        const where = `${name} of ${JSON.stringify(a)}, ${JSON.stringify(b)}`;
        expect(shown(found[name] ?? null), where).toStrictEqual(shown(value(gives[at] ?? null)));
      });
    }
  });
});

test('a step of a newer rulebook is not passed over', () => {
  const newer = { steps: [['power', 0, 1]], outputs: { x: 0 } } as unknown as Program;
  expect(() => run(newer, {}, book, 'in')).toThrow('power');
});
