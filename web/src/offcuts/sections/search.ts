// Which lengths of stock serve, and why each near miss does not; runs on the phone. The one that
// loses least usefulness comes first: a short piece comes from a short length. Pure.
import { showLength, type Unit } from '../../twins/lengths.ts';
import { againstIt, makeReady } from '../misses.ts';
import type { NearMiss, Offcut, Shop, Want } from '../wanted.ts';
import { cautionText, metalName, missText, shortfall, thicknessText } from '../words.ts';
import type { SectionWant } from './asked.ts';
import { lostBy, type PlanSaw } from './cutlist.ts';
import { type LaidOut, layOut, reachOf, type Stock } from './sawing.ts';
import { handWords, type SectionStock, sidesWords } from './section.ts';
import { laidWords } from './words.ts';

export interface SectionServes {
  readonly offcut: Offcut;
  readonly stock: SectionStock;
  /** null where no length was asked for */
  readonly laid: LaidOut | null;
  readonly reason: string;
  readonly cautions: readonly string[];
}
export interface SectionFound {
  readonly serves: readonly SectionServes[];
  readonly near: readonly NearMiss[];
  readonly more_serve: number;
  readonly more_near: number;
  readonly searched: number;
}
type Reason = NearMiss['reasons'][number];

export const LISTED = 40;
/** Two sides are the same within this: 1 in and 25 mm are not. */
const SAME_NM = 200_000;
const NEAR = 0.25; // of the length, or of a side, that may be wanting
const OTHER = 10;

export function stockLength({ run }: SectionStock): Stock {
  return { length_nm: run.length.nm, square_ends: run.square_ends ?? 0 };
}

/** The metal that is wanted, as the search of sheet asks for it. */
export function metalWanted(want: SectionWant): Want {
  return {
    alloy: want.alloy,
    temper: want.temper,
    cladding: 'any',
    thickness: want.wall === null ? { kind: 'any' } : { kind: 'gauge', nm: want.wall },
    width_nm: 1,
    height_nm: 1,
    grain: 'any',
    clearance_nm: 0,
    structure: want.structure,
    wanted_for: want.wanted_for,
  };
}

interface Judged {
  readonly reasons: Reason[];
  readonly far: number;
}

/**
 * `offcuts` of other forms, and those used up, are left out. `shop` has the listed metals of
 * section stock. A near miss is another piece in one respect at most.
 */
export function searchSections(
  want: SectionWant,
  offcuts: readonly Offcut[],
  shop: Shop,
  saw: PlanSaw,
  listed = LISTED,
): SectionFound {
  const metal = metalWanted(want);
  const question = makeReady(metal, shop);
  const { unit } = shop;
  const serving: (SectionServes & { lost: number })[] = [];
  const missing: (NearMiss & { far: number })[] = [];
  let searched = 0;
  for (const offcut of offcuts) {
    if (offcut.retired || offcut.form !== want.form) continue;
    searched += 1;
    const misses = againstIt(offcut, question, 1);
    if (misses === null) continue;
    const others = misses.filter((miss) => miss.far >= OTHER).length;
    const said = misses.map(
      (miss): Reason => ({
        code: miss.code,
        text: missText(miss, offcut, metal, unit),
      }),
    );
    const own = judgeSection(offcut, want, saw, unit, 1 - others);
    if (own === null) continue;
    const { section: stock } = offcut;
    if (said.length + own.reasons.length > 0 || !stock) {
      const far = misses.reduce((sum, miss) => sum + miss.far, own.far);
      missing.push({ offcut, reasons: [...said, ...own.reasons], far });
      continue;
    }
    serving.push(toServes(offcut, stock, want, saw, unit));
  }
  serving.sort((one, other) => one.lost - other.lost || byLength(one, other));
  missing.sort((one, other) => one.far - other.far || byId(one.offcut, other.offcut));
  return {
    serves: serving.slice(0, listed),
    near: missing.slice(0, listed),
    more_serve: Math.max(serving.length - listed, 0),
    more_near: Math.max(missing.length - listed, 0),
    searched,
  };
}

const byId = (one: Offcut, other: Offcut): number => (one.id < other.id ? -1 : 1);

function byLength(one: SectionServes, other: SectionServes): number {
  return one.stock.run.length.nm - other.stock.run.length.nm || byId(one.offcut, other.offcut);
}

