import { describe, expect, test } from 'vitest';
import { layOut, needed, reachAfter, reachOf, type Saw, type Stock } from './sawing.ts';

const IN = 25_400_000;
const SAW: Saw = { kerf_nm: IN / 16, dress_off_nm: IN / 32 };

/**
 * Saws and dresses as at the bench, one nanometre of metal at a time being what it is: takes each
 * piece off the length in hand in turn. Null where one cannot be had.
 */
function atTheBench(stock: Stock, lengths: readonly number[], saw: Saw): number[] | null {
  let { length_nm: hand } = stock;
  let [near, far] = [stock.square_ends > 0, stock.square_ends > 1];
  const had: number[] = [];
  for (const one of lengths) {
    if (!near) hand -= saw.dress_off_nm; // the near end is dressed
    const over = hand - one;
    if (over < (far ? 0 : saw.dress_off_nm)) return null;
    if (over >= saw.dress_off_nm + saw.kerf_nm) {
      // sawn off, left longer, dressed to size
      hand = over - saw.dress_off_nm - saw.kerf_nm;
      near = false;
    } else {
      // too little for a cut: dressed down to size from the far end
      hand = 0;
      near = false;
      far = false;
    }
    had.push(one);
  }
  return [...had, hand];
}

function random(seed: number): (most: number) => number {
  let state = seed;
  return (most) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * most);
  };
}

describe('what can be had', () => {
  test('a piece as long as a length with two square ends, and not a nanometre more', () => {
    const stock = { length_nm: 6 * IN, square_ends: 2 };
    expect(reachOf(stock, SAW)).toBe(6 * IN);
    expect(layOut(stock, [6 * IN], SAW)).toMatchObject({ cuts: [], dressed_last: 0, left: null });
    expect(() => layOut(stock, [6 * IN + 1], SAW)).toThrow(RangeError);
  });

  test('a sawn end loses the dress-off', () => {
    expect(reachOf({ length_nm: 6 * IN, square_ends: 1 }, SAW)).toBe(6 * IN - IN / 32);
    expect(reachOf({ length_nm: 6 * IN, square_ends: 0 }, SAW)).toBe(6 * IN - IN / 16);
    expect(reachOf({ length_nm: 10, square_ends: 0 }, SAW)).toBe(0);
  });

  test('two pieces have a kerf and two dress-offs between them', () => {
    expect(needed([2 * IN, 3 * IN], 2, SAW)).toBe(5 * IN + IN / 8);
    const laid = layOut({ length_nm: 8 * IN, square_ends: 1 }, [3 * IN, 2 * IN], SAW);
    expect(laid.pieces).toEqual([
      { from: 0, to: 3 * IN },
      { from: 3 * IN + IN / 8, to: 5 * IN + IN / 8 },
    ]);
    expect(laid.cuts).toEqual([
      { at: 3 * IN + IN / 32, far: 3 * IN + IN / 32 + IN / 16 },
      { at: 5 * IN + IN / 8 + IN / 32, far: 5 * IN + IN / 8 + IN / 32 + IN / 16 },
    ]);
    expect(laid.left).toEqual({ length_nm: 3 * IN - IN / 8 - 3 * (IN / 32), square_ends: 0 });
  });

  test('a rough end is dressed first, and everything is measured from it', () => {
    const laid = layOut({ length_nm: 8 * IN, square_ends: 0 }, [2 * IN], SAW);
    expect(laid.dressed_first).toBe(IN / 32);
    expect(laid.length).toBe(8 * IN - IN / 32);
    expect(laid.pieces[0]).toEqual({ from: 0, to: 2 * IN });
  });

  test('what is too short for a saw cut is dressed off', () => {
    const over = IN / 16;
    const laid = layOut({ length_nm: 6 * IN + over, square_ends: 2 }, [6 * IN], SAW);
    expect(laid).toMatchObject({ cuts: [], dressed_last: over, left: null });
  });

  test('without kerf and dress-off nothing is lost', () => {
    const shears = { kerf_nm: 0, dress_off_nm: 0 };
    const laid = layOut({ length_nm: 6 * IN, square_ends: 0 }, [2 * IN, 2 * IN, 2 * IN], shears);
    expect(laid.left).toBeNull();
    expect(laid.pieces.at(-1)?.to).toBe(6 * IN);
  });
});

/** What does not agree about one length and its pieces; null where nothing fits at the bench. */
function faultsIn(stock: Stock, lengths: readonly number[], saw: Saw): string[] | null {
  const bench = atTheBench(stock, lengths, saw);
  const found: string[] = [];
  const agree = (what: string, one: unknown, other: unknown): void => {
    if (one !== other) found.push(`${what}: ${one}, ${other}`);
  };
  let reach = reachOf(stock, saw);
  let all = true;
  for (const one of lengths) {
    if (one > reach) all = false;
    else reach = reachAfter(reach, one, saw);
  }
  const fits = needed(lengths, stock.square_ends, saw) <= stock.length_nm;
  agree('fits', fits, bench !== null);
  agree('piece by piece', all, fits);
  if (!bench) return found.length ? found : null;
  const laid = layOut(stock, lengths, saw);
  const left = laid.left ?? { length_nm: 0, square_ends: 0 };
  agree('left', left.length_nm, bench.at(-1));
  agree('reach of what is left', reachOf(left, saw), reach);
  const pieces = lengths.reduce((sum, one) => sum + one, 0);
  const dust = laid.cuts.length * saw.kerf_nm;
  const ends = (laid.pieces.length - 1 + laid.cuts.length) * saw.dress_off_nm;
  const dressed = laid.dressed_first + laid.dressed_last + ends;
  agree('metal', pieces + dust + dressed + left.length_nm, stock.length_nm);
  for (const [index, { from, to }] of laid.pieces.entries()) {
    agree('piece', to - from, lengths[index]);
    if (to > laid.length) found.push(`a piece ends at ${to} of ${laid.length}`);
    const cut = laid.cuts[index];
    if (cut) agree('cut', cut.at - to, saw.dress_off_nm);
  }
  return found;
}

test('20,000 lengths come out as they do at the bench, and no metal is gained or lost', () => {
  const draw = random(11);
  let had = 0;
  const wrong: string[] = [];
  for (let round = 0; round < 20_000; round += 1) {
    const saw = { kerf_nm: draw(5), dress_off_nm: draw(4) };
    const stock = { length_nm: 1 + draw(60), square_ends: draw(3) };
    const lengths = Array.from({ length: 1 + draw(4) }, () => 1 + draw(25));
    const faults = faultsIn(stock, lengths, saw);
    if (faults) had += 1;
    if (faults?.length)
      wrong.push(`${JSON.stringify([saw, stock, lengths])}: ${faults.join('; ')}`);
  }
  expect(wrong).toEqual([]);
  expect(had).toBeGreaterThan(3_000);
});
