import { describe, expect, test } from 'vitest';
import { isUnreckoned, reckon, type Sum } from '../twins/reckon.ts';
import { RULES, sumNamed } from './book.ts';
import { drawingsOf, type Shown } from './drawn.ts';
import { addedTo } from './joints.ts';

function draw(name: string, inputs: Record<string, string>): Shown[] {
  const found = reckon(RULES, name, inputs, 'in');
  if (isUnreckoned(found)) throw new Error(found.sentence);
  return drawingsOf(RULES, sumNamed(name) as Sum, found, inputs, 'in');
}
const one = <Is extends Shown['is']>(shown: Shown[], is: Is) => {
  const found = shown.find((each) => each.is === is);
  if (!found) throw new Error(`no ${is} among ${shown.map((each) => each.is)}`);
  return found.props as Extract<Shown, { is: Is }>['props'];
};

const inch = (inches: number): number => Math.round(inches * 25_400_000);

describe('a joint', () => {
  test('shows its sheets, what stands out, the nominal shop head and the finished hole', () => {
    const joint = one(draw('rivet', { stack: '.032,.040', diameter: '1/8' }), 'stack');
    expect(joint.layers).toEqual([
      { thickness: 812800, treat: 'plain' },
      { thickness: 1016000, treat: 'plain' },
    ]);
    expect(joint.rivet).toMatchObject({ diameter: 3175000, head: { shape: 'universal' } });
    expect(joint.out).toBe(6350000 - 1828800);
    expect(joint.driven).toEqual({ across: 4762500, high: 1587500 });
    expect(joint.hole).toBe(3263900);
    expect(joint.was).toBeUndefined();
  });
  test('with a sheet added shows which, and the stack as it was', () => {
    const typed = { stack: '.032,.032,.040', was: '.032,.040', diameter: '1/8' };
    const joint = one(draw('rivet', typed), 'stack');
    expect(joint.layers.map(({ added }) => added ?? false)).toEqual([false, true, false]);
    expect(joint.was?.layers.map(({ thickness }) => thickness)).toEqual([812800, 1016000]);
    expect(joint.was?.out).toBe(6350000 - 1828800);
  });
  test('under a flush head is dimpled until a sheet can be countersunk', () => {
    const typed = { stack: '.032,.063,.040', diameter: '3/32', head: 'flush' };
    const { layers } = one(draw('rivet', typed), 'stack');
    expect(layers.map(({ treat }) => treat)).toEqual(['dimple', 'countersink', 'plain']);
  });
  test('that fails to be countersunk is drawn as it would be', () => {
    const { layers } = one(
      draw('flush', { thickness: '.040', diameter: '3/32', under: '.032' }),
      'stack',
    );
    expect(layers).toEqual([
      { thickness: 812800, treat: 'dimple' },
      { thickness: 1016000, treat: 'countersink' },
    ]);
  });
  test('that is not covered has no drawing', () => {
    expect(draw('rivet', { stack: '.032,.040', diameter: '1/8', kind: 'pulled' })).toEqual([]);
  });
  test('takes each sheet of the stack before only once', () => {
    expect(addedTo([1, 1, 2], [1, 2])).toEqual([false, true, false]);
    expect(addedTo([1, 2], [])).toEqual([false, false]);
  });
});

