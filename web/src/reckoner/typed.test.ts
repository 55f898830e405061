import { describe, expect, test } from 'vitest';
import type { Sum } from '../twins/reckon.ts';
import { RULES, sumNamed } from './book.ts';
import { entriesOf, exampleOf, listOf, otherwise, startWith, understand } from './typed.ts';

const sum = (name: string): Sum => sumNamed(name) as Sum;
const ask = (name: string, typed: Record<string, string>, unit: 'in' | 'mm' = 'in') =>
  understand(RULES, sum(name), startWith(sum(name), typed), unit);

describe('a list in a form', () => {
  test.each([[[]], [['']], [['.032']], [['.032', '']], [['', '.032']], [['', '']]])(
    '%j comes back as it was',
    (entries) => {
      expect(entriesOf(listOf(entries))).toEqual(entries);
    },
  );
  test('of an address typed by hand needs no mark at its end', () => {
    expect(entriesOf('.032;.040')).toEqual(['.032', '.040']);
  });
});

describe('what is typed for a sum', () => {
  test('is reckoned with, usual words filled in', () => {
    const { answer, inputs } = ask('rivet', { stack: '.032;.040;', diameter: '1/8' });
    expect(answer?.part_number).toBe('MS20470AD4-4');
    expect(inputs).toEqual({
      stack: '.032,.040',
      diameter: '1/8',
      head: 'protruding',
      kind: 'solid',
    });
  });
  test('opens again from the texts it was kept with', () => {
    const { inputs } = ask('rivet', { stack: '.032;.040;', diameter: '1/8' });
    expect(ask('rivet', { ...inputs }).answer?.part_number).toBe('MS20470AD4-4');
  });
  test('of nothing at all names what is still to give, and is no mistake', () => {
    expect(ask('rivet', {})).toMatchObject({
      problems: {},
      missing: ['layers from the factory head', 'rivet diameter'],
      answer: null,
    });
  });
  test('with an open entry names it by its number', () => {
    const { missing, answer } = ask('rivet', { stack: '.032;;', diameter: '1/8' });
    expect(missing).toEqual(['layers from the factory head, number 2']);
    expect(answer).toBeNull();
  });
  test('unreadable, has its sentence at its own entry and no answer', () => {
    const { problems, answer } = ask('rivet', { stack: '.032;soon;', diameter: '1/8' });
    expect(Object.keys(problems)).toEqual(['stack.1']);
    expect(problems['stack.1']).toContain('“soon” cannot be read');
    expect(answer).toBeNull();
  });
  test('every unreadable field has its own sentence', () => {
    const { problems } = ask('edge', { edge: '-1', diameter: '7/64' });
    expect(Object.keys(problems)).toEqual(['edge', 'diameter']);
  });
  test('a decimal comma is one entry, not two', () => {
    const { answer, inputs } = ask('rivet', { stack: '0,8;1,0;', diameter: '1/8' }, 'mm');
    expect(inputs.stack).toBe('0.8,1.0');
    expect(answer?.grip_mm).toBe(1.8);
  });
  test('a bare figure in a field of percentages is one', () => {
    const primer = { area: '4.8m2', film: '.8mil', solids: '52', transfer: '60%' };
    const { answer, inputs } = ask('primer', primer);
    expect(inputs).toMatchObject({ solids: '52%', transfer: '60%' });
    expect(answer?.verdict).toBe('meets');
  });
  test('a sum that refuses says so at the field it names', () => {
    const { problems } = ask('flat', { thickness: '.040', radius: '1/8', legs: '1;' });
    expect(problems['legs.0']).toContain('One leg has no bend');
  });
  test.each(RULES.sums.map(({ name }) => name))('every field of %s can be left empty', (name) => {
    const { problems } = ask(name, {});
    expect(problems).toEqual({});
  });
});

test('an example is in the workshop’s unit', () => {
  const [stack] = sum('rivet').takes;
  const edge = sum('layout').takes.find(({ key }) => key === 'length');
  if (!stack || !edge) throw new Error('the sums take what they took');
  expect(exampleOf(stack, 'in')).toBe('.032');
  expect(exampleOf(stack, 'mm')).toBe('0.8');
  expect(exampleOf(edge, 'mm')).toBe('254');
});

test('a figure is shown in the unit in which it was not typed', () => {
  expect(otherwise('.032', 'in', true)).toBe('0.813 mm');
  expect(otherwise('0.8 mm', 'in', true)).toBe('.0315 in');
  expect(otherwise('3/32', 'mm', false)).toBe('2.381 mm');
  expect(otherwise('10', 'in', false)).toBe('254 mm');
  expect(otherwise('254', 'mm', false)).toBe('10 in');
  expect(otherwise('soon', 'in', false)).toBe('');
});
