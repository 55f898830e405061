// The first look at every piece, by its numbers alone (shelf.ts): most are too small, or so much
// worse than those already found that they are only counted. What is left is judged (misses.ts).
// What is said here is what judging would say; where that is not certain, it is looked at. Pure.
import { pieceFor } from '../twins/curve';
import { LEAST_USEFUL_NM, type Way } from '../twins/fit';
import { NEAR_SIZE, OTHER_PIECE, type Question } from './misses';
import type { Asked } from './odd';
import { lackIn } from './oddmisses';
import { CURVED, GRAINS, type Lot, OTHER } from './shelf';

export const OUT = 0;
export const LOOK = 1;
/** Large enough, and free to be cut. */
export const ENOUGH = 2;
/** Free to be cut, and lacks but a little of its size. */
export const NEARLY = 3;
type Seen = typeof OUT | typeof LOOK | typeof ENOUGH | typeof NEARLY;
const NM_PER_UM = 1000;

export class Sieve {
  /** what a piece that is large enough spoils at least, um2 */
  spoils = 0;
  /** how far off it is, its metal apart; 1 where its grain is wanted and not known */
  far = 0;
  /** what is asked of the outline that is large enough; null for a rectangle */
  odd: Asked | null = null;
  private readonly odds: Readonly<Record<Way, Asked>>;
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
    const least = Math.floor((least_useful_nm ?? LEAST_USEFUL_NM) / NM_PER_UM);
    const asked = { width: this.width, height: this.height, clearance: want.clearance_nm, least };
    this.odds = {
      any: { ...asked, way: 'any' },
      'width along a': { ...asked, way: 'width along a' },
      'width along b': { ...asked, way: 'width along b' },
    };
  }

  /** `near`: one that lacks a little of its size is looked at. `counted`: one that serves may be. */
  look(lot: Lot, n: number, near: boolean): Seen {
    const is = lot.is[n] as number;
    if (is === OTHER || (this.width <= 1 && this.height <= 1)) return LOOK;
    const known = lot.grain[n] !== GRAINS.indexOf('unknown');
    const asked = this.grain !== 'any' && known;
    const alongA = (this.grain === 'along width') === (lot.grain[n] === 0);
    const ready = lot.free[n] === 1;
    this.far = this.grain === 'any' || known ? 0 : 1;
    this.odd = null;
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
  ): Seen {
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
      return ENOUGH;
    }
    // askew the shorter side needs the shorter of the two, and the longer one their diagonal
    const [long, short] = [Math.max(width, height), Math.min(width, height)];
    if (!asked && short <= Math.min(a, b) && long * long <= a * a + b * b) return LOOK;
    if (!near) return OUT;
    if (!this.lacksLittle(a - around, b - around, asked, alongA)) return OUT;
    return ready ? NEARLY : LOOK;
  }

  /** As `shortOf` and `lacking` in misses.ts: whether it comes near, and how far off it is. */
  private lacksLittle(a: number, b: number, asked: boolean, alongA: boolean): boolean {
    const { width, height } = this;
    let [w, h] = [Math.max(width - a, 0), Math.max(height - b, 0)];
    const [wTurned, hTurned] = [Math.max(width - b, 0), Math.max(height - a, 0)];
    if (asked ? !alongA : Math.max(wTurned, hTurned) < Math.max(w, h)) [w, h] = [wTurned, hTurned];
    return this.comesNear(w, h);
  }

  /** What is wanting of the width and of the height. */
  private comesNear(w: number, h: number): boolean {
    const { width, height } = this;
    this.far += OTHER_PIECE + (w + h) / (width + height);
    return w <= NEAR_SIZE * width && h <= NEAR_SIZE * height;
  }

  private curved(
    lot: Lot,
    n: number,
    near: boolean,
    ready: boolean,
    asked: boolean,
    alongA: boolean,
  ): Seen {
    const w = um(this.width + this.around);
    const h = um(this.height + this.around);
    const fits = this.fits(lot, n, w, h, asked, alongA);
    if (fits) {
      if (!ready) return LOOK;
      this.spoils = Math.max((lot.area[n] as number) - this.blank - (lot.most[n] as number), 0);
      this.odd = this.odds[asked ? (alongA ? 'width along a' : 'width along b') : 'any'];
      return ENOUGH;
    }
    if (!near) return OUT;
    const share = 1 - NEAR_SIZE;
    const [sw, sh] = [this.width * share + this.around, this.height * share + this.around];
    if (!this.fits(lot, n, um(sw), um(sh), asked, alongA)) return OUT;
    const turned = asked ? !alongA : this.height > this.width;
    const [along, across] = turned ? [this.height, this.width] : [this.width, this.height];
    const [row, from] = asked ? [lot.along, lot.alongFrom] : [lot.any, lot.anyFrom];
    const { around } = this;
    const [start, end] = [from[n] as number, from[n + 1] as number];
    const [short, narrow] = lackIn(row, along + around, across + around, start, end);
    if (!this.comesNear(turned ? narrow : short, turned ? short : narrow)) return OUT;
    return ready ? NEARLY : LOOK;
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