function toServes(
  offcut: Offcut,
  stock: SectionStock,
  want: SectionWant,
  saw: PlanSaw,
  unit: Unit,
): SectionServes & { lost: number } {
  const what = `${metalName(offcut.alloy, offcut.temper)}, ${thingWords(stock, unit)}.`;
  const cautions =
    offcut.measured === 'over film' && want.wall !== null
      ? [cautionText({ code: 'over film' }, unit)]
      : [];
  if (want.length === null)
    return { offcut, stock, laid: null, reason: what, cautions, lost: stock.run.length.nm };
  const length = stockLength(stock);
  const laid = layOut(length, [want.length], saw);
  return {
    offcut,
    stock,
    laid,
    reason: `${what} ${laidWords(laid, length, [want.length], saw, unit)}`,
    cautions,
    lost: lostBy(reachOf(length, saw), want.length, saw),
  };
}

function thingWords({ form, section, wall }: SectionStock, unit: Unit): string {
  return `${sidesWords(form, section.square ?? false, section.sides, unit)}, wall ${thicknessText(wall.nm, unit)}`;
}

/** What speaks against its section, its hand and its length; null where it is no near miss. */
function judgeSection(
  offcut: Offcut,
  want: SectionWant,
  saw: PlanSaw,
  unit: Unit,
  most: number,
): Judged | null {
  const { section: stock } = offcut;
  if (!stock)
    return {
      reasons: [{ code: 'measure again', text: 'its section is not known: measure it' }],
      far: 1,
    };
  const found = [
    judgeSides(stock, want, unit),
    judgeHand(stock, want),
    judgeLength(stock, want, saw, unit),
  ];
  if (found.some((one) => one === null)) return null;
  const reasons = found.flatMap((one) => (one ? one.reasons : []));
  const far = found.reduce((sum, one) => sum + (one ? one.far : 0), 0);
  const others = found.filter((one) => one && one.far >= OTHER).length;
  return others > most ? null : { reasons, far };
}

const NONE: Judged = { reasons: [], far: 0 };
const say = (code: Reason['code'], text: string, far: number): Judged => ({
  reasons: [{ code, text }],
  far,
});

/** Legs, and the sides of a square tube, count whichever is said first; web and flange do not. */
function judgeSides(stock: SectionStock, want: SectionWant, unit: Unit): Judged | null {
  const { form, section } = stock;
  const square = section.square ?? false;
  if (square !== want.square) return null;
  if (!want.sides) return NONE;
  const inOrder = (sides: readonly number[]): number[] =>
    form === 'channel' ? [...sides] : [...sides].sort((a, b) => b - a);
  const has = inOrder(section.sides.map(({ nm }) => nm));
  const wanted = inOrder(want.sides);
  const off = wanted.map((side, at) => Math.abs(side - (has[at] ?? 0)));
  if (off.every((one) => one <= SAME_NM)) return NONE;
  if (off.some((one, at) => one > 2 * NEAR * (wanted[at] ?? 0))) return null;
  const text = `${figures(form, has, unit)}, wanted ${figures(form, wanted, unit, false)}`;
  const share = off.reduce((sum, one, at) => sum + one / (wanted[at] ?? 1), 0);
  return say('sides', text, OTHER + share);
}

/** 3/4 in legs; 1 × 3/4 in legs; web 1, flange 1/2 in; 5/8 in outside. */
function figures(form: string, sides: readonly number[], unit: Unit, named = true): string {
  const shown = sides.map((nm) => showLength(nm, unit, false));
  const [one, other] = shown;
  if (form === 'channel') return `web ${one}, flange ${other} ${unit}`;
  const text = `${other === undefined || one === other ? one : shown.join(' × ')} ${unit}`;
  if (!named) return text;
  if (form === 'angle') return `${text} legs`;
  return other === undefined ? `${text} outside` : `${text} sides`;
}

function judgeHand({ section }: SectionStock, want: SectionWant): Judged {
  const { hand } = section;
  if (want.hand === 'any' || hand === 'none' || hand === want.hand) return NONE;
  return say('hand', `${handWords(hand)}, wanted ${handWords(want.hand)}`, 5);
}

function judgeLength(
  stock: SectionStock,
  { length }: SectionWant,
  saw: PlanSaw,
  unit: Unit,
): Judged | null {
  if (length === null) return NONE;
  const short = length - reachOf(stockLength(stock), saw);
  if (short <= 0) return NONE;
  if (short > NEAR * length) return null;
  const dressed = stock.run.length.nm >= length ? ' once its ends are dressed' : '';
  return say('size', `${shortfall(short, unit)} too short${dressed}`, OTHER + short / length);
}
