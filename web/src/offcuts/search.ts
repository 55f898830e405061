// Which offcuts serve, the one that spoils least first, and why each near miss does not. Runs on
// the phone over every offcut, without a network: 5,000 take a few milliseconds.

import type { Curve } from '../twins/curve';
import { isSide } from '../twins/fit';
import { First, inOrder } from './inorder';
import {
  againstMetal,
  cautionsFor,
  differences,
  judgePiece,
  makeReady,
  type Question,
} from './misses';
import { type Asked, layOdd, spoilsAtLeast } from './odd';
import { type Shelf, shelfOf } from './shelf';
import { ENOUGH, LOOK, OUT, Sieve } from './sift';
import type { Found, Miss, NearMiss, Offcut, Serves, Shop, Want } from './wanted';
import { cautionText, missText, servesText } from './words';

/** How many are listed of each; the rest is counted. */
export const LISTED = 24;

/** `spoils` is at least what it spoils, and exactly that once its placement is worked out. */
type Serving = {
  readonly offcut: Offcut;
  placement: Serves['placement'] | null;
  readonly odd: Asked | null;
  spoils: number;
  readonly area: number;
  readonly thickness: number;
};
type Missing = {
  readonly offcut: Offcut;
  readonly misses: readonly Miss[];
  readonly far: number;
  readonly area: number;
};

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
  const sheets = shelfOf(offcuts);
  const { best, near: once, serve, odd } = passOver(sheets, question, 1, listed);
  const none = serve + once.offered === 0;
  const near = none ? passOver(sheets, question, 2, listed).near : once;
  layOut(odd, best);
  return {
    serves: best.items.map((each) => toServes(each, question, shop)),
    near: near.items.map((each) => toNearMiss(each, question, shop)),
    more_serve: Math.max(serve - listed, 0),
    more_near: Math.max(near.offered - listed, 0),
    searched: sheets.count,
  };
}

/**
 * One pass; pieces that are another one in more than `most` respects are passed over. What fits in
 * odd outlines is given back by itself: what it spoils is only known to be so much at least.
 */
function passOver({ lots }: Shelf, question: Question, most: number, listed: number) {
  const best = new First(listed, bySpoiledLeast);
  const near = new First(listed, byFar);
  const laterOn: Serving[] = [];
  let serve = 0;
  const sieve = new Sieve(question);
  for (const lot of lots) {
    const [first] = lot.pieces;
    const metal = first ? againstMetal(first, question, most) : null;
    if (metal === null) continue;
    const nearToo = differences(metal) < most;
    const far = farOf(metal);
    const thickness = first?.thickness.nm ?? 0;
    for (let n = 0; n < lot.pieces.length; n += 1) {
      const seen = sieve.look(lot, n, nearToo);
      if (seen === OUT) continue;
      const off = far + sieve.far;
      const offcut = lot.pieces[n] as Offcut;
      if (seen !== LOOK && off > 0) {
        // only counted where enough are nearer
        if (near.full && off > (near.last?.far as number)) {
          near.offered += 1;
          continue;
        }
      } else if (seen === ENOUGH) {
        const { spoils, odd } = sieve;
        const worse = best.full && spoils > (best.last?.spoils as number);
        if (odd || worse) {
          serve += 1;
          if (worse) continue;
          const area = (lot.area[n] as number) * NM2_PER_UM2;
          laterOn.push({ offcut, placement: null, odd, spoils, area, thickness });
          continue;
        }
      }
      const judged = judgePiece(offcut, metal, question, most);
      if (judged === null) continue;
      const { misses, placement, odd = null } = judged;
      const area = areaOf(offcut);
      if (misses.length > 0) {
        near.offer({ offcut, misses, far: farOf(misses), area });
        continue;
      }
      serve += 1;
      const spoils = placement?.spoiled ?? spoilsAtLeast(offcut.measured_as as Curve, odd as Asked);
      const serving = { offcut, placement, odd, spoils, area, thickness };
      if (placement) best.offer(serving);
      else laterOn.push(serving);
    }
  }
  return { best, near, serve, odd: laterOn };
}

function farOf(misses: readonly Miss[]): number {
  let far = 0;
  for (const miss of misses) far += miss.far;
  return far;
}

/**
 * Works out where the blank goes in odd outlines, those first that may spoil least, and stops where
 * none of the others can be among the best.
 */
function layOut(odd: Serving[], best: First<Serving>): void {
  for (const each of inOrder(odd, bySpoiledLeast)) {
    if (!best.takes(each)) return;
    each.placement = layOdd(each.offcut.measured_as as Curve, each.odd as Asked);
    each.spoils = each.placement.spoiled;
    best.offer(each);
  }
}

/** Least spoiled, then the thinner, then the smaller offcut, then by name. */
function bySpoiledLeast(one: Serving, other: Serving): number {
  return one.spoils - other.spoils || one.thickness - other.thickness || bySize(one, other);
}

function byFar(one: Missing, other: Missing): number {
  return one.far - other.far || bySize(one, other);
}

function bySize(one: Serving | Missing, other: Serving | Missing): number {
  return (
    one.area - other.area ||
    compare(one.offcut.name, other.offcut.name) ||
    compare(one.offcut.id, other.offcut.id)
  );
}

const NM2_PER_UM2 = 1_000_000;

/** nm2; of an outline that is not measured it is not known, so it comes last. */
function areaOf({ shape, measured_as }: Offcut): number {
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
