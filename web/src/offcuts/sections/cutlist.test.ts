import { describe, expect, test } from 'vitest';
import { better, type Cost, lostBy, type PlanSaw, plan, worthOf } from './cutlist.ts';
import { between, layOut, needed, reachAfter, reachOf, type Stock } from './sawing.ts';

const IN = 25_400_000;
const SAW: PlanSaw = { kerf_nm: IN / 16, dress_off_nm: IN / 32, shortest_nm: 2 * IN };
const square = (inches: number): Stock => ({ length_nm: inches * IN, square_ends: 2 });

function random(seed: number): (most: number) => number {
  let state = seed;
  return (most) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * most);
  };
}

/** The best of every way there is, each piece from each length or from none; no way is left out. */
function everyWay(stock: readonly Stock[], lengths: readonly number[], saw: PlanSaw): Cost {
  let best: Cost = { unmet: Number.POSITIVE_INFINITY, unmet_nm: 0, lost: 0, touched: 0 };
  const ways = (stock.length + 1) ** lengths.length;
  for (let way = 0; way < ways; way += 1) {
    let code = way;
    const cost = { unmet: 0, unmet_nm: 0, lost: 0, touched: 0 };
    const took = stock.map((): number[] => []);
    for (const one of lengths) {
      const bar = code % (stock.length + 1);
      code = Math.floor(code / (stock.length + 1));
      if (bar === stock.length) {
        cost.unmet += 1;
        cost.unmet_nm += one;
      } else took[bar]?.push(one);
    }
    let can = true;
    for (const [bar, pieces] of took.entries()) {
      const one = stock[bar] as Stock;
      if (pieces.length === 0) continue;
      cost.touched += 1;
      can = can && needed(pieces, one.square_ends, saw) <= one.length_nm;
      if (!can) break;
      const { left } = layOut(one, pieces, saw);
      const after = left ? reachOf(left, saw) : 0;
      cost.lost += worthOf(reachOf(one, saw), saw) - worthOf(after, saw);
    }
    if (can && better(cost, best)) best = cost;
  }
  return best;
}

/** What the plan that was found comes to, reckoned from the cuts and not from the search. */
function costOf(
  stock: readonly Stock[],
  lengths: readonly number[],
  from: readonly (number | null)[],
  saw: PlanSaw,
): Cost {
  const cost = { unmet: 0, unmet_nm: 0, lost: 0, touched: 0 };
  for (const [index, one] of lengths.entries()) {
    if (from[index] !== null) continue;
    cost.unmet += 1;
    cost.unmet_nm += one;
  }
  for (const [bar, one] of stock.entries()) {
    const pieces = lengths.filter((_, index) => from[index] === bar);
    if (pieces.length === 0) continue;
    cost.touched += 1;
    const { left } = layOut(one, pieces, saw); // throws where they cannot be had
    cost.lost += worthOf(reachOf(one, saw), saw) - worthOf(left ? reachOf(left, saw) : 0, saw);
  }
  return cost;
}

