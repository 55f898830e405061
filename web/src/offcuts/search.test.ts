import { describe, expect, test } from 'vitest';
import { gauges } from '../generated/gauges.json';
import { metals, never_for_structure } from '../generated/materials.json';
import { search } from './search';
import type { Offcut, Shop, Want } from './wanted';

const IN = 25_400_000;
const MIL = 25_400;
const MM = 1_000_000;

const shop: Shop = { unit: 'in', gauges, metals, never_for_structure };
const metric: Shop = { ...shop, unit: 'mm' };

/** A marked 12 x 6 in piece of 2024-T3 clad, .032, grain along the 12 in side. */
function piece(change: Partial<Offcut> = {}): Offcut {
  return {
    id: 'p1',
    name: 'wing skin leftover',
    codes: ['0123456789'],
    place: null,
    alloy: '2024',
    temper: 'T3',
    clad: 'clad',
    form: 'sheet',
    thickness: { nm: 32 * MIL, text: '.032' },
    measured: 'bare',
    known_by: 'mill marking',
    shape: rectangle(12 * IN, 6 * IN),
    grain: 'a',
    reserved: null,
    measure_again: false,
    retired: null,
    ...change,
  };
}

function rectangle(a: number, b: number): Offcut['shape'] {
  return { kind: 'rectangle', a: { nm: a, text: '' }, b: { nm: b, text: '' } };
}

function wanted(change: Partial<Want> = {}): Want {
  return {
    alloy: '2024',
    temper: 'T3',
    cladding: 'any',
    thickness: { kind: 'gauge', nm: 32 * MIL },
    width_nm: 4 * IN,
    height_nm: 3 * IN,
    grain: 'any',
    clearance_nm: 0,
    structure: true,
    ...change,
  };
}

function reasons(offcut: Offcut, want: Want = wanted(), inShop: Shop = shop): string[] {
  const found = search(want, [offcut], inShop);
  expect(found.serves).toEqual([]);
  expect(found.near.length).toBe(1);
  return found.near[0]?.reasons.map((each) => each.text) ?? [];
}

function serves(offcut: Offcut, want: Want = wanted(), inShop: Shop = shop) {
  const found = search(want, [offcut], inShop);
  expect(found.near).toEqual([]);
  expect(found.serves.length).toBe(1);
  return found.serves[0];
}

describe('what serves', () => {
  test('says what it is, where to cut, what stays and what is spoiled', () => {
    expect(serves(piece())?.reason).toBe(
      '2024-T3 clad, .032. In a corner, 3 in along the 12 in side and 4 in along the 6 in side. Leaves 9 in × 6 in, spoils 6 sq in.',
    );
    expect(serves(piece(), wanted({ grain: 'along width', clearance_nm: IN / 16 }))?.reason).toBe(
      '2024-T3 clad, .032. In a corner, 4 in along the 12 in side and 3 in along the 6 in side, 1/16 in in from the edges, grain along its width. Leaves 7 7/8 in × 6 in, spoils 13 sq in.',
    );
  });
  test('speaks millimetres in a metric workshop', () => {
    const sheet = piece({
      shape: rectangle(300 * MM, 150 * MM),
      thickness: { nm: 800_000, text: '' },
    });
    const want = wanted({ width_nm: 100 * MM, height_nm: 150 * MM });
    expect(serves(sheet, want, metric)?.reason).toBe(
      '2024-T3 clad, 0.8 mm. In a corner, 100 mm along the 300 mm side and 150 mm along the 150 mm side. Leaves 200 mm × 150 mm, spoils nothing.',
    );
  });
  test('askew only where the grain does not matter', () => {
    const long = { width_nm: 20 * IN, height_nm: 1 * IN };
    const sheet = piece({ shape: rectangle(19 * IN, 16 * IN) });
    expect(serves(sheet, wanted(long))?.reason).toMatch(
      /Fits askew only: its 20 in side turned \d\d\.\d° from the 19 in side\. Leaves 19 in × 3 1\/2 in, spoils/,
    );
    expect(reasons(sheet, wanted({ ...long, grain: 'along width' }))).toEqual([
      '1 in too short along the grain',
    ]);
  });
  test('comes in the order of what is spoiled, then the smaller offcut', () => {
    const offcuts = [
      piece({ id: 'large', shape: rectangle(48 * IN, 24 * IN) }),
      piece({ id: 'strip', shape: rectangle(30 * IN, 3 * IN) }),
      piece({ id: 'exact', shape: rectangle(4 * IN, 3 * IN) }),
      piece({ id: 'tight', shape: rectangle(4.5 * IN, 3.5 * IN) }),
    ];
    const found = search(wanted(), offcuts, shop);
    expect(found.serves.map((each) => each.offcut.id)).toEqual([
      'exact',
      'strip',
      'tight',
      'large',
    ]);
    const spoiled = found.serves.map((each) => each.placement.spoiled);
    expect(spoiled).toEqual([...spoiled].sort((one, other) => one - other));
  });
  test('takes the grain from the side it runs along', () => {
    const sheet = { shape: rectangle(5 * IN, 4 * IN) };
    const long = { width_nm: 5 * IN, height_nm: 4 * IN };
    const [alongWidth, alongHeight] = (['along width', 'along height'] as const).map((grain) =>
      wanted({ ...long, grain }),
    );
    expect(serves(piece({ ...sheet, grain: 'a' }), alongWidth)?.placement.tenths).toBe(0);
    expect(reasons(piece({ ...sheet, grain: 'b' }), alongWidth)).toEqual([
      '1 in too short along the grain',
    ]);
    expect(serves(piece({ ...sheet, grain: 'b' }), alongHeight)?.placement.tenths).toBe(0);
    expect(reasons(piece({ ...sheet, grain: 'a' }), alongHeight)).toEqual([
      '1 in too short across the grain',
    ]);
  });
});

