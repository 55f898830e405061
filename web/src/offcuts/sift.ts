// The first look at every piece, by its numbers alone (shelf.ts): most are too small, or serve and
// spoil more than those already found, and are only counted. What is left is judged (misses.ts).
// What is said here is what judging would say; where that is not certain, it is looked at. Pure.
import { pieceFor } from '../twins/curve';
import { LEAST_USEFUL_NM } from '../twins/fit';
import { NEAR_SIZE, type Question } from './misses';
import { CURVED, GRAINS, type Lot, OTHER } from './shelf';

export const OUT = 0;
export const LOOK = 1;
export const SERVES = 2;
const NM_PER_UM = 1000;

export class Sieve {
  /** what a piece that serves spoils at least, um2 */
  spoils = 0;
  private readonly width: number;
  private readonly height: number;
  private readonly around: number;
  private readonly least: number;
  private readonly blank: number;
  private readonly grain: 'any' | 'along width' | 'along height';

  constructor({ want, least_useful_nm }: Question) {
    this.width = want.width_nm;
    this.height = want.height_nm;
    this.around = 2 * want.clearance_nm;
    this.least = Math.max(least_useful_nm ?? LEAST_USEFUL_NM, 1);
    this.blank = um2(this.width, this.height);
    this.grain = want.grain;
  }

  /** `near`: one that lacks a little of its size is looked at. `counted`: one that serves may be. */
  look(
    lot: Lot,
    n: number,
    near: boolean,
    counted: boolean,
  ): typeof OUT | typeof LOOK | typeof SERVES {
    const is = lot.is[n] as number;
    if (is === OTHER || (this.width <= 1 && this.height <= 1)) return LOOK;
    const known = lot.grain[n] !== GRAINS.indexOf('unknown');
    const asked = this.grain !== 'any' && known;
    const alongA = (this.grain === 'along width') === (lot.grain[n] === 0);
    const ready = counted && lot.free[n] === 1 && (this.grain === 'any' || known);
    if (is === CURVED) return this.curved(lot, n, near, ready, asked, alongA);
    return this.rectangle(lot, n, near, ready, asked, alongA);
  }

  private rectangle(
    lot: Lot,
    n: number,
    near: boolean,
    ready: boolean,
    asked: boolean,
    alongA: boolean,
  ): typeof OUT | typeof LOOK | typeof SERVES {
    const { width, height, around } = this;
    const [a, b] = [lot.a[n] as number, lot.b[n] as number];
    const [w, h] = [width + around, height + around];
    const square = (!asked || alongA) && w <= a && h <= b;
    const turned = (!asked || !alongA) && h <= a && w <= b;
    if (square || turned) {
      if (!ready) return LOOK;
      this.spoils = Number.POSITIVE_INFINITY;
      if (square) this.spoils = this.spoiled(a, b, w, h);
      if (turned) this.spoils = Math.min(this.spoils, this.spoiled(a, b, h, w));
      return SERVES;
    }
    const share = near ? 1 - NEAR_SIZE : 1;
    const [sw, sh] = [width * share + around, height * share + around];
    if ((!asked || alongA) && sw <= a && sh <= b) return LOOK;
    if ((!asked || !alongA) && sh <= a && sw <= b) return LOOK;
    if (asked || a <= 0 || b <= 0) return a > 0 && b > 0 ? OUT : LOOK;
    // askew the shorter side needs the shorter of the two, and the longer one their diagonal
    const [long, short] = [Math.max(width, height), Math.min(width, height)];
    return short <= Math.min(a, b) && long * long <= a * a + b * b ? LOOK : OUT;
  }

  private curved(
    lot: Lot,
    n: number,
    near: boolean,
    ready: boolean,
    asked: boolean,
    alongA: boolean,
  ): typeof OUT | typeof LOOK | typeof SERVES {
    const w = um(this.width + this.around);
    const h = um(this.height + this.around);
    const fits = this.fits(lot, n, w, h, asked, alongA);
    if (fits) {
      if (!ready) return LOOK;
      this.spoils = Math.max((lot.area[n] as number) - this.blank - (lot.most[n] as number), 0);
      return SERVES;
    }
    if (!near) return OUT;
    const share = 1 - NEAR_SIZE;
    const [sw, sh] = [this.width * share + this.around, this.height * share + this.around];
    return this.fits(lot, n, um(sw), um(sh), asked, alongA) ? LOOK : OUT;
  }

  private fits(
    lot: Lot,
    n: number,
    w: number,
    h: number,
    asked: boolean,
    alongA: boolean,
  ): boolean {
    if (w * h > (lot.area[n] as number)) return false;
    if (asked) {
      const [x, y] = alongA ? [w, h] : [h, w];
      if (x * NM_PER_UM > (lot.a[n] as number) || y * NM_PER_UM > (lot.b[n] as number))
        return false;
      const { along, alongFrom } = lot;
      return pieceFor(along, x, y, alongFrom[n], alongFrom[n + 1]) >= 0;
    }
    const [long, short] = w >= h ? [w, h] : [h, w];
    if (long > (lot.wide[n] as number) || short > (lot.tall[n] as number)) return false;
    return pieceFor(lot.any, long, short, lot.anyFrom[n], lot.anyFrom[n + 1]) >= 0;
  }

  /** As `place` in twins/fit.ts reckons it for a blank that lies square. */
  private spoiled(a: number, b: number, blockA: number, blockB: number): number {
    const { least } = this;
    const beside = Math.min(a - blockA, b) >= least ? um2(a - blockA, b) : 0;
    const above = Math.min(a, b - blockB) >= least ? um2(a, b - blockB) : 0;
    return Math.max(um2(a, b) - this.blank - Math.max(beside, above), 0);
  }
}

function um(nm: number): number {
  return Math.ceil(nm / NM_PER_UM);
}

function um2(one: number, other: number): number {
  return Math.floor(one / NM_PER_UM) * Math.floor(other / NM_PER_UM);
}
