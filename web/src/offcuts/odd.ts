// Where a blank goes in an odd outline, and what stays: worked out on the phone from the fit curve.
// Pure. Inside, lengths are um; the answer is in nm, as for a rectangle (twins/fit.ts).
//
// The blank goes into a corner of a rectangle that the curve says fits. What stays whole is the
// strip beside it, or above it, in that rectangle, or another rectangle of the curve that it does
// not touch (the other leg of an L). So what is said to stay, stays: at least that much.
import { type Curve, type Pieces, pieceFor, STRIDE, standAt } from '../twins/curve.ts';
import { LEAST_USEFUL_NM, type Point, type Way } from '../twins/fit.ts';

export type OddPlacement = {
  readonly laid: 'in an outline';
  /** angle between the width and the x axis, in tenths of a degree, 0 to 1799 */
  readonly tenths: number;
  /** round the blank; the first to the second is its width */
  readonly corners: readonly [Point, Point, Point, Point];
  /** the largest useful rectangle that stays; [0, 0] where none is */
  readonly left: Point;
  /** where that one lies */
  readonly stays: readonly Point[] | null;
  readonly spoiled: number;
};

/** A blank with its clearance all round, asked of an outline. Lengths nm, `least` um. */
export type Asked = {
  readonly width: number;
  readonly height: number;
  readonly clearance: number;
  readonly way: Way;
  /** a remainder whose shorter side is under this counts as nothing */
  readonly least: number;
};

const NM_PER_UM = 1000;
/** Square to the sheet is kept unless lying askew leaves so much more. */
const WORTH_TURNING = 1.25;
/** What differs by less than this share of its length is not tried twice. */
const ALIKE = 0.06;
/** Reckoning heights in double precision; the curve keeps a thousand times that in hand. */
const ROUNDING = 1e-3;

/** The block that has to fit, um: blank and clearance. Along the curve's width, and across it. */
function block(asked: Asked): [number, number] {
  const around = 2 * asked.clearance;
  const w = Math.ceil((asked.width + around) / NM_PER_UM);
  const h = Math.ceil((asked.height + around) / NM_PER_UM);
  if (asked.way === 'any') return w >= h ? [w, h] : [h, w];
  return asked.way === 'width along a' ? [w, h] : [h, w];
}

/** True where the curve says that the blank fits. */
export function fitsOdd(curve: Curve, asked: Asked): boolean {
  const [w, h] = block(asked);
  return pieceFor(asked.way === 'any' ? curve.any : curve.along, w, h) >= 0;
}

/** What a blank spoils at least, um2: no placement found by `layOdd` spoils less. */
export function spoilsAtLeast(curve: Curve, asked: Asked): number {
  const { most } = readied(curve, asked.least);
  return Math.max(curve.area_um2 - areaOf(asked) - most, 0);
}

function areaOf({ width, height }: Asked): number {
  return Math.floor(width / NM_PER_UM) * Math.floor(height / NM_PER_UM);
}

// a rectangle in six numbers: its middle, cos and sin of its angle, half its width, half its height
const RECT = 7;
type Ready = { readonly least: number; readonly most: number; readonly rects: Float64Array };
const ready = new WeakMap<Curve, Ready>();

/** The useful rectangles at the ends of a curve's pieces, the largest first, and its largest area. */
function readied(curve: Curve, least: number): Ready {
  const known = ready.get(curve);
  if (known?.least === least) return known;
  const found: number[][] = [];
  let most = 0;
  for (const pieces of [curve.along, curve.any]) {
    for (let i = 0; i < pieces.length; i += STRIDE) {
      most = Math.max(most, largestOf(pieces, i));
      found.push(...[0, 4].flatMap((end) => rectAt(pieces, i, end, least)));
    }
  }
  found.sort((one, other) => (other[6] as number) - (one[6] as number));
  const unlike: number[][] = [];
  for (const rect of found) if (!unlike.some((other) => alike(rect, other))) unlike.push(rect);
  const made = { least, most, rects: Float64Array.from(unlike.flat()) };
  ready.set(curve, made);
  return made;
}

/** True where two rectangles are about the same size, at about the same place and angle. */
function alike(one: readonly number[], other: readonly number[]): boolean {
  const size = Math.max(one[4] as number, one[5] as number) * ALIKE;
  const near = (n: number, off: number): boolean =>
    Math.abs((one[n] as number) - (other[n] as number)) <= off;
  return near(0, size) && near(1, size) && near(2, ALIKE) && near(4, size) && near(5, size);
}

