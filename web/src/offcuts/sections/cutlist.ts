// The cut list: which pieces come from which length of stock. Pure; without a clock, so that the
// same question has the same answer on every phone.
//
// First of all as many pieces as can be; of equally many, the more metal in them. Then as little
// useful stock as can be is spoiled. A length is worth the square of its reach (a long one serves
// where two of half its length do not), and nothing where its reach is below the shortest that is
// worth keeping: so short pieces come from short lengths, and what is too short is used first.
// Last, few lengths are touched.
//
// All ways are searched, the most promising first and those left out that cannot be better, until
// `MOST_STEPS`. `proved` says that none was left untried, so that there is no better one.
import { between, reachAfter, reachOf, type Saw, type Stock } from './sawing.ts';

export interface PlanSaw extends Saw {
  readonly shortest_nm: number;
}
/** What a plan comes to, in the order in which two plans are compared: less is better. */
export interface Cost {
  /** pieces that cannot be had, and the metal in them (nm) */
  readonly unmet: number;
  readonly unmet_nm: number;
  readonly lost: number;
  readonly touched: number;
}
/** Where each piece (by its place in what was asked) comes from; null for one that cannot be had. */
export interface Plan {
  readonly from: readonly (number | null)[];
  readonly cost: Cost;
  readonly proved: boolean;
}

const NOTHING: Cost = { unmet: 0, unmet_nm: 0, lost: 0, touched: 0 };

export const MOST_STEPS = 20_000;
const GRAIN_NM = 10_000; // worth is counted in hundredths of a millimetre: exact below 2^53

/** What a length with this reach is worth. */
export function worthOf(reach: number, { shortest_nm }: Pick<PlanSaw, 'shortest_nm'>): number {
  return reach < shortest_nm ? 0 : Math.floor(reach / GRAIN_NM) ** 2;
}

/** The usefulness that is lost where one piece is taken from a reach it can be had from. */
export function lostBy(reach: number, length_nm: number, saw: PlanSaw): number {
  return worthOf(reach, saw) - worthOf(reachAfter(reach, length_nm, saw), saw);
}

export function better(one: Cost, other: Cost): boolean {
  const difference =
    one.unmet - other.unmet ||
    one.unmet_nm - other.unmet_nm ||
    one.lost - other.lost ||
    one.touched - other.touched;
  return difference < 0;
}

/** Plans `lengths` (nm, more than 0) over `stock`. */
export function plan(
  stock: readonly Stock[],
  lengths: readonly number[],
  saw: PlanSaw,
  most = MOST_STEPS,
): Plan {
  const order = lengths.map((_, at) => at).sort((a, b) => at(lengths, b) - at(lengths, a) || a - b);
  const search = new Search(
    stock.map((one) => reachOf(one, saw)),
    order.map((index) => at(lengths, index)),
    saw,
    most,
  );
  search.run();
  const from: (number | null)[] = lengths.map(() => null);
  for (const [place, index] of order.entries()) from[index] = search.best[place] ?? null;
  return { from, cost: search.bestCost, proved: search.steps <= most };
}

const at = (list: readonly number[], index: number): number => list[index] ?? 0;

class Search {
  steps = 0;
  best: (number | null)[] = [];
  bestCost: Cost = { unmet: Number.POSITIVE_INFINITY, unmet_nm: 0, lost: 0, touched: 0 };
  private readonly reach: number[];
  private readonly used: number[];
  private readonly from: (number | null)[];
  private readonly least: number[]; // what all pieces from this one on lose at the least
  private readonly short: number[]; // the metal in so many of the shortest
  private readonly metal: number[]; // what so many of the shortest take, with a cut for each

  constructor(
    whole: readonly number[],
    private readonly lengths: readonly number[], // longest first
    private readonly saw: PlanSaw,
    private readonly most: number,
  ) {
    this.reach = [...whole];
    this.used = whole.map(() => 0);
    this.from = lengths.map(() => null);
    this.least = sums(lengths.map((one) => worthOf(one, saw)));
    this.short = sums(lengths).reverse();
    this.metal = sums(lengths.map((one) => one + between(saw))).reverse();
  }

  run(): void {
    this.begin();
    this.place(0, NOTHING);
  }

  /** A good plan to begin with: as many of the shorter pieces as go in, the longest of them first. */
  private begin(): void {
    for (let out = 0; out <= this.lengths.length; out += 1) {
      const left = this.lengths.slice(0, out);
      const cost = {
        ...NOTHING,
        unmet: out,
        unmet_nm: left.reduce((sum, one) => sum + one, 0),
      };
      if (this.fill(out, cost)) return;
    }
  }