describe('T10: never offered for structure', () => {
  test('a sheet that reads .031 over film', () => {
    const over = piece({ thickness: { nm: 31 * MIL, text: '.031' }, measured: 'over film' });
    expect(reasons(over)).toEqual(['thickness over film, not confirmed']);
    expect(reasons(over, wanted({ thickness: { kind: 'gauge', nm: 25 * MIL } }))).toEqual([
      'thicker: .031 over film, wanted .025',
      'thickness over film, not confirmed',
    ]);
    expect(reasons(over, wanted({ thickness: { kind: 'any' } }))).toEqual([
      'thickness over film, not confirmed',
    ]);
  });
  test('the same sheet bare at .025 is offered as .025 only', () => {
    const bare = piece({ thickness: { nm: 25 * MIL, text: '.025' } });
    const found = gauges.filter((gauge) => {
      const want = wanted({ thickness: { kind: 'gauge', nm: gauge.nm } });
      return search(want, [bare], shop).serves.length > 0;
    });
    expect(found.map((gauge) => gauge.text)).toEqual(['.025 in']);
    expect(reasons(bare)).toEqual(['thinner: .025, wanted .032']);
  });
  test('a sheet of unknown grain where grain matters', () => {
    const unknown = piece({ grain: 'unknown' });
    expect(reasons(unknown, wanted({ grain: 'along width' }))).toEqual(['grain unknown']);
    expect(serves(unknown, wanted({ grain: 'any' }))).toBeTruthy();
  });
  test('a sheet with no mark seen', () => {
    const unmarked = piece({ known_by: 'unknown' });
    expect(reasons(unmarked)).toEqual(['no mark seen: never for structure']);
    expect(serves(unmarked, wanted({ structure: false }))).toBeTruthy();
  });
  test('unknown or unlisted metal, each with its reason once', () => {
    const any = wanted({ alloy: null, temper: null });
    for (const alloy of [null, 'unknown']) {
      expect(reasons(piece({ alloy }))).toEqual(['metal unknown: never for structure']);
      expect(reasons(piece({ alloy, temper: null }), any)).toEqual([
        'metal unknown: never for structure',
      ]);
    }
    expect(reasons(piece({ temper: null }))).toEqual(['temper unknown: never for structure']);
    expect(reasons(piece({ alloy: '9999' }), any)).toEqual([
      'not a listed metal: never for structure',
    ]);
  });
  test('not for structure it is offered, and the doubt is said', () => {
    const over = piece({ measured: 'over film' });
    expect(serves(over, wanted({ structure: false }))?.cautions).toEqual([
      'thickness over film, not confirmed: measure it bare',
    ]);
  });
});

