// Why an offcut does not serve a want, as data; words.ts makes the sentences.

import { isSide, type Placement, place, type Way } from '../twins/fit';
import { gaugeOf } from '../twins/lengths';
import type { Asked } from './odd';
import { judgeOutline } from './oddmisses';
import { tooSmall } from './toosmall';
import type { Caution, Miss, Offcut, Rectangle, Shop, Want } from './wanted';
import { isUnknown } from './words';

/** Lacking more than this share of a side, a piece is no near miss. */
export const NEAR_SIZE = 0.25;

/** How far a reason sets a piece apart; OTHER_PIECE and more: it is not what was asked for. */
const FAR: Record<string, number> = {
  unsaid: 2,
  size: 10,
  cladding: 20,
  thicker: 20,
  thinner: 20,
  temper: 30,
  'temper unknown': 30,
  metal: 40,
  'metal unknown': 40,
  'metal unlisted': 40,
};
export const OTHER_PIECE = 10;

const said = (code: Exclude<Miss['code'], 'size' | 'structure' | 'cannot be measured'>): Miss => ({
  code,
  far: FAR[code] ?? 1,
});
const METAL = said('metal');
const TEMPER = said('temper');
const CLADDING = said('cladding');
const CLADDING_UNKNOWN = said('cladding unknown');
const THICKER = said('thicker');
const THINNER = said('thinner');
const GRAIN_UNKNOWN = said('grain unknown');
const MEASURE_AGAIN = said('measure again');
const RESERVED = said('reserved');
const UNSAID = said('unsaid');

/** A want made ready to be asked of many offcuts. */
export type Question = {
  readonly want: Want;
  readonly from_nm: number;
  readonly to_nm: number;
  /** the family of listed thicknesses that counts as the one wanted */
  readonly family: string | null;
  readonly familyOf: (nm: number) => string | null;
  readonly listed: ReadonlySet<string>;
  readonly rules: readonly {
    readonly field: string;
    readonly value: string;
    readonly miss: Miss;
  }[];
  readonly least_useful_nm: number | undefined;
};

export function makeReady(want: Want, shop: Shop): Question {
  const known = new Map<number, string | null>();
  const familyOf = (nm: number) => {
    const found = known.get(nm);
    if (found !== undefined) return found;
    const family = gaugeOf(nm, shop.gauges)?.family ?? null;
    known.set(nm, family);
    return family;
  };
  const { thickness } = want;
  const one = 'nm' in thickness ? thickness.nm : null;
  const range = thickness.kind === 'range' ? thickness : null;
  return {
    want,
    from_nm: range?.from_nm ?? one ?? 0,
    to_nm: range?.to_nm ?? (thickness.kind === 'gauge' ? thickness.nm : Number.POSITIVE_INFINITY),
    family: one === null ? null : familyOf(one),
    familyOf,
    listed: new Set(shop.metals.map((metal) => `${metal.alloy}-${metal.temper}`)),
    rules: want.structure ? shop.never_for_structure.map(structureRule) : [],
    least_useful_nm: shop.least_useful_nm,
  };
}

function structureRule({
  field,
  value,
  code: rule,
  sentence,
}: Shop['never_for_structure'][number]) {
  return {
    field,
    value,
    miss: { code: 'structure', far: FAR[rule] ?? 1, rule, sentence } as const,
  };
}

/** `placement`: where it lies in a rectangle; `odd`: what to ask of the outline that it fits in. */
export type Judged = {
  readonly misses: readonly Miss[];
  readonly placement: Placement | null;
  readonly odd?: Asked;
};

/**
 * Every reason against the offcut, the metal first and the size last; none where it serves. Null
 * where it is no near miss either: another piece in more than `most` respects, or far too small.
 */
export function judge(offcut: Offcut, question: Question, most: number): Judged | null {
  const metal = againstMetal(offcut, question, most);
  if (metal === null || tooSmall(offcut, question, differences(metal) < most)) return null;
  return judgePiece(offcut, metal, question, most);
}

/** The same for one that is not far too small, where `metal` is what the metal alone gives. */
export function judgePiece(
  offcut: Offcut,
  metal: readonly Miss[],
  question: Question,
  most: number,
): Judged | null {
  const misses = [...metal];
  judgeFree(offcut, question.want, misses);
  if (offcut.shape.kind === 'rectangle') {
    return judgeSize(offcut, offcut.shape, question, misses, most);
  }
  if (offcut.shape.kind === 'outline') {
    return judgeOutline(offcut, offcut.shape, question, misses, most);
  }
  misses.push(UNSAID);
  return { misses, placement: null };
}

/**
 * Every reason against the piece but its size: the metal, how that is known, who it is for. Null
 * where it is another piece in more than `most` respects.
 */
export function againstIt(offcut: Offcut, question: Question, most: number): Miss[] | null {
  const misses = againstMetal(offcut, question, most);
  if (misses) judgeFree(offcut, question.want, misses);
  return misses;
}

/** What speaks against its metal and thickness: the same for all pieces of one lot (shelf.ts). */
export function againstMetal(offcut: Offcut, question: Question, most: number): Miss[] | null {
  const misses: Miss[] = [];
  judgeMetal(offcut, question.want, misses);
  judgeThickness(offcut, question, misses);
  for (const { field, value, miss } of question.rules) {
    if (holds(field, value, offcut, question)) misses.push(miss);
  }
  return differences(misses) > most ? null : misses;
}

/** Whether it may be cut as it stands, and its grain is known where that is asked for. */
function judgeFree(offcut: Offcut, want: Want, misses: Miss[]): void {
  if (offcut.measure_again) misses.push(MEASURE_AGAIN);
  if (offcut.reserved !== null && !isReservedFor(offcut, want)) misses.push(RESERVED);
  if (want.grain !== 'any' && offcut.grain === 'unknown') misses.push(GRAIN_UNKNOWN);
}

