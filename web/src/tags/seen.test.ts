import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/vectors/tagcode.json';
import type { Sighting } from './looking.ts';
import { type Seen, seenIn, shortened, Watch } from './seen.ts';

const [ONE = '', TWO = ''] = vectors.check.filter(({ code }) => code).map(({ code }) => code);
const read = (text: string): Sighting => ({ text, damaged: false });
const spoiled: Sighting = { text: '', damaged: true };
const NOTHING: Seen = { is: 'nothing' };
const DAMAGED: Seen = { is: 'damaged' };
const tag = (code: string): Seen => ({ is: 'code', code });
const wrong = `${ONE.slice(0, 9)}${ONE.endsWith('7') ? '8' : '7'}`;

describe('what a picture amounts to', () => {
  test('a tag, whatever else is in the picture; of two tags the first', () => {
    expect(seenIn([spoiled, read('https://example.org'), read(ONE), read(TWO)])).toEqual(tag(ONE));
  });

  test('one wrong symbol is not repaired: it is said not to be a tag', () => {
    expect(seenIn([read(wrong)])).toMatchObject({ is: 'foreign' });
    expect(seenIn([read(wrong)])).toMatchObject({
      sentence: expect.stringContaining('do not belong together'),
    });
  });

  test('a foreign symbol is named by what it holds', () => {
    expect(seenIn([spoiled, read('WIFI:S:shed;;')])).toEqual({
      is: 'foreign',
      sentence: 'This is not one of our tags: “WIFI:S:shed;;”',
      text: 'WIFI:S:shed;;',
    });
  });

  test('a symbol that cannot be read, and none at all', () => {
    expect(seenIn([spoiled])).toEqual(DAMAGED);
    expect(seenIn([])).toEqual(NOTHING);
  });

  test('what a symbol holds is shown on one short line without anything unprintable', () => {
    expect(shortened('a\r\n\tb\u0000c\u202ed')).toBe('a b c d');
    expect([...shortened('x'.repeat(400))].length).toBeLessThan(60);
    expect(shortened('🛠'.repeat(400))).not.toContain('\ufffd');
  });
});

/** Runs frames 100 ms apart through a watch and lists what was passed on, with its time. */
function told(frames: Seen[], watch = new Watch(), from = 0): [number, Seen][] {
  return frames.flatMap((seen, at) => {
    const news = watch.next(seen, from + at * 100);
    return news ? [[from + at * 100, news] as [number, Seen]] : [];
  });
}
const times = (count: number, seen: Seen): Seen[] => Array.from({ length: count }, () => seen);

describe('what is new in the picture', () => {
  test('a tag is passed on once while it stays, even if single frames miss it', () => {
    const frames = [tag(ONE), NOTHING, tag(ONE), ...times(5, NOTHING), ...times(40, tag(ONE))];
    expect(told(frames)).toEqual([[0, tag(ONE)]]);
  });

  test('a tag that left the picture and came back is read again', () => {
    const frames = [...times(5, tag(ONE)), ...times(10, NOTHING), tag(ONE)];
    expect(told(frames)).toEqual([
      [0, tag(ONE)],
      [1500, tag(ONE)],
    ]);
  });

  test('another tag is read at once, and so is the first again after it', () => {
    expect(told([tag(ONE), tag(TWO), tag(ONE)]).map(([, seen]) => seen)).toEqual([
      tag(ONE),
      tag(TWO),
      tag(ONE),
    ]);
  });

  test('a time without looking does not make a tag new', () => {
    const watch = new Watch();
    expect(told([tag(ONE), NOTHING], watch)).toHaveLength(1);
    watch.pause();
    expect(told([NOTHING, tag(ONE)], watch, 9000)).toEqual([]);
  });

  test('damage is said only when it lasts, once, and never about a tag that was just read', () => {
    expect(told(times(15, DAMAGED))).toEqual([]);
    expect(told(times(60, DAMAGED))).toEqual([[1800, DAMAGED]]);
    expect(told([...times(10, DAMAGED), tag(ONE), ...times(10, DAMAGED)])).toEqual([
      [1000, tag(ONE)],
    ]);
  });

  test('damage with gaps in it is still damage; after a while without it, it starts anew', () => {
    const flickering = Array.from({ length: 40 }, (_, at) => (at % 3 ? NOTHING : DAMAGED));
    expect(told(flickering)).toHaveLength(1);
    expect(told([...times(12, DAMAGED), ...times(12, NOTHING), ...times(12, DAMAGED)])).toEqual([]);
  });
});
