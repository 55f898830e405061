import { expect, it } from 'vitest';
import type { Mark } from '../twins/marks.ts';
import { allOf, type Ground } from './choices.ts';
import { notesBefore } from './notes.ts';

const HOUR = 3_600_000;
const mark = (is: string, want = 'do', at = 0): Mark => ({
  is,
  want,
  done: null,
  of: null,
  open: 0,
  at,
});
const ground = (marks: Record<string, Mark>, more: Partial<Ground> = {}): Ground => ({
  marks,
  strip: '',
  count: null,
  pieces: 1,
  open: [],
  die: null,
  alongLines: false,
  together: [],
  windowH: 8,
  finalAfterDimple: false,
  ...more,
});
const notes = (at: Ground, op: string, now = 0, with_: string[] = []): string[] =>
  notesBefore(at, allOf(at, op), with_, now);

it('names what usually comes first and is not done, unless the same tap records it', () => {
  const marks = {
    'film:inside': mark('done'),
    'film:outside': mark('done'),
    'deburr:inside': mark('done'),
    'deburr:outside': mark('todo'),
    dimple: mark('todo'),
  };
  expect(notes(ground(marks), 'dimple')).toEqual(['Usually after deburr, not done yet.']);
  expect(notes(ground(marks), 'dimple', 0, ['deburr'])).toEqual([]);
});

it('does not ask for the drill before deburring where the final size comes after dimpling', () => {
  const marks = {
    drill: mark('todo'),
    'deburr:inside': mark('todo'),
    'deburr:outside': mark('todo'),
  };
  expect(notes(ground(marks), 'deburr')).toEqual(['Usually after final drill, not done yet.']);
  expect(notes(ground(marks, { finalAfterDimple: true }), 'deburr')).toEqual([]);
});

it('says when the time to prime a cleaned face has gone by, of that face only', () => {
  const marks = {
    'clean:inside': mark('done', 'do', 0),
    'clean:outside': mark('not', 'not'),
    'prime:inside': mark('todo'),
    'prime:outside': mark('not', 'not'),
  };
  expect(notes(ground(marks), 'prime', 8 * HOUR)).toEqual([]);
  expect(notes(ground(marks), 'prime', 8 * HOUR + 1)).toEqual([
    'Cleaned more than 8 hours ago: clean it again first.',
  ]);
  expect(notes(ground(marks, { windowH: null }), 'prime', 90 * HOUR)).toEqual([]);
});

it('says where it is to be kept bare, and where it is not needed', () => {
  const bare = { 'prime:inside': mark('bare', 'bare'), 'prime:outside': mark('bare', 'bare') };
  expect(notes(ground(bare), 'prime')).toEqual(['This part is to be kept bare here.']);
  expect(notes(ground({ form: mark('not', 'not') }), 'form')).toEqual([
    'This part does not need it.',
  ]);
});
