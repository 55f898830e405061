// Whether a rectangle fits in an outline, by its fit curve, and where: twin of Curve in
// server/bucktail/offcuts/fitting/curve.py, where the curve and why it is sound are set out. Held
// together by tests/vectors/curve.json. What is claimed is decided in whole numbers of um, so both
// sides say the same.

/**
 * Ten whole numbers a piece, narrowest piece first: the angle at its narrow end (millionths of a
 * degree), then width, height, x and y there (um), the same at its wide end, and the angle there.
 */
export type Pieces = Int32Array;
export type Curve = {
  readonly area_um2: number;
  /** at any angle; only rectangles at least as wide as tall */
  readonly any: Pieces;
  /** at angle 0, the width parallel to x */
  readonly along: Pieces;
};
/** A rectangle in the outline: (x, y) + R(angle)([0, w] x [0, h]); um and millionths of a degree. */
export type Stand = {
  readonly angle: number;
  readonly w: number;
  readonly h: number;
  readonly x: number;
  readonly y: number;
};

export const STRIDE = 10;
const NEWEST = 1;

/** The curve as it came, packed; null for one of a version that is not known here. */
export function curveFrom(told: unknown): Curve | null {
  const { v, area_um2, any, along } = (told ?? {}) as Record<string, unknown>;
  const [first, second] = [packed(any), packed(along)];
  if (v !== NEWEST || !Number.isSafeInteger(area_um2) || !first || !second) return null;
  return { area_um2: area_um2 as number, any: first, along: second };
}

/** Where the angle stays as it is, a piece came without its last number. */
function packed(pieces: unknown): Pieces | null {
  if (!Array.isArray(pieces)) return null;
  const row = new Int32Array(pieces.length * STRIDE);
  for (const [n, piece] of pieces.entries()) {
    if (!Array.isArray(piece) || piece.length < STRIDE - 1 || piece.length > STRIDE) return null;
    if (!piece.every((one) => Number.isInteger(one) && Math.abs(one) < 2 ** 31)) return null;
    row.set(piece, n * STRIDE);
    if (piece.length < STRIDE) row[n * STRIDE + STRIDE - 1] = piece[0];
  }
  return row;
}

/**
 * Where in `pieces` the piece starts that holds a rectangle of w x h (um); -1 where none does. A
 * wider rectangle holds a narrower one, so it may be a piece that only starts beyond w. `from` and
 * `to` are the curve's part of the row, where it holds more than one.
 */
export function pieceFor(
  pieces: Pieces,
  w: number,
  h: number,
  from = 0,
  to = pieces.length,
): number {
  let [low, high] = [from / STRIDE, to / STRIDE];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((pieces[middle * STRIDE + 5] as number) < w) low = middle + 1;
    else high = middle;
  }
  for (let i = low * STRIDE; i < to; i += STRIDE) {
    const w1 = pieces[i + 5] as number;
    const [w0, h0] = [pieces[i + 1] as number, pieces[i + 2] as number];
    if (w <= w0) {
      if (h <= h0) return i;
    } else if (h * (w1 - w0) <= h0 * (w1 - w0) + ((pieces[i + 6] as number) - h0) * (w - w0)) {
      return i;
    }
  }
  return -1;
}

/** True where a blank of w x h (um) fits at some angle; `along`: as it lies, w parallel to x. */
export function claims(curve: Curve, w: number, h: number, along = false): boolean {
  if (along) return pieceFor(curve.along, w, h) >= 0;
  return pieceFor(curve.any, Math.max(w, h), Math.min(w, h)) >= 0;
}

/** The rectangle that a piece gives at a width (um), or at the nearer of its ends. */
export function standAt(pieces: Pieces, piece: number, width: number): Stand {
  const [w0, w1] = [pieces[piece + 1] as number, pieces[piece + 5] as number];
  const w = Math.min(Math.max(width, w0), w1);
  const share = w1 > w0 ? (w - w0) / (w1 - w0) : 0;
  const between = (from: number, to: number): number => {
    const start = pieces[piece + from] as number;
    return start + ((pieces[piece + to] as number) - start) * share;
  };
  return { angle: between(0, 9), w, h: between(2, 6), x: between(3, 7), y: between(4, 8) };
}

/** Where a blank of w x h (um) stands; null where none does. At any angle its longer side is w. */
export function witness(curve: Curve, w: number, h: number, along = false): Stand | null {
  const pieces = along ? curve.along : curve.any;
  const [wide, tall] = along ? [w, h] : [Math.max(w, h), Math.min(w, h)];
  const piece = pieceFor(pieces, wide, tall);
  return piece < 0 ? null : { ...standAt(pieces, piece, wide), w: wide, h: tall };
}

/** The widest w (um) at which h still fits; 0 where it is too tall for all. */
export function widest(pieces: Pieces, h: number, from = 0, to = pieces.length): number {
  for (let i = to - STRIDE; i >= from; i -= STRIDE) {
    const [w0, w1] = [pieces[i + 1] as number, pieces[i + 5] as number];
    const [h0, h1] = [pieces[i + 2] as number, pieces[i + 6] as number];
    if (h <= h1) return w1;
    if (h <= h0) return w0 + Math.floor(((h0 - h) * (w1 - w0)) / (h0 - h1));
  }
  return 0;
}

/** The tallest h (um) at a width; 0 where it is too wide for all. */
export function tallest(pieces: Pieces, w: number, from = 0, to = pieces.length): number {
  let most = 0;
  for (let i = from; i < to; i += STRIDE) {
    if (w > (pieces[i + 5] as number)) continue;
    most = Math.max(most, Math.floor(standAt(pieces, i, w).h));
  }
  return most;
}
