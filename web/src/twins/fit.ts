// Whether a rectangular blank fits in a rectangular offcut, where, and what that spoils: twin of
// server/bucktail/offcuts/rectangle.py, where the condition and its source are set out. Held
// together by tests/vectors/fit.json. The yes or no is exact: ordinary numbers decide only where
// they are far from the edge, whole numbers (BigInt) where it is close.

export type Way = 'any' | 'width along a' | 'width along b';
export type Laid = 'width along a' | 'width along b' | 'askew';
export type Point = readonly [number, number];

/** Lengths nm, spoiled um2; the offcut has a corner at (0, 0), side a along x, side b along y. */
export type Placement = {
  laid: Laid;
  /** angle between the width and side a, in tenths of a degree */
  tenths: number;
  /** round the blank; the first to the second is its width */
  corners: readonly [Point, Point, Point, Point];
  /** the largest useful rectangle that stays, along a and along b; [0, 0] where none is */
  left: Point;
  spoiled: number;
};

export const LONGEST_NM = 10_000_000_000;
export const LEAST_USEFUL_NM = 25_400_000;
const NM_PER_UM = 1000;

/** True where a blank of width x height fits in a x b at some angle; whole nm, 1 nm to 10 m. */
export function fits(width: number, height: number, a: number, b: number): boolean {
  check(width, height, a, b);
  return fitsAtSomeAngle(width, height, a, b);
}

/** The placement that spoils least, or null where the blank does not fit. */
export function place(
  width: number,
  height: number,
  a: number,
  b: number,
  clearance = 0,
  way: Way = 'any',
  leastUseful = LEAST_USEFUL_NM,
): Placement | null {
  check(width, height, a, b);
  if (clearance < 0 || leastUseful < 0) {
    throw new RangeError('a clearance and a least useful width are 0 or more');
  }
  const sheet = { a, b, k: clearance, leastUseful };
  const roomA = a - 2 * clearance;
  const roomB = b - 2 * clearance;
  let best: Placement | null = null;
  if (way !== 'width along b' && width <= roomA && height <= roomB) {
    best = square('width along a', width, height, sheet);
  }
  if (way !== 'width along a' && height <= roomA && width <= roomB) {
    const other = square('width along b', width, height, sheet);
    if (best === null || other.spoiled < best.spoiled) best = other;
  }
  if (best !== null || way !== 'any' || roomA <= 0 || roomB <= 0) return best;
  return fitsAtSomeAngle(width, height, roomA, roomB) ? askew(width, height, sheet) : null;
}

type Sheet = { a: number; b: number; k: number; leastUseful: number };

function fitsAtSomeAngle(width: number, height: number, sideA: number, sideB: number): boolean {
  const p = Math.max(width, height);
  const q = Math.min(width, height);
  const a = Math.max(sideA, sideB);
  const b = Math.min(sideA, sideB);
  if (q > b) return false;
  if (p <= a) return true;
  const sum = p * p + q * q;
  const room = b * sum;
  const need = 2 * p * q * a;
  const root = (p * p - q * q) * Math.sqrt((p - a) * (p + a) + q * q);
  const spare = room - need - root;
  // a few roundings in the sixteenth figure: a thousand times that is safe to decide on
  if (Math.abs(spare) > 1e-12 * (room + need + root)) return spare > 0;
  return fitsExactly(BigInt(p), BigInt(q), BigInt(a), BigInt(b));
}

function fitsExactly(p: bigint, q: bigint, a: bigint, b: bigint): boolean {
  const sum = p * p + q * q;
  const spare = b * sum - 2n * p * q * a;
  return spare >= 0n && spare * spare >= (p * p - q * q) ** 2n * (sum - a * a);
}

