import { describe, expect, test } from 'vitest';
import { section_metals } from '../../generated/materials.json';
import { readLength, type Unit } from '../../twins/lengths.ts';
import { type Fields, pieceOf, shopIn } from '../piece.ts';
import type { Measure } from '../wanted.ts';
import {
  NOTHING,
  type SectionWant,
  sectionAddress,
  sectionAskedIn,
  understandSection,
} from './asked.ts';
import { cutAsDrawn } from './cutting.ts';
import { searchSections } from './search.ts';
import { cutList, EMPTY_LINE, kinOf, letterOf, readLines, withoutMade } from './wants.ts';

const IN = 25_400_000;
const SAW = { kerf_nm: IN / 16, dress_off_nm: IN / 32, shortest_nm: 2 * IN };
const inch = (text: string): Measure => readLength(text, 'in') as Measure;

function angle(id: string, legs: [string, string], length: string, change: object = {}) {
  const fields = {
    alloy: '6061',
    temper: 'T6',
    clad: 'unknown',
    form: 'angle',
    section: { sides: legs.map(inch), hand: 'none' },
    thickness: inch('.063'),
    measured: 'bare',
    known_by: 'mill marking',
    shape: { kind: 'length', length: inch(length), square_ends: 1 },
    grain: 'unknown',
    ...change,
  };
  return pieceOf(id, fields as unknown as Fields);
}
const ask = (change: object = {}, unit: Unit = 'in') =>
  understandSection(
    { ...NOTHING, form: 'angle', first: '1', second: '1', wall: '.063', length: '6', ...change },
    unit,
  ).want;
const near = (piece: ReturnType<typeof angle>, change: object = {}): string => {
  const found = searchSections(ask(change), [piece], shopIn('in', 'angle'), SAW);
  expect(found.serves).toEqual([]);
  return found.near.flatMap(({ reasons }) => reasons.map(({ text }) => text)).join('; ');
};

describe('what serves', () => {
  test('says where to saw, what stays and what is spoiled', () => {
    const [first] = searchSections(
      ask(),
      [angle('a', ['1', '1'], '24')],
      shopIn('in', 'angle'),
      SAW,
    ).serves;
    expect(first?.reason).toBe(
      '6061-T6, angle 1 × 1 in, wall .063. Measure from the square end. Mark 6 1/32 in, saw beyond the mark, dress to 6 in. Leaves 17 29/32 in, spoils 3/32 in.',
    );
  });

  test('the shortest that gives it comes first', () => {
    const pieces = [
      angle('long', ['1', '1'], '72'),
      angle('short', ['1', '1'], '7'),
      angle('middle', ['1', '1'], '12'),
    ];
    const found = searchSections(ask(), pieces, shopIn('in', 'angle'), SAW);
    expect(found.serves.map(({ offcut }) => offcut.id)).toEqual(['short', 'middle', 'long']);
  });

  test('legs count whichever is said first, and a gauge as what is rolled as one', () => {
    const piece = angle('a', ['3/4', '1'], '24', { thickness: inch('1/16') });
    const found = searchSections(ask({ second: '3/4' }), [piece], shopIn('in', 'angle'), SAW);
    expect(found.serves).toHaveLength(1);
  });

  test('sheet and other forms are not looked at', () => {
    const channel = angle('c', ['1', '1'], '24', { form: 'channel' });
    expect(searchSections(ask(), [channel], shopIn('in', 'angle'), SAW)).toMatchObject({
      searched: 0,
      near: [],
    });
  });

  test('plain stock serves either hand; a worked end serves its own', () => {
    const left = angle('l', ['1', '1'], '24', {
      section: { sides: ['1', '1'].map(inch), hand: 'left' },
    });
    const shop = shopIn('in', 'angle');
    expect(searchSections(ask({ hand: 'left' }), [left], shop, SAW).serves).toHaveLength(1);
    expect(near(left, { hand: 'right' })).toBe('left hand, wanted right hand');
  });
});

