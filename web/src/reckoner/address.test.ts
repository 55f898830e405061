import { describe, expect, test } from 'vitest';
import type { Line } from '../parts/lines.ts';
import { aboutAt, addressOf, rivetFor, rivetSize, typedAt } from './address.ts';

const queryOf = (address: string): string => address.slice(address.indexOf('?'));

describe('the address of a sum', () => {
  test('keeps what was typed and what it is for', () => {
    const to = addressOf('rivet', { stack: '.032;.040;', diameter: '1/8', was: ' ' }, 'abc');
    expect(to.startsWith('/reckoner/rivet?')).toBe(true);
    const keys = ['stack', 'diameter', 'was'];
    expect(typedAt(queryOf(to), keys)).toEqual({ stack: '.032;.040;', diameter: '1/8' });
    expect(aboutAt(queryOf(to))).toBe('abc');
  });
  test('of nothing typed is the bare one', () => {
    expect(addressOf('hole', {})).toBe('/reckoner/hole');
    expect(addressOf('', {}, 'abc')).toBe('/reckoner?for=abc');
  });
  test('gives no field that the sum does not take, and nothing without an end', () => {
    expect(typedAt('?stack=.032&colour=red', ['stack'])).toEqual({ stack: '.032' });
    expect(typedAt(`?stack=${'1'.repeat(5000)}`, ['stack']).stack?.length).toBe(400);
  });
});

describe('a rivet line opens the sum of its rivet', () => {
  const line = {
    head: 'flush',
    fastener: { kind: 'rivet', text: 'MS20426AD3-3.5' },
    layers: [
      { part: 'a', thickness: { nm: 812800, text: '.032' }, treat: 'dimple' },
      { part: 'b', thickness: { nm: 1_000_000, text: '1.0 mm' }, treat: 'dimple' },
    ],
  } as Pick<Line, 'head' | 'fastener' | 'layers'>;
  const keys = ['stack', 'diameter', 'head', 'kind', 'was'];

  test('with its layers, each in the unit it was measured in', () => {
    expect(typedAt(queryOf(rivetFor(line, 'abc') ?? ''), keys)).toEqual({
      stack: '.032 in;1.0 mm;',
      diameter: '3/32',
      head: 'flush',
      kind: 'solid',
    });
  });
  test('with an empty entry for a layer of unknown thickness', () => {
    const layers = [{ part: 'a', thickness: null, treat: 'plain' as const }, ...line.layers];
    const to = rivetFor({ ...line, layers }, 'abc') ?? '';
    expect(typedAt(queryOf(to), keys).stack).toBe(';.032 in;1.0 mm;');
  });
  test('as pulled where its rivets are pulled, and not at all for bolts', () => {
    const pulled = { ...line, fastener: { kind: 'pulled rivet' as const, text: '1/8' } };
    expect(typedAt(queryOf(rivetFor(pulled, '') ?? ''), keys).kind).toBe('pulled');
    expect(rivetFor({ ...line, fastener: { kind: 'bolt', text: '3/16' } }, '')).toBeNull();
  });
});

test.each([
  ['1/8', '1/8'],
  ['3/32 universal', '3/32'],
  ['MS20470AD4-4', '4/32'],
  ['ad5-6', '5/32'],
  ['MS20426AD3', '3/32'],
  ['nut plates', ''],
  ['', ''],
])('the size in %j is %j', (text, size) => {
  expect(rivetSize(text)).toBe(size);
});