  /** Puts each piece from this one on where it loses least; false where one has no room. */
  private fill(first: number, begun: Cost): boolean {
    const reach = [...this.reach];
    const from: (number | null)[] = this.lengths.map(() => null);
    let { lost } = begun;
    for (let index = first; index < this.lengths.length; index += 1) {
      const length = at(this.lengths, index);
      let best: { bar: number; lost: number } | null = null;
      for (const [bar, there] of reach.entries()) {
        if (there < length) continue;
        const one = lostBy(there, length, this.saw);
        if (!best || one < best.lost) best = { bar, lost: one };
      }
      if (!best) return false;
      from[index] = best.bar;
      lost += best.lost;
      reach[best.bar] = reachAfter(at(reach, best.bar), length, this.saw);
    }
    const touched = new Set(from.filter((bar) => bar !== null)).size;
    this.best = from;
    this.bestCost = { ...begun, lost, touched };
    return true;
  }

  private place(index: number, cost: Cost): void {
    this.steps += 1;
    const length = this.lengths[index];
    if (length === undefined) {
      if (!better(cost, this.bestCost)) return;
      this.bestCost = cost;
      this.best = [...this.from];
      return;
    }
    if (this.steps > this.most) return;
    if (this.hopeless(index, cost)) return;
    for (const bar of this.bars(index, length)) {
      const before = at(this.reach, bar);
      const first = at(this.used, bar) === 0 ? 1 : 0;
      this.reach[bar] = reachAfter(before, length, this.saw);
      this.used[bar] = at(this.used, bar) + 1;
      this.from[index] = bar;
      this.place(index + 1, {
        ...cost,
        lost: cost.lost + lostBy(before, length, this.saw),
        touched: cost.touched + first,
      });
      this.reach[bar] = before;
      this.used[bar] = at(this.used, bar) - 1;
    }
    this.from[index] = null;
    this.place(index + 1, {
      ...cost,
      unmet: cost.unmet + 1,
      unmet_nm: cost.unmet_nm + length,
    });
  }

  /** The lengths this piece may come from, the one that loses least first. */
  private bars(index: number, length: number): number[] {
    // of like pieces the later one is never looked for in an earlier length, and not at all where
    // the one before it could not be had
    const same = index > 0 && this.lengths[index - 1] === length;
    const before = same ? this.from[index - 1] : 0;
    if (before === null || before === undefined) return [];
    const seen = new Set<number>();
    const found: { bar: number; lost: number; fresh: number }[] = [];
    for (let bar = before; bar < this.reach.length; bar += 1) {
      const reach = at(this.reach, bar);
      if (reach < length) continue;
      const fresh = at(this.used, bar) === 0 ? 1 : 0;
      // two lengths that are alike from here on: one stands for both
      if (seen.has(2 * reach + fresh)) continue;
      seen.add(2 * reach + fresh);
      found.push({ bar, lost: lostBy(reach, length, this.saw), fresh });
    }
    found.sort((one, other) => one.lost - other.lost || one.fresh - other.fresh);
    return found.map(({ bar }) => bar);
  }

  /** True where nothing from here on can be better than the best that is known. */
  private hopeless(index: number, cost: Cost): boolean {
    const all = this.lengths.length;
    const remain = all - index;
    const had = Math.min(this.mostHad(), remain);
    const bound: Cost = {
      unmet: cost.unmet + remain - had,
      unmet_nm: cost.unmet_nm + at(this.short, remain - had),
      lost: cost.lost + at(this.least, all - had),
      touched: cost.touched,
    };
    return !better(bound, this.bestCost);
  }

  /** No more pieces than this can be had from what is there, were it all one length to a cut. */
  private mostHad(): number {
    const shortest = at(this.lengths, this.lengths.length - 1);
    let room = 0;
    for (const reach of this.reach) if (reach >= shortest) room += reach + between(this.saw);
    let had = 0;
    while (had < this.lengths.length && at(this.metal, had + 1) <= room) had += 1;
    return had;
  }
}

/** sums[i] = what all from i on come to. */
function sums(list: readonly number[]): number[] {
  const found = [...list, 0];
  for (let index = list.length - 1; index >= 0; index -= 1)
    found[index] = at(list, index) + at(found, index + 1);
  return found;
}