describe('why a near miss does not serve', () => {
  test('other legs', () => {
    expect(near(angle('a', ['3/4', '3/4'], '24'))).toBe('3/4 in legs, wanted 1 in');
    expect(near(angle('a', ['1', '3/4'], '24'))).toBe('1 × 3/4 in legs, wanted 1 in');
  });

  test('too short, and too short only because its ends have to be dressed', () => {
    expect(near(angle('a', ['1', '1'], '5 1/2'))).toBe('17/32 in too short');
    expect(near(angle('a', ['1', '1'], '6'))).toBe('1/32 in too short once its ends are dressed');
  });

  test('another wall', () => {
    expect(near(angle('a', ['1', '1'], '24', { thickness: inch('.125') }))).toBe(
      'thicker: .125, wanted .063',
    );
  });

  test('another metal, no mark seen, over film, reserved', () => {
    expect(near(angle('a', ['1', '1'], '24'), { metal: '2024-T4' })).toBe(
      '6061-T6, wanted 2024-T4',
    );
    expect(near(angle('a', ['1', '1'], '24', { known_by: 'unknown' }))).toContain('no mark seen');
    expect(near(angle('a', ['1', '1'], '24', { measured: 'over film' }))).toContain('over film');
    const reserved = { reserved: { text: 'rib 4', part: null } };
    expect(near(angle('a', ['1', '1'], '24', reserved))).toBe('reserved for rib 4');
  });

  test('metal of unknown origin is never offered for structure, and may be for other use', () => {
    const piece = angle('a', ['1', '1'], '24', { alloy: null, temper: null, known_by: 'unknown' });
    expect(near(piece)).toContain('metal unknown: never for structure');
    const found = searchSections(ask({ structure: false }), [piece], shopIn('in', 'angle'), SAW);
    expect(found.serves).toHaveLength(1);
  });

  test('a listed metal of sheet is not one of section stock', () => {
    const piece = angle('a', ['1', '1'], '24', { alloy: '3003', temper: 'H14' });
    expect(near(piece)).toContain('not a listed metal');
    expect(section_metals.length).toBeGreaterThan(5);
  });

  test('far too short, or another section altogether, is not near', () => {
    const pieces = [angle('a', ['1', '1'], '4'), angle('b', ['2', '2'], '24')];
    const found = searchSections(ask(), pieces, shopIn('in', 'angle'), SAW);
    expect(found).toMatchObject({ serves: [], near: [], searched: 2 });
  });

  test('what has no section told has to be measured', () => {
    const piece = angle('a', ['1', '1'], '24', { section: undefined });
    expect(near(piece)).toContain('measure it');
  });
});

describe('what is asked', () => {
  test('comes back from its address', () => {
    const asked = {
      ...NOTHING,
      form: 'tube',
      square: true,
      first: '1',
      metal: '6061-T6',
      hand: 'left',
    };
    const address = sectionAddress(asked as Parameters<typeof sectionAddress>[0]);
    expect(sectionAskedIn(address.slice('/offcuts'.length))).toEqual(asked);
    expect(sectionAskedIn('?metal=2024-T3')).toBeNull();
  });

  test('what cannot be is said beside it', () => {
    const problems = (change: object) =>
      understandSection({ ...NOTHING, form: 'angle', ...change }, 'in').problems;
    expect(problems({ first: '1' })).toEqual({ second: 'Give this too: other leg.' });
    expect(problems({ length: 'x' }).length).toContain('cannot be read');
    expect(problems({ form: 'tube', first: '1/8', wall: '.063' }).wall).toContain('fills the tube');
  });
});