describe('a piece from above', () => {
  test('an edge distance that is too small is named as failing', () => {
    const piece = one(draw('edge', { edge: '3/16', diameter: '1/8' }), 'layout');
    expect(piece).toMatchObject({ open: true, length: null, width: null });
    expect(piece.rows[0]?.across).toBe(4762500);
    expect(piece.short).toEqual({ side: 1587500 });
  });
  test('an edge distance that is enough is not', () => {
    const piece = one(draw('edge', { edge: '3/8', diameter: '1/8' }), 'layout');
    expect(piece.short).toEqual({});
  });
  test('two rows lie where the sum puts them, and end as far from the end as they begin', () => {
    const piece = one(
      draw('layout', { diameter: '1/8', length: '10', rows: '2', width: '1.25' }),
      'layout',
    );
    expect(piece.rows.length).toBe(2);
    for (const { start, pitch, count } of piece.rows)
      expect(Math.abs((piece.length ?? 0) - 2 * start - (count - 1) * pitch)).toBeLessThan(1000);
    const [near, far] = piece.rows.map(({ across }) => across);
    expect((near ?? 0) + (far ?? 0)).toBe(piece.width);
  });
  test('a patch has its rows before and behind the hole, alike from both ends', () => {
    const typed = { along: '1 1/2', across: '2', thickness: '.032', alloy: '2024-T3' };
    const { rows, width, length } = one(draw('patch', { ...typed, diameter: '1/8' }), 'layout');
    expect(rows.length).toBe(4);
    const across = rows.map((row) => row.across);
    expect(across.map((nm) => (width ?? 0) - nm).reverse()).toEqual(across);
    for (const { start, pitch, count } of rows)
      expect(2 * start + (count - 1) * pitch).toBe(length);
    // Table 4-9, 75 % of 6.2 x 4, 18.6: 19 on each side, in rows of seven; five beside the hole
    const wide = one(draw('patch', { ...typed, across: '4', diameter: '1/8' }), 'layout');
    expect(wide.rows.map(({ count }) => count)).toEqual([7, 7, 5, 5, 7, 7]);
  });
  test('a stiffener has its row on the first leg, beside the bend', () => {
    // R .16 of the handbook's channel: the first flat is .80, the row 5/16 from its edge
    const typed = {
      legs: '1,2,1',
      length: '12',
      thickness: '.040',
      alloy: '2024-T3',
      radius: '.16',
    };
    const shown = draw('stiffener', { ...typed, stack: '.032', diameter: '1/8' });
    const { rows, length, bend } = one(shown, 'layout');
    expect(rows).toEqual([{ across: inch(5 / 16), start: inch(0.5), pitch: inch(0.5), count: 23 }]);
    expect([length, bend]).toEqual([inch(12), inch(0.939536)]);
    expect(shown.map(({ is }) => is)).toEqual(['stack', 'flat', 'layout']);
  });
  test('a splice has the rows of one side, leg by leg, and runs on to the joint', () => {
    // AC 43.13-1B, Figure 4-20: three in the flange, eight in the web, there in three rows
    const typed = { legs: '.6,2.0', thickness: '.040', alloy: '2017-T3', radius: '1/8' };
    const use = { use: 'intermediate-frame', diameter: '1/8' };
    const { rows, length } = one(draw('section-splice', { ...typed, ...use }), 'layout');
    expect(length).toBeNull();
    expect(rows.map(({ count }) => count)).toEqual([3, 3, 3, 2]);
    expect(rows[0]?.across).toBe(inch(0.255));
    expect((rows[3]?.across ?? 0) - (rows[2]?.across ?? 0)).toBe(inch(3 / 8));
  });
  test('a shim that is too narrow is drawn with what it lacks at each side', () => {
    const typed = { gap: '.032', length: '6', width: '3/8', alloy: '2024-T3' };
    const shown = draw('shim', { ...typed, stack: '.032,.040', diameter: '1/8' });
    const { short, rows, width } = one(shown, 'layout');
    expect(short?.side).toBe(1587500);
    expect(rows[0]?.across).toBe((width ?? 0) / 2);
    expect(one(shown, 'stack').layers.map(({ added }) => added ?? false)).toEqual([
      false,
      true,
      false,
    ]);
  });
});

describe('a flat', () => {
  const typed = { thickness: '.040', radius: '1/8', legs: '1,2,1' };
  test('has a line for every bend, one angle standing for all', () => {
    const flat = one(draw('flat', typed), 'flat');
    expect(flat.legs).toEqual([25_400_000, 50_800_000, 25_400_000]);
    expect(flat.bends.map(({ angle }) => angle)).toEqual([90, 90]);
    for (const { start, sight, line, end } of flat.bends) {
      expect(start).toBeLessThan(line ?? 0);
      expect(line).toBeLessThan(end);
      expect(sight).toBeGreaterThan(start);
    }
    expect(flat.developed).toBeGreaterThan(flat.bends[1]?.end ?? Infinity);
  });
  test('has an angle of its own for every bend where those are given', () => {
    const flat = one(draw('flat', { ...typed, angles: '45,135' }), 'flat');
    expect(flat.bends.map(({ angle }) => angle)).toEqual([45, 135]);
  });
});

test('holes lie in one another, the rivet among them', () => {
  const { rings } = one(draw('hole', { diameter: '3/32' }), 'hole');
  expect(rings.map(({ words }) => words)).toEqual([
    'dimpled, past',
    'finish #40',
    'rivet',
    'pilot #48',
  ]);
  const [dimpled, finish, rivet, pilot] = rings.map(({ diameter }) => diameter);
  expect([dimpled, finish, rivet, pilot].map(Number)).toEqual(
    [dimpled, finish, rivet, pilot].map(Number).sort((a, b) => b - a),
  );
});

describe('the flat of a bent piece', () => {
  const sheet = { thickness: '.040', alloy: '2024-T3', clad: 'yes', diameter: '1/8' };
  test('is drawn with its bend and sight lines', () => {
    const typed = { ...sheet, legs: '1,2,1', length: '12', stack: '.032', radius: '.16' };
    const flat = one(draw('stiffener', { ...typed, head: 'protruding' }), 'flat');
    expect(flat.legs).toEqual([25400000, 50800000, 25400000]);
    expect(flat.bends.map(({ angle, radius }) => [angle, radius])).toEqual([
      [90, 4064000],
      [90, 4064000],
    ]);
    // 3.758 in wide; the sight line one radius in
    expect(Math.round(flat.developed / 25400)).toBe(3758);
    expect(flat.bends[0]).toMatchObject({ start: 20320000, sight: 24384000 });
  });
  test('of a splice has the legs that go inside the section', () => {
    const flat = one(draw('section-splice', { ...sheet, legs: '1,1.5' }), 'flat');
    expect(flat.legs).toEqual([24384000, 37084000]);
    expect(flat.thickness).toBe(1270000);
  });
  test('is not drawn for a bar, which has no bend: only its rows are', () => {
    expect(draw('section-splice', { ...sheet, legs: '2' }).map(({ is }) => is)).toEqual(['layout']);
  });
});
