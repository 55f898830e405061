import { describe, expect, test } from 'vitest';
import { groundOfPart } from '../parts/grounds.ts';
import type { Row } from '../store/rows.ts';
import { fold } from '../twins/fold.ts';
import type { Offered } from './judge.ts';
import { judgePut } from './putting.ts';

function row(id: string, more: Partial<Row> = {}): Row {
  return {
    id,
    sort: 'place',
    name: id,
    codes: [],
    oldCodes: [],
    place: null,
    touched: 0,
    retired: false,
    answers: 0,
    doubts: [],
    flags: 0,
    fields: {},
    strip: '',
    strips: {},
    next: '',
    ...more,
  };
}
const shelf = row('Shelf 2', { place: 'Wall' });
const wall = row('Wall');
const rudder = row('Rudder', { fields: { form: 'assembly' } });
const rib = (place: string | null = null): Row => row('Rib 4', { sort: 'part', place });
const places = new Map([shelf, wall, rudder].map((one) => [one.id, one]));

function bound(assemblies: string[]): Offered {
  const ground = { ...groundOfPart(fold([])), strip: '----d------' };
  return {
    id: 'Rib 4',
    name: 'Rib 4',
    hand: null,
    station: 'S 52',
    assemblies,
    ground,
    steps: null,
    lines: [],
    tagOnFilm: '',
  };
}
const judged = (thing: Row, place: Row, offered: Offered | null = null, put: string[] = []) =>
  judgePut(thing, place, {
    parts: new Set(put),
    offered,
    into: place.fields.form === 'assembly' ? place.name : '',
    row: (id) => places.get(id ?? ''),
  });

describe('putting things in a place', () => {
  test('is recorded at once', () => {
    expect(judged(rib(), shelf)).toEqual({ is: 'record' });
    expect(judged(rib('Wall'), shelf)).toEqual({ is: 'record' });
  });
  test('what lies there already is said, and whether this run put it there', () => {
    expect(judged(rib('Shelf 2'), shelf)).toEqual({
      is: 'say',
      sentence: 'Rib 4 lies in Shelf 2 already. Nothing is recorded.',
    });
    expect(judged(rib('Shelf 2'), shelf, null, ['Rib 4'])).toMatchObject({
      sentence: 'Rib 4 was put in Shelf 2 in this run already. Nothing is recorded again.',
    });
  });
  test('another place asks whether it goes in or the run goes on with it', () => {
    expect(judged(rudder, shelf)).toMatchObject({ is: 'which', mayPut: true });
    expect(judged(wall, shelf)).toMatchObject({ is: 'which', mayPut: false });
    expect(judged(shelf, shelf)).toMatchObject({ is: 'say' });
  });
  test('T7 a station-bound part stops before it goes into another assembly', () => {
    expect(judged(rib(), rudder, bound(['Wing']))).toMatchObject({
      is: 'stop',
      why: 'elsewhere',
      title: 'Rib 4 belongs at S 52',
    });
    expect(judged(rib(), rudder, bound(['Rudder']))).toEqual({ is: 'record' });
    expect(judged(rib(), shelf, bound(['Wing']))).toEqual({ is: 'record' });
  });
});
