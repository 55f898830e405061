// Which offcuts serve, the one that spoils least first, and why each near miss does not. Runs on
// the phone over every offcut, without a network: 5,000 take a few milliseconds.

import { isSide, type Placement } from '../twins/fit';
import { cautionsFor, judge, makeReady, type Question } from './misses';
import type { Found, Miss, NearMiss, Offcut, Serves, Shop, Want } from './wanted';
import { cautionText, missText, servesText } from './words';

/** How many are listed of each; the rest is counted. */
export const LISTED = 40;

type Serving = { offcut: Offcut; placement: Placement };
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
  serving.sort(bySpoiledLeast);
  missing.sort((one, other) => one.far - other.far || bySize(one.offcut, other.offcut));
  return {
    serves: serving.slice(0, listed).map((each) => toServes(each, question, shop)),
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
    const { misses, placement } = judged;
    if (misses.length === 0 && placement) serving.push({ offcut, placement });
    else missing.push({ offcut, misses, far: misses.reduce((far, miss) => far + miss.far, 0) });
  }
  return { serving, missing };
}

/** Least spoiled, then the thinner, then the smaller offcut, then by name. */
function bySpoiledLeast(one: Serving, other: Serving): number {
  return (
    one.placement.spoiled - other.placement.spoiled ||
    one.offcut.thickness.nm - other.offcut.thickness.nm ||
    bySize(one.offcut, other.offcut)
  );
}

function bySize(one: Offcut, other: Offcut): number {
  return area(one) - area(other) || compare(one.name, other.name) || compare(one.id, other.id);
}

function area({ shape }: Offcut): number {
  return shape.kind === 'rectangle' ? shape.a.nm * shape.b.nm : Number.MAX_VALUE;
}

function compare(one: string, other: string): number {
  if (one === other) return 0;
  return one < other ? -1 : 1;
}

function toServes({ offcut, placement }: Serving, question: Question, shop: Shop): Serves {
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