describe('a cut list', () => {
  test('takes a short piece from a short length and leaves the long one whole', () => {
    const { from, proved } = plan([square(72), square(7)], [6 * IN], SAW);
    expect(from).toEqual([1]);
    expect(proved).toBe(true);
  });

  test('fills a length rather than begin another', () => {
    const { from } = plan([square(24), square(24)], [10 * IN, 10 * IN], SAW);
    expect(new Set(from).size).toBe(1);
  });

  test('what is too short to keep is used first', () => {
    const short = square(1.75);
    expect(lostBy(reachOf(short, SAW), IN, SAW)).toBe(0);
    expect(plan([square(3), short], [IN], SAW).from).toEqual([1]);
  });

  test('the kerf is kept: three thirds do not come out of a whole', () => {
    const { from, cost } = plan([square(12)], [4 * IN, 4 * IN, 4 * IN], SAW);
    expect(from.filter((one) => one !== null)).toHaveLength(2);
    expect(cost).toMatchObject({ unmet: 1, unmet_nm: 4 * IN });
    const exact = 12 * IN + 2 * (IN / 8);
    const whole = { length_nm: exact, square_ends: 2 };
    expect(plan([whole], [4 * IN, 4 * IN, 4 * IN], SAW).cost.unmet).toBe(0);
    const less = { length_nm: exact - 1, square_ends: 2 };
    expect(plan([less], [4 * IN, 4 * IN, 4 * IN], SAW).cost.unmet).toBe(1);
  });

  test('more pieces come before longer ones', () => {
    const { from } = plan([square(10)], [9 * IN, 4 * IN, 4 * IN], SAW);
    expect(from).toEqual([null, 0, 0]);
  });

  test('nothing asked, or nothing there', () => {
    expect(plan([square(10)], [], SAW)).toMatchObject({ from: [], proved: true });
    expect(plan([], [IN], SAW).from).toEqual([null]);
  });

  test('is as good as the best of every way there is', { timeout: 30_000 }, () => {
    const draw = random(5);
    let unmet = 0;
    for (let round = 0; round < 300; round += 1) {
      const saw = {
        kerf_nm: draw(4) * 300_000,
        dress_off_nm: draw(3) * 200_000,
        shortest_nm: draw(4) * 5_000_000,
      };
      const stock = Array.from({ length: 1 + draw(3) }, () => ({
        length_nm: (5 + draw(40)) * 1_000_000,
        square_ends: draw(3),
      }));
      const lengths = Array.from({ length: 1 + draw(5) }, () => (2 + draw(18)) * 1_000_000);
      const found = plan(stock, lengths, saw);
      const said = JSON.stringify({ saw, stock, lengths });
      expect(found.proved, said).toBe(true);
      expect(found.cost, said).toEqual(everyWay(stock, lengths, saw));
      expect(costOf(stock, lengths, found.from, saw), said).toEqual(found.cost);
      if (found.cost.unmet) unmet += 1;
    }
    expect(unmet).toBeGreaterThan(30); // both sorts of question were asked
    expect(unmet).toBeLessThan(270);
  });

  test('a long list is answered, every cut can be made, and it says that not all was tried', {
    timeout: 30_000,
  }, () => {
    const draw = random(3);
    const stock = Array.from({ length: 60 }, () => ({
      length_nm: (100 + draw(1500)) * 1_000_000,
      square_ends: draw(3),
    }));
    const lengths = Array.from({ length: 100 }, () => (20 + draw(400)) * 1_000_000);
    const found = plan(stock, lengths, SAW);
    expect(costOf(stock, lengths, found.from, SAW)).toEqual(found.cost);
    expect(found.proved).toBe(false);
    expect(better(found.cost, firstFit(stock, lengths, SAW))).toBe(true);
  });
});

test('where little is there, as many pieces as can be are had', { timeout: 30_000 }, () => {
  const draw = random(9);
  for (let round = 0; round < 8; round += 1) {
    const stock = Array.from({ length: 5 }, () => ({
      length_nm: (100 + draw(1500)) * 1_000_000,
      square_ends: draw(3),
    }));
    const lengths = Array.from({ length: 60 }, () => (20 + draw(400)) * 1_000_000);
    const found = plan(stock, lengths, SAW);
    const had = lengths.length - found.cost.unmet;
    expect(costOf(stock, lengths, found.from, SAW)).toEqual(found.cost);
    // no more can be had than if all of it were one length to a cut, and at most one fewer a length
    const sorted = [...lengths].sort((a, b) => a - b);
    let room = stock.reduce((sum, one) => sum + reachOf(one, SAW) + between(SAW), 0);
    let most = 0;
    for (const one of sorted) {
      room -= one + between(SAW);
      if (room < 0) break;
      most += 1;
    }
    expect(had).toBeLessThanOrEqual(most);
    expect(had).toBeGreaterThanOrEqual(most - stock.length);
  }
});

/** The way without thought: the longest piece first, from the first length that has it. */
function firstFit(stock: readonly Stock[], lengths: readonly number[], saw: PlanSaw): Cost {
  const reach = stock.map((one) => reachOf(one, saw));
  const cost = { unmet: 0, unmet_nm: 0, lost: 0, touched: 0 };
  const touched = new Set<number>();
  for (const one of [...lengths].sort((a, b) => b - a)) {
    const bar = reach.findIndex((there) => there >= one);
    const there = reach[bar];
    if (there === undefined) {
      cost.unmet += 1;
      cost.unmet_nm += one;
      continue;
    }
    touched.add(bar);
    cost.lost += lostBy(there, one, saw);
    reach[bar] = reachAfter(there, one, saw);
  }
  return { ...cost, touched: touched.size };
}