describe('the lines of a cut list', () => {
  test('become pieces with letters', () => {
    const lines = [
      { length: '6', count: '2', name: 'clip' },
      { length: '', count: '1', name: '' },
      { length: '100 mm', count: '1', name: '' },
    ];
    const { pieces, problems } = readLines(lines, 'in');
    expect(pieces.map(({ letter, length }) => [letter, length])).toEqual([
      ['A', 6 * IN],
      ['A', 6 * IN],
      ['C', 100_000_000],
    ]);
    expect(problems).toEqual([{}, {}, {}]);
    expect(letterOf(27)).toBe('AB');
  });

  test('what is wrong is said on its line', () => {
    const wrong = (length: string, count: string) =>
      readLines([{ length, count, name: '' }], 'in').problems[0];
    expect(wrong('x', '1')?.length).toContain('cannot be read');
    expect(wrong('6', '0')?.count).toContain('how many');
    expect(wrong('6', '101')?.count).toContain('100 pieces at most');
    expect(wrong('6', '1.5')?.count).toContain('how many');
  });

  test('lengths of one section are one choice, and the list says what cannot be had', () => {
    const pieces = [
      angle('a', ['1', '3/4'], '24'),
      angle('b', ['3/4', '1'], '7'),
      angle('c', ['1', '1'], '9'),
    ];
    const kin = kinOf(pieces, 'in');
    expect(kin.map(({ words, together }) => [words, together])).toEqual([
      ['6061-T6 angle 1 × 1 × .063 in', 'One length, 9 in.'],
      ['6061-T6 angle 1 × 3/4 × .063 in', '2 lengths, 31 in together.'],
    ]);
    const want = kin[1]?.want as SectionWant;
    const found = searchSections(want, pieces, shopIn('in', 'angle'), SAW);
    expect(found.serves).toHaveLength(2);
    const lines = [
      { length: '6', count: '1', name: 'clip' },
      { length: '30', count: '1', name: 'spar' },
    ];
    const list = cutList(found.serves, readLines(lines, 'in').pieces, SAW, 'in');
    expect(list.from.map(({ offcut }) => offcut.id)).toEqual(['b']);
    expect(list.whole.map(({ id }) => id)).toEqual(['a']);
    expect(list.unmet[0]?.why).toBe('6 1/32 in longer than the longest length gives');
    expect(withoutMade(lines, list.from[0]?.pieces ?? [])).toEqual([
      { length: '30', count: '1', name: 'spar' },
    ]);
    expect(withoutMade(lines.slice(0, 1), list.from[0]?.pieces ?? [])).toEqual([EMPTY_LINE]);
  });
});

test('what is recorded of a cut accounts for every nanometre of the length', () => {
  for (const long of ['6', '6 1/8', '6 3/32', '7', '12', '24', '24 1/3']) {
    for (const square_ends of [0, 1, 2]) {
      const shape = { kind: 'length', length: inch(long), square_ends };
      const piece = { ...angle('a', ['1', '3/4'], long, { shape }), place: 'rack' };
      const stock = piece.section;
      if (!stock) throw new Error('it is section stock');
      const { pieces } = readLines([{ length: '2 3/4', count: '2', name: 'clip' }], 'in');
      const [one] = cutList([{ offcut: piece, stock }], pieces, SAW, 'in').from;
      if (!one) throw new Error(`two pieces come out of ${long}`);
      const fields = { alloy: '6061', form: 'angle', thickness: inch('.063') };
      const [cut, added] = cutAsDrawn(one, fields as Fields, SAW, 'in', 'new');
      const body = cut?.body as unknown as {
        made: { length: number }[];
        dust_nm: number;
        recycled_nm: number;
        remnants: string[];
      };
      const run = added?.body.shape as { length: Measure } | undefined;
      const made = body.made.reduce((sum, { length }) => sum + length, 0);
      const all = made + body.dust_nm + body.recycled_nm + (run?.length.nm ?? 0);
      expect(all, `${long} ${square_ends}`).toBe(inch(long).nm);
      expect(body.remnants).toEqual(run ? ['new'] : []);
      if (added) expect(added.body).toMatchObject({ parent: 'a', alloy: '6061', form: 'angle' });
    }
  }
});