/** The area of the largest rectangle that a piece gives: at an end, or where w x h(w) turns. */
function largestOf(pieces: Pieces, i: number): number {
  const [w0, h0] = [pieces[i + 1] as number, pieces[i + 2] as number];
  const [w1, h1] = [pieces[i + 5] as number, pieces[i + 6] as number];
  const slope = w1 > w0 ? (h1 - h0) / (w1 - w0) : 0;
  const turns = slope < 0 ? Math.min(Math.max((w0 - h0 / slope) / 2, w0), w1) : w1;
  return Math.max(w0 * h0, w1 * h1, turns * (h0 + slope * (turns - w0)));
}

/** The rectangle at one end of a piece (0 or 4), with its area; none where it is of no use. */
function rectAt(pieces: Pieces, i: number, end: number, least: number): number[][] {
  const [w, h] = [pieces[i + end + 1] as number, pieces[i + end + 2] as number];
  if (Math.min(w, h) < Math.max(least, 1)) return [];
  const radians = (pieces[end ? i + 9 : i] as number) * (Math.PI / 180e6);
  const [cos, sin] = [Math.cos(radians), Math.sin(radians)];
  const x = (pieces[i + end + 3] as number) + (w * cos - h * sin) / 2;
  const y = (pieces[i + end + 4] as number) + (w * sin + h * cos) / 2;
  return [[x, y, cos, sin, w / 2, h / 2, w * h]];
}

/** The area (um2) of the largest rectangle that a curve gives. */
export function largestArea(curve: Curve): number {
  return readied(curve, LEAST_USEFUL_NM / NM_PER_UM).most;
}

// A host: a rectangle of the curve with the block in one of its corners.
type Host = { x: number; y: number; angle: number; w: number; h: number };
type Laid = {
  host: Host;
  /** the block in the host's frame */
  block: { u: number; v: number; w: number; h: number };
  left: number;
  /** the host's own strip that stays, or the rectangle elsewhere by where it stands in `rects` */
  stays: 'beside' | 'above' | number | null;
};

/** Where to cut the blank so that the most stays. Only for one that fits (`fitsOdd`). */
export function layOdd(curve: Curve, asked: Asked): OddPlacement {
  const [w, h] = block(asked);
  const { rects, most } = readied(curve, asked.least);
  const search = new Laying(rects, most, asked.least);
  const turned = asked.way === 'any' && w !== h;
  search.hosts(curve.along, w, h);
  if (turned) search.hosts(curve.along, h, w);
  if (asked.way === 'any') {
    search.worth = search.best ? WORTH_TURNING : 1;
    search.hosts(curve.any, w, h);
    if (turned) search.hosts(curve.any, h, w);
  }
  return placed(search.best as Laid, curve, asked, rects);
}

class Laying {
  best: Laid | null = null;
  worth = 1;

  constructor(
    private readonly rects: Float64Array,
    private readonly most: number,
    private readonly least: number,
  ) {}

  /** Every rectangle of a row that holds the block of w x h. */
  hosts(pieces: Pieces, w: number, h: number): void {
    let tried = 0;
    for (let i = 0; i < pieces.length; i += STRIDE) {
      if (Math.max(w, tried * (1 + ALIKE)) > (pieces[i + 5] as number)) continue;
      for (const [n, width] of this.widths(pieces, i, w, h).entries()) {
        if (this.best && this.best.left >= this.most) return;
        const stand = standAt(pieces, i, width);
        if (stand.w < w || stand.h < h - ROUNDING) continue;
        this.strips(stand, w, h);
        if (n === 0) this.corners(stand, w, h);
        tried = Math.max(tried, stand.w);
      }
    }
  }

  /** The widths at which a piece may leave the most: its ends, and where a strip is largest. */
  private widths(pieces: Pieces, i: number, w: number, h: number): number[] {
    const [w0, h0] = [pieces[i + 1] as number, pieces[i + 2] as number];
    const [w1, h1] = [pieces[i + 5] as number, pieces[i + 6] as number];
    const slope = w1 > w0 ? (h1 - h0) / (w1 - w0) : 0;
    if (slope >= 0) return [w1];
    const low = Math.max(w0, w);
    const high = h1 >= h ? w1 : Math.floor(w0 + (h - h0) / slope);
    const beside = (w0 + w - h0 / slope) / 2;
    const above = (w0 - (h0 - h) / slope) / 2;
    return [low, ...[high, beside, above].filter((one) => one > low && one <= high)];
  }

  /** What stays of the host itself. */
  private strips(host: Host, w: number, h: number): void {
    const { least } = this;
    const beside = Math.min(host.w - w, host.h) >= least ? (host.w - w) * host.h : 0;
    const above = Math.min(host.w, host.h - h) >= least ? host.w * (host.h - h) : 0;
    const strip = beside >= above ? 'beside' : 'above';
    const left = Math.max(beside, above);
    this.offer(left, host, { u: 0, v: 0, w, h }, left > 0 ? strip : null);
  }

  /** What stays elsewhere, with the block in one corner of the host after the other. */
  private corners(host: Host, w: number, h: number): void {
    for (const u of [0, host.w - w]) {
      for (const v of [0, host.h - h]) this.elsewhere(host, { u, v, w, h });
    }
  }