/** What has to be said about an offcut that serves. */
export function cautionsFor(offcut: Offcut, question: Question): Caution[] {
  const cautions: Caution[] = [];
  const { want } = question;
  const { nm } = offcut.thickness;
  if (offcut.measured === 'over film' && want.thickness.kind !== 'any') {
    cautions.push({ code: 'over film' });
  }
  if (nm < question.from_nm) {
    cautions.push({ code: 'a little thinner', nm, wanted_nm: question.from_nm });
  }
  return cautions;
}

/** In how many respects the piece is another one, rather than not confirmed or not free. */
export function differences(misses: readonly Miss[]): number {
  let others = 0;
  for (const miss of misses) if (miss.far >= OTHER_PIECE) others += 1;
  return others;
}

function isReservedFor(offcut: Offcut, want: Want): boolean {
  return want.wanted_for != null && offcut.reserved?.for === want.wanted_for;
}

function judgeMetal(offcut: Offcut, want: Want, misses: Miss[]): void {
  const wrongAlloy = want.alloy !== null && offcut.alloy !== want.alloy;
  if (wrongAlloy || (want.temper !== null && offcut.temper !== want.temper)) {
    // for structure the rules say it where the metal or temper is not known
    const saidLater = want.structure && isUnknown(wrongAlloy ? offcut.alloy : offcut.temper);
    if (!saidLater) misses.push(wrongAlloy ? METAL : TEMPER);
    // cladding says nothing more about a metal that is not the one wanted
    if (wrongAlloy) return;
  }
  if (want.cladding !== 'any' && offcut.clad !== want.cladding) {
    misses.push(offcut.clad === 'unknown' ? CLADDING_UNKNOWN : CLADDING);
  }
}

function judgeThickness(offcut: Offcut, question: Question, misses: Miss[]): void {
  const { nm } = offcut.thickness;
  if (nm >= question.from_nm && nm <= question.to_nm) return;
  if (question.family !== null && question.familyOf(nm) === question.family) return;
  misses.push(nm > question.to_nm ? THICKER : THINNER);
}

/** Looks one rule up; the rules are data from Python (rules/tables/structure_reasons.csv). */
function holds(field: string, value: string, offcut: Offcut, question: Question): boolean {
  switch (field) {
    case 'known_by':
      return offcut.known_by === value;
    case 'measured':
      return offcut.measured === value;
    case 'alloy':
      return (isUnknown(offcut.alloy) ? 'unknown' : offcut.alloy) === value;
    case 'temper':
      if (isUnknown(offcut.alloy)) return false;
      return (isUnknown(offcut.temper) ? 'unknown' : offcut.temper) === value;
    case 'metal':
      if (isUnknown(offcut.alloy) || isUnknown(offcut.temper)) return false;
      return !question.listed.has(`${offcut.alloy}-${offcut.temper}`);
    default:
      throw new Error(`no field ${field} to judge an offcut by`);
  }
}

/** Which way the blank may lie. Unknown grain leaves both ways open; it is a miss of its own. */
export function wayFor(offcut: Offcut, want: Want): Way {
  if (want.grain === 'any' || offcut.grain === 'unknown') return 'any';
  const grainAlongA = offcut.grain === 'a';
  return (want.grain === 'along width') === grainAlongA ? 'width along a' : 'width along b';
}

function judgeSize(
  offcut: Offcut,
  shape: Rectangle,
  { want, least_useful_nm }: Question,
  misses: Miss[],
  most: number,
): Judged | null {
  const [a, b] = [shape.a.nm, shape.b.nm];
  if (!isSide(a) || !isSide(b)) {
    misses.push(MEASURE_AGAIN);
    return { misses, placement: null };
  }
  const { width_nm: width, height_nm: height, clearance_nm: k } = want;
  const way = wayFor(offcut, want);
  const placement = place(width, height, a, b, k, way, least_useful_nm);
  if (placement) return { misses, placement };
  const size = shortOf(width, height, a - 2 * k, b - 2 * k, way, want);
  misses.push(size.miss);
  return size.near && differences(misses) <= most ? { misses, placement: null } : null;
}

/** What is wanting each way, of the two ways the blank can lie square the one that lacks least. */
export function shortOf(width: number, height: number, a: number, b: number, way: Way, want: Want) {
  const square = [Math.max(width - a, 0), Math.max(height - b, 0)] as const;
  const turned = [Math.max(width - b, 0), Math.max(height - a, 0)] as const;
  let least = way === 'width along b' ? turned : square;
  if (way === 'any' && Math.max(...turned) < Math.max(...square)) least = turned;
  return lacking(least, way, want);
}

/** What is wanting of the width and of the height (nm), said along the grain where that was asked. */
export function lacking(
  [lackWidth, lackHeight]: readonly [number, number],
  way: Way,
  want: Want,
): { miss: Miss; near: boolean } {
  const { width_nm: width, height_nm: height } = want;
  const by_grain = way !== 'any';
  const widthFirst = by_grain ? want.grain === 'along width' : width >= height;
  const [short_nm, narrow_nm] = widthFirst ? [lackWidth, lackHeight] : [lackHeight, lackWidth];
  // the larger part of the sheet is wanting, the further down
  const far = OTHER_PIECE + (short_nm + narrow_nm) / (width + height);
  const miss: Miss = { code: 'size', far, short_nm, narrow_nm, by_grain };
  return { miss, near: lackWidth <= NEAR_SIZE * width && lackHeight <= NEAR_SIZE * height };
}