describe('each near miss says why', () => {
  test.each([
    ['another alloy', { alloy: '6061', temper: 'T6', clad: 'bare' }, '6061-T6, wanted 2024-T3'],
    ['another temper', { temper: 'O' }, '2024-O, wanted 2024-T3'],
    ['thicker', { thickness: { nm: 40 * MIL, text: '' } }, 'thicker: .040, wanted .032'],
    [
      'reserved',
      { reserved: { for: 'x', text: 'left flap doubler' } },
      'reserved for left flap doubler',
    ],
    ['changed', { measure_again: true }, 'changed since it was measured: measure again'],
    ['no shape', { shape: { kind: 'unsaid' } }, 'its shape is not known: look whether it fits'],
    ['no size', { shape: rectangle(0, 6 * IN) }, 'changed since it was measured: measure again'],
    ['narrow', { shape: rectangle(12 * IN, 2.875 * IN) }, '1/8 in too narrow'],
    ['short', { shape: rectangle(3.5 * IN, 3 * IN) }, '1/2 in too short'],
    ['both', { shape: rectangle(3.5 * IN, 2.5 * IN) }, '1/2 in too short and 1/2 in too narrow'],
  ] as [string, Partial<Offcut>, string][])('%s', (_, change, text) => {
    expect(reasons(piece(change))).toEqual([text]);
  });
  test('in millimetres, and never shorter than it is', () => {
    const want = wanted({ width_nm: 103 * MM, height_nm: 50 * MM, grain: 'along width' });
    const sheet = (a: number, b: number) => piece({ shape: rectangle(a, b) });
    expect(reasons(sheet(100 * MM, 80 * MM), want, metric)).toEqual([
      '3 mm too short along the grain',
    ]);
    expect(reasons(sheet(103 * MM, 50 * MM - 1), want, metric)).toEqual([
      '0.1 mm too short across the grain',
    ]);
    expect(reasons(sheet(102_900_001, 48 * MM), want, metric)).toEqual([
      '0.1 mm too short along the grain and 2 mm across it',
    ]);
    const thick = piece({ thickness: { nm: 1_000_000, text: '' } });
    expect(
      reasons(thick, wanted({ thickness: { kind: 'at least', nm: 1_200_000 } }), metric),
    ).toEqual(['thinner: 1.0 mm, wanted at least 1.2 mm']);
  });
  test('cladding', () => {
    expect(reasons(piece({ clad: 'bare' }), wanted({ cladding: 'clad' }))).toEqual([
      'bare, wanted clad',
    ]);
    expect(reasons(piece({ clad: 'unknown' }), wanted({ cladding: 'clad' }))).toEqual([
      'clad or bare not known',
    ]);
    const other = piece({ alloy: '6061', temper: 'T6', clad: 'bare' });
    expect(reasons(other, wanted({ cladding: 'clad' }))).toEqual(['6061-T6, wanted 2024-T3']);
  });
  test('thickness at least and in a range', () => {
    const range = { kind: 'range', from_nm: 20 * MIL, to_nm: 25 * MIL } as const;
    expect(reasons(piece(), wanted({ thickness: range }))).toEqual([
      'thicker: .032, wanted .020 to .025',
    ]);
    expect(serves(piece(), wanted({ thickness: { kind: 'at least', nm: 25 * MIL } }))).toBeTruthy();
  });
  test('.063 serves where .064 is wanted, and it says that it is thinner', () => {
    const sheet = piece({ thickness: { nm: 63 * MIL, text: '' } });
    for (const kind of ['gauge', 'at least'] as const) {
      expect(serves(sheet, wanted({ thickness: { kind, nm: 64 * MIL } }))?.cautions).toEqual([
        'a little thinner: .063, wanted .064, within what is rolled as one thickness',
      ]);
    }
  });
  test('what is reserved for this piece may be cut', () => {
    const mine = piece({ reserved: { for: 'x', text: 'left flap doubler' } });
    expect(serves(mine, wanted({ wanted_for: 'x' }))).toBeTruthy();
    expect(reasons(mine, wanted({ wanted_for: 'y' }))).toEqual(['reserved for left flap doubler']);
    expect(reasons(piece({ reserved: { for: null, text: 'later' } }))).toEqual([
      'reserved for later',
    ]);
  });
  test('two differences only where nothing nearer was found', () => {
    const far = piece({
      id: 'far',
      alloy: '6061',
      temper: 'T6',
      thickness: { nm: 40 * MIL, text: '' },
    });
    expect(reasons(far)).toEqual(['6061-T6, wanted 2024-T3', 'thicker: .040, wanted .032']);
    const near = search(wanted(), [far, piece({ reserved: { for: null, text: 'x' } })], shop).near;
    expect(near.map((each) => each.offcut.id)).toEqual(['p1']);
  });
  test('what is only not confirmed comes before another size, metal last', () => {
    const offcuts = [
      piece({ id: 'metal', alloy: '6061', temper: 'T6' }),
      piece({ id: 'size', shape: rectangle(3.5 * IN, 3 * IN) }),
      piece({ id: 'mark', known_by: 'unknown' }),
    ];
    expect(search(wanted(), offcuts, shop).near.map((each) => each.offcut.id)).toEqual([
      'mark',
      'size',
      'metal',
    ]);
  });
  test('retired pieces, other forms and pieces far too small are not named', () => {
    const offcuts = [
      piece({ retired: { why: 'scrapped' } }),
      piece({ form: 'angle' }),
      piece({ shape: rectangle(IN, IN) }),
    ];
    expect(search(wanted(), offcuts, shop)).toEqual({
      serves: [],
      near: [],
      more_serve: 0,
      more_near: 0,
      searched: 1,
    });
  });
});