function square(laid: Laid, width: number, height: number, sheet: Sheet): Placement {
  const { a, b, k, leastUseful } = sheet;
  const alongWidth = laid === 'width along a';
  const [alongA, alongB] = alongWidth ? [width, height] : [height, width];
  const origin: Point = [k, k];
  const endA: Point = [k + alongA, k];
  const far: Point = [k + alongA, k + alongB];
  const endB: Point = [k, k + alongB];
  const left = largestLeft(alongA + 2 * k, alongB + 2 * k, a, b, leastUseful);
  return {
    laid,
    tenths: alongWidth ? 0 : 900,
    corners: alongWidth ? [origin, endA, far, endB] : [origin, endB, far, endA],
    left,
    spoiled: spoils(width, height, a, b, left),
  };
}

/** Half way between the least and the greatest angle at which it fits. */
function askew(width: number, height: number, sheet: Sheet): Placement {
  const { a, b, k, leastUseful } = sheet;
  const [p, q] = [Math.max(width, height), Math.min(width, height)];
  const [roomA, roomB] = [a - 2 * k, b - 2 * k];
  const [cos, sin] = middleAngle(p, q, Math.max(roomA, roomB), Math.min(roomA, roomB));
  const start = q * sin;
  let ring: Point[] = [
    [start, 0],
    [start + p * cos, p * sin],
    [p * cos, p * sin + q * cos],
    [0, q * cos],
  ];
  let [run, rise] = [cos, sin];
  if (width < height) {
    ring = [...ring.slice(1), ...ring.slice(0, 1)];
    [run, rise] = [sin, cos];
  }
  if (roomA < roomB) {
    ring = ring.map(([x, y]) => [y, x]);
    [run, rise] = [rise, run];
  }
  const inside = ring.map(([x, y]): Point => [nearest(x, roomA) + k, nearest(y, roomB) + k]);
  const blockA = Math.min(Math.max(...inside.map(([x]) => x)) + k, a);
  const blockB = Math.min(Math.max(...inside.map(([, y]) => y)) + k, b);
  const left = largestLeft(blockA, blockB, a, b, leastUseful);
  return {
    laid: 'askew',
    tenths: Math.floor(Math.atan2(rise, run) * (180 / Math.PI) * 10 + 0.5),
    corners: inside as unknown as Placement['corners'],
    left,
    spoiled: spoils(width, height, a, b, left),
  };
}

function middleAngle(p: number, q: number, a: number, b: number): [number, number] {
  const sum = p * p + q * q;
  const s = Math.sqrt((p - a) * (p + a) + q * q);
  const t = Math.sqrt((p - b) * (p + b) + q * q);
  const cos = (a * p - q * s) / sum + (b * q + p * t) / sum;
  const sin = (a * q + p * s) / sum + (b * p - q * t) / sum;
  const length = Math.sqrt(cos * cos + sin * sin);
  return [cos / length, sin / length];
}

function nearest(value: number, most: number): number {
  return Math.min(Math.max(Math.floor(value + 0.5), 0), most);
}

/** The larger of the two strips that one straight cut leaves beside the block, where useful. */
function largestLeft(
  blockA: number,
  blockB: number,
  a: number,
  b: number,
  leastUseful: number,
): Point {
  const least = Math.max(leastUseful, 1);
  const beside = Math.min(a - blockA, b) >= least ? um2(a - blockA, b) : 0;
  const above = Math.min(a, b - blockB) >= least ? um2(a, b - blockB) : 0;
  if (beside >= above) return beside > 0 ? [a - blockA, b] : [0, 0];
  return [a, b - blockB];
}

function spoils(width: number, height: number, a: number, b: number, left: Point): number {
  return Math.max(um2(a, b) - um2(width, height) - um2(left[0], left[1]), 0);
}

/** An area in whole um2, each side first taken down to whole um. */
function um2(one: number, other: number): number {
  return Math.floor(one / NM_PER_UM) * Math.floor(other / NM_PER_UM);
}

/** True for a side in whole nm, more than zero and at most 10 m. */
export function isSide(nm: number): boolean {
  return Number.isInteger(nm) && nm >= 1 && nm <= LONGEST_NM;
}

function check(width: number, height: number, a: number, b: number): void {
  if (!(isSide(width) && isSide(height) && isSide(a) && isSide(b))) {
    throw new RangeError('a side is more than zero and at most 10 m');
  }
}