  private offer(left: number, host: Host, at: Laid['block'], stays: Laid['stays']): void {
    if (this.best && left <= this.best.left * this.worth) return;
    this.best = { host, block: at, left, stays };
  }

  /** The largest rectangle of the curve that the block does not touch. */
  private elsewhere(host: Host, at: Laid['block']): void {
    const { rects } = this;
    const radians = host.angle * (Math.PI / 180e6);
    const [cos, sin] = [Math.cos(radians), Math.sin(radians)];
    const [u, v] = [at.u + at.w / 2, at.v + at.h / 2];
    const [x, y] = [host.x + u * cos - v * sin, host.y + u * sin + v * cos];
    const least = (this.best?.left ?? 0) * this.worth;
    for (let i = 0; i < rects.length && (rects[i + 6] as number) > least; i += RECT) {
      if (apart(rects, i, x, y, cos, sin, at.w / 2, at.h / 2)) {
        this.offer(rects[i + 6] as number, host, at, i);
        return;
      }
    }
  }
}

/** True where a side of one of the two rectangles parts them. */
function apart(
  rects: Float64Array,
  i: number,
  x: number,
  y: number,
  cos: number,
  sin: number,
  w: number,
  h: number,
): boolean {
  const [ox, oy] = [rects[i] as number, rects[i + 1] as number];
  const [ocos, osin] = [rects[i + 2] as number, rects[i + 3] as number];
  const [ow, oh] = [rects[i + 4] as number, rects[i + 5] as number];
  const [dx, dy] = [ox - x, oy - y];
  const [c, s] = [Math.abs(cos * ocos + sin * osin), Math.abs(cos * osin - sin * ocos)];
  return (
    Math.abs(dx * cos + dy * sin) >= w + ow * c + oh * s ||
    Math.abs(dy * cos - dx * sin) >= h + ow * s + oh * c ||
    Math.abs(dx * ocos + dy * osin) >= ow + w * c + h * s ||
    Math.abs(dy * ocos - dx * osin) >= oh + w * s + h * c
  );
}

function placed(laid: Laid, curve: Curve, asked: Asked, rects: Float64Array): OddPlacement {
  const { host, block: at } = laid;
  const { width, height, clearance } = asked;
  const radians = host.angle * (Math.PI / 180e6);
  const [cos, sin] = [Math.cos(radians), Math.sin(radians)];
  const point = (u: number, v: number): Point => [
    Math.round((host.x + u * cos - v * sin) * NM_PER_UM),
    Math.round((host.y + u * sin + v * cos) * NM_PER_UM),
  ];
  const ring = (u: number, v: number, w: number, h: number) =>
    [point(u, v), point(u + w, v), point(u + w, v + h), point(u, v + h)] as const;
  const k = clearance / NM_PER_UM;
  const around = 2 * clearance;
  const lying = at.w === Math.ceil((width + around) / NM_PER_UM);
  const [along, across] = lying ? [width, height] : [height, width];
  const [a, b, c, d] = ring(at.u + k, at.v + k, along / NM_PER_UM, across / NM_PER_UM);
  const angle = host.angle / 1e5 + (lying ? 0 : 900);
  const [left, stays] = staying(laid, rects, ring);
  return {
    laid: 'in an outline',
    tenths: Math.round(((angle % 1800) + 1800) % 1800) % 1800,
    corners: lying ? [a, b, c, d] : [b, c, d, a],
    left,
    stays,
    spoiled: Math.max(curve.area_um2 - areaOf(asked) - Math.floor(laid.left), 0),
  };
}

type Ring = (u: number, v: number, w: number, h: number) => readonly Point[];

function staying(laid: Laid, rects: Float64Array, ring: Ring): [Point, readonly Point[] | null] {
  const { host, block: at, stays } = laid;
  if (stays === null) return [[0, 0], null];
  const size = (w: number, h: number): Point => [
    Math.floor(w) * NM_PER_UM,
    Math.floor(h) * NM_PER_UM,
  ];
  if (stays === 'beside')
    return [size(host.w - at.w, host.h), ring(at.w, 0, host.w - at.w, host.h)];
  if (stays === 'above') return [size(host.w, host.h - at.h), ring(0, at.h, host.w, host.h - at.h)];
  type Six = [number, number, number, number, number, number];
  const [x, y, cos, sin, w, h] = Array.from(rects.subarray(stays, stays + 6)) as Six;
  const corner = (u: number, v: number): Point => [
    Math.round((x + u * cos - v * sin) * NM_PER_UM),
    Math.round((y + u * sin + v * cos) * NM_PER_UM),
  ];
  return [size(2 * w, 2 * h), [corner(-w, -h), corner(w, -h), corner(w, h), corner(-w, h)]];
}
