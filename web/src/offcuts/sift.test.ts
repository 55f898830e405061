import { expect, test } from 'vitest';
import vectors from '../../../tests/vectors/curve.json';
import { gauges } from '../generated/gauges.json';
import { metals, never_for_structure } from '../generated/materials.json';
import { type Curve, curveFrom } from '../twins/curve';
import { judge, makeReady } from './misses';
import { largestArea, layOdd } from './odd';
import { search } from './search';
import type { Offcut, Outline, Shop, Want } from './wanted';

const MM = 1_000_000;
const shop: Shop = { unit: 'mm', gauges, metals, never_for_structure };
const curves = (vectors as { curve: unknown }[]).map(({ curve }) => {
  const made = curveFrom(curve) as Curve;
  // metal enough for what the made-up curve claims
  return { ...made, area_um2: Math.ceil(largestArea(made) * 1.2) };
});

let state = 4_711;
function draw(below: number): number {
  state = (state * 48_271) % 2_147_483_647;
  return state % below;
}
function pick<T>(from: readonly T[]): T {
  return from[draw(from.length)] as T;
}

const outline = (a: number, b: number): Outline => ({
  kind: 'outline',
  outer: [
    [0, 0],
    [a, 0],
    [0, b],
  ],
  holes: [],
});
const length = (mm: number) => ({ nm: mm * MM, text: '' });

function anyOffcut(id: number): Offcut {
  const metal = pick(metals.slice(0, 3));
  const [a, b] = [20 + draw(900), 20 + draw(600)];
  const shape = pick([
    { kind: 'rectangle', a: length(a), b: length(b) },
    outline(a * MM, b * MM),
    outline(a * MM, b * MM),
    pick([{ kind: 'unsaid' }, { kind: 'rectangle', a: length(0), b: length(b) }] as const),
  ] as const);
  const measured = pick([pick(curves), pick(curves), { why: 'Side 1 crosses side 3.' }, undefined]);
  return {
    id: `${id}`,
    name: `piece ${id}`,
    codes: [],
    place: null,
    alloy: metal.alloy,
    temper: metal.temper,
    clad: pick(['clad', 'bare', 'unknown']),
    form: pick(['sheet', 'sheet', 'sheet', 'angle']),
    thickness: { nm: pick(gauges.slice(0, 4)).nm, text: '' },
    measured: pick(['bare', 'bare', 'over film']),
    known_by: pick(['mill marking', 'mill marking', 'unknown']),
    shape: shape as Offcut['shape'],
    grain: pick(['a', 'b', 'unknown']),
    reserved: draw(8) === 0 ? { for: pick([null, 'part']), text: 'something' } : null,
    measure_again: draw(12) === 0,
    retired: draw(12) === 0 ? { why: 'scrapped' } : null,
    measured_as: shape.kind === 'outline' ? measured : undefined,
  };
}

function anyWant(): Want {
  const metal = pick(metals.slice(0, 3));
  return {
    alloy: pick([metal.alloy, null]),
    temper: pick([metal.temper, null]),
    cladding: pick(['clad', 'bare', 'any', 'any']),
    thickness: pick([
      { kind: 'any' },
      { kind: 'gauge', nm: pick(gauges.slice(0, 4)).nm },
      { kind: 'at least', nm: pick(gauges.slice(0, 4)).nm },
    ] as const),
    width_nm: (1 + draw(600)) * MM,
    height_nm: (1 + draw(300)) * MM,
    grain: pick(['any', 'along width', 'along height']),
    clearance_nm: pick([0, 2 * MM]),
    structure: draw(2) === 0,
    wanted_for: pick([null, 'part']),
  };
}

/** The same answer by judging every piece by itself and putting all of them in order. */
function plainly(want: Want, offcuts: Offcut[], most: number): [string, number][] {
  const question = makeReady(want, shop);
  const sheets = offcuts.filter((one) => !one.retired && one.form === 'sheet');
  return sheets.flatMap((offcut): [string, number][] => {
    const judged = judge(offcut, question, most);
    if (!judged) return [];
    if (judged.misses.length) {
      return [[`near ${offcut.id}`, judged.misses.reduce((far, miss) => far + miss.far, 0)]];
    }
    const placement = judged.odd
      ? layOdd(offcut.measured_as as Curve, judged.odd)
      : judged.placement;
    return [[`serves ${offcut.id}`, placement?.spoiled ?? -1]];
  });
}

test('a first look by numbers changes nothing: as if every piece was judged by itself', () => {
  let [served, near] = [0, 0];
  for (let n = 0; n < 60; n += 1) {
    const offcuts = Array.from({ length: 250 }, (_, id) => anyOffcut(id));
    for (let m = 0; m < 6; m += 1) {
      const want = anyWant();
      const all = search(want, offcuts, shop, offcuts.length);
      const said = [
        ...all.serves.map(({ offcut }) => `serves ${offcut.id}`),
        ...all.near.map(({ offcut }) => `near ${offcut.id}`),
      ];
      const once = plainly(want, offcuts, 1);
      const other = once.length ? once : plainly(want, offcuts, 2);
      const plain = other.filter(([what]) => once.length || what.startsWith('near'));
      expect(said.sort(), JSON.stringify(want)).toEqual(plain.map(([what]) => what).sort());
      served += all.serves.length;
      near += all.near.length;
      // the first few are the first few of all, and the rest is counted
      const few = search(want, offcuts, shop, 5);
      expect(few.serves.map(({ offcut }) => offcut.id)).toEqual(
        all.serves.slice(0, 5).map(({ offcut }) => offcut.id),
      );
      expect(few.near.map(({ offcut }) => offcut.id)).toEqual(
        all.near.slice(0, 5).map(({ offcut }) => offcut.id),
      );
      expect(few.more_serve).toBe(Math.max(all.serves.length - 5, 0));
      expect(few.more_near).toBe(Math.max(all.near.length - 5, 0));
      const spoiled = all.serves.map(({ placement }) => placement.spoiled);
      expect(spoiled).toEqual([...spoiled].sort((one, two) => one - two));
    }
  }
  expect(served).toBeGreaterThan(1000);
  expect(near).toBeGreaterThan(1000);
});
