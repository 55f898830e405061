// Which offcuts serve, the one that spoils least first, and why each near miss does not. Runs on
// the phone over every offcut, without a network: 5,000 take a few milliseconds.

import type { Curve } from '../twins/curve';
import { isSide, type Placement } from '../twins/fit';
import { cautionsFor, judge, makeReady, type Question } from './misses';
import { type Asked, layOdd, type OddPlacement, spoilsAtLeast } from './odd';
import type { Found, Miss, NearMiss, Offcut, Serves, Shop, Want } from './wanted';
import { cautionText, missText, servesText } from './words';

/** How many are listed of each; the rest is counted. */
export const LISTED = 40;

/** `spoils` is at least what it spoils, and exactly that once its placement is worked out. */
type Serving = {
  offcut: Offcut;
  placement: Placement | OddPlacement | null;
  odd: Asked | null;
  spoils: number;
};
type Missing = { offcut: Offcut; misses: readonly Miss[]; far: number };

/**
 * Search `offcuts` for `want`. Retired pieces and other forms than sheet are left out of both lists.
 * A near miss is another metal, thickness or size in one respect at most, or in two where nothing
 * else was found; what is not confirmed or not free may come on top. `listed` bounds each list.
 * Throws RangeError for a blank that is not between 1 nm and 10 m.
 */
export function search(
  want: Want,
  offcuts: readonly Offcut[],
  shop: Shop,
  listed: number = LISTED,
): Found {
  if (!isSide(want.width_nm) || !isSide(want.height_nm) || !(want.clearance_nm >= 0)) {
    throw new RangeError('a blank is more than zero and at most 10 m each way');
  }
  const question = makeReady(want, shop);
  const sheets = offcuts.filter((offcut) => !offcut.retired && offcut.form === 'sheet');
  const { serving, missing } = passOver(sheets, question, 1);
  if (serving.length + missing.length === 0) {
    missing.push(...passOver(sheets, question, 2).missing);
  }
  const best = leastSpoiled(serving, listed);
  missing.sort((one, other) => one.far - other.far || bySize(one.offcut, other.offcut));
  return {
    serves: best.map((each) => toServes(each, question, shop)),
    near: missing.slice(0, listed).map((each) => toNearMiss(each, question, shop)),
    more_serve: Math.max(serving.length - listed, 0),
    more_near: Math.max(missing.length - listed, 0),
    searched: sheets.length,
  };
}

/** One pass; pieces that are another one in more than `most` respects are passed over. */
function passOver(sheets: readonly Offcut[], question: Question, most: number) {
  const serving: Serving[] = [];
  const missing: Missing[] = [];
  for (const offcut of sheets) {
    const judged = judge(offcut, question, most);
    if (judged === null) continue;
    const { misses, placement, odd } = judged;
    if (misses.length === 0 && placement) {
      serving.push({ offcut, placement, odd: null, spoils: placement.spoiled });
    } else if (misses.length === 0 && odd) {
      const spoils = spoilsAtLeast(offcut.measured_as as Curve, odd);
      serving.push({ offcut, placement: null, odd, spoils });
    } else missing.push({ offcut, misses, far: misses.reduce((far, miss) => far + miss.far, 0) });
  }
  return { serving, missing };
}

/**
 * The `most` that spoil least, in order. Where a blank goes in an odd outline is worked out only for
 * those that may be among them: what they spoil at least is known without.
 */
function leastSpoiled(serving: Serving[], most: number): Serving[] {
  serving.sort(bySpoiledLeast);
  const best: Serving[] = [];
  for (const each of serving) {
    const last = best.length === most ? best.at(-1) : undefined;
    if (last && bySpoiledLeast(last, each) <= 0) break;
    if (each.odd) {
      each.placement = layOdd(each.offcut.measured_as as Curve, each.odd);
      each.spoils = each.placement.spoiled;
    }
    let at = best.length;
    while (at > 0 && bySpoiledLeast(best[at - 1] as Serving, each) > 0) at -= 1;
    best.splice(at, 0, each);
    if (best.length > most) best.pop();
  }
  return best;
}

/** Least spoiled, then the thinner, then the smaller offcut, then by name. */
function bySpoiledLeast(one: Serving, other: Serving): number {
  return (
    one.spoils - other.spoils ||
    one.offcut.thickness.nm - other.offcut.thickness.nm ||
    bySize(one.offcut, other.offcut)
  );
}

function bySize(one: Offcut, other: Offcut): number {
  return area(one) - area(other) || compare(one.name, other.name) || compare(one.id, other.id);
}

const NM2_PER_UM2 = 1_000_000;

function area({ shape, measured_as }: Offcut): number {
  if (shape.kind === 'rectangle') return shape.a.nm * shape.b.nm;
  const measured = measured_as && 'any' in measured_as;
  return measured ? measured_as.area_um2 * NM2_PER_UM2 : Number.MAX_VALUE;
}

function compare(one: string, other: string): number {
  if (one === other) return 0;
  return one < other ? -1 : 1;
}

function toServes(serving: Serving, question: Question, shop: Shop): Serves {
  const { offcut } = serving;
  const placement = serving.placement as Serves['placement'];
  return {
    offcut,
    placement,
    reason: servesText(offcut, question.want, placement, shop.unit),
    cautions: cautionsFor(offcut, question).map((caution) => cautionText(caution, shop.unit)),
  };
}

function toNearMiss({ offcut, misses }: Missing, { want }: Question, shop: Shop): NearMiss {
  return {
    offcut,
    reasons: misses.map((miss) => ({
      code: miss.code,
      text: missText(miss, offcut, want, shop.unit),
    })),
  };
}
