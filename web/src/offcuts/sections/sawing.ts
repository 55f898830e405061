// What can be had from a length of stock, to the nanometre. Every saw cut takes its kerf, and every
// sawn end is left longer by the dress-off and dressed to size. Pure.
//
// A finished piece has both its ends dressed. Between two pieces lie the dress-off of the one, the
// kerf, and the dress-off of the other. At an end of the stock that is sawn or rough the dress-off
// is lost; at one that is square and dressed a piece may begin without any loss. So all that counts
// of a length is its *reach*: the longest piece that can still be had from it. A piece of length l
// fits exactly when l <= reach, and leaves a length whose reach is shorter by l, the kerf and two
// dress-offs. What is too short for another saw cut is dressed off.

export interface Saw {
  readonly kerf_nm: number;
  readonly dress_off_nm: number;
}
/** A length of stock; so many of its two ends are square and dressed. */
export interface Stock {
  readonly length_nm: number;
  readonly square_ends: number;
}

/** The longest piece that can be had from it; 0 where none can. */
export function reachOf({ length_nm, square_ends }: Stock, { dress_off_nm }: Saw): number {
  return Math.max(length_nm - (2 - square_ends) * dress_off_nm, 0);
}

/** What lies between two finished pieces. */
export function between({ kerf_nm, dress_off_nm }: Saw): number {
  return kerf_nm + 2 * dress_off_nm;
}

/** The reach of what is left where a piece was taken from this reach. */
export function reachAfter(reach: number, length_nm: number, saw: Saw): number {
  return Math.max(reach - length_nm - between(saw), 0);
}

/** The length that would have to be there for these pieces, whatever is left beside them. */
export function needed(lengths: readonly number[], square_ends: number, saw: Saw): number {
  const pieces = lengths.reduce((sum, one) => sum + one, 0);
  return pieces + (lengths.length - 1) * between(saw) + (2 - square_ends) * saw.dress_off_nm;
}

/** One piece as it lies: finished, from and to, measured from the datum end. */
export interface Lying {
  readonly from: number;
  readonly to: number;
}
/** A saw cut: marked at its near side, and as wide as the kerf. */
export interface SawCut {
  readonly at: number;
  readonly far: number;
}
/**
 * All that is done to one length, measured from the datum: an end that is square already, or else
 * the one that is dressed first (`dressed_first` is taken off it, and the length counts from there).
 * `dressed_last` is taken off the far end where that is the end of the last piece.
 */
export interface LaidOut {
  readonly length: number;
  readonly dressed_first: number;
  readonly pieces: readonly Lying[];
  readonly cuts: readonly SawCut[];
  readonly dressed_last: number;
  readonly left: Stock | null;
}

/** Lays the pieces along the stock in this order. Throws RangeError where they cannot all be had. */
export function layOut(stock: Stock, lengths: readonly number[], saw: Saw): LaidOut {
  if (lengths.length === 0 || needed(lengths, stock.square_ends, saw) > stock.length_nm)
    throw new RangeError('these pieces cannot be had from this length');
  const { kerf_nm, dress_off_nm } = saw;
  const dressed_first = stock.square_ends > 0 ? 0 : dress_off_nm;
  const length = stock.length_nm - dressed_first;
  const pieces: Lying[] = [];
  const cuts: SawCut[] = [];
  let from = 0;
  for (const one of lengths) {
    const to = from + one;
    pieces.push({ from, to });
    const at = to + dress_off_nm;
    if (at + kerf_nm <= length) cuts.push({ at, far: at + kerf_nm });
    from = to + between(saw);
  }
  const end = pieces.at(-1)?.to ?? 0;
  const sawnOff = cuts.length === pieces.length;
  const rest = length - end - dress_off_nm - kerf_nm;
  const far_end = stock.square_ends > 1 ? 1 : 0;
  return {
    length,
    dressed_first,
    pieces,
    cuts,
    dressed_last: sawnOff ? 0 : length - end,
    left: sawnOff && rest > 0 ? { length_nm: rest, square_ends: far_end } : null,
  };
}
