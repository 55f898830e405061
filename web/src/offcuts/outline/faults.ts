// What is wrong with an outline, in a sentence and at its place. The workshop's computer looks at
// the same again before it measures one. Pure.
import { LONGEST_NM } from '../../twins/fit.ts';
import { type Meeting, meet, type Point, type Side, same, sidesOf } from './exact.ts';
import { boundsOf, doubledArea, holds, type Ring } from './rings.ts';

export const MOST_POINTS = 2_000;
export const MOST_HOLES = 100;
/** Metal that is nowhere wider is of no use, and cannot be measured by hand. */
const SLIVER_NM = 200_000;
const SHOWN = 3; // faults of one sort are enough to see what is wrong

export interface Fault {
  code: string;
  sentence: string;
  points: readonly Point[];
  sides: readonly Side[];
}

/** What is at fault is called by these: "Side 3", "the edge of keep-out 1". */
export interface Called {
  side: (at: number) => string;
  hole: (at: number) => string;
}
const PLAIN: Called = {
  side: (at) => `side ${at + 1}`,
  hole: (at) => `keep-out ${at + 1}`,
};

/** Everything that is wrong with these rings; empty where they make a sound outline. */
export function faultsIn(outer: Ring, holes: readonly Ring[] = [], called = PLAIN): Fault[] {
  const sizes = sizeFaults(outer, holes);
  if (sizes.length) return sizes;
  const crossed = crossings([outer, ...holes].map(sidesOf), called);
  if (crossed.length) return crossed;
  const nested = holes.flatMap((hole, at) => {
    const [corner] = hole;
    if (!corner || holds(outer, corner)) return [];
    return [outsideFault(called.hole(at), hole)];
  });
  return nested.length ? nested : slivers(outer, holes);
}

export function outsideFault(name: string, hole: Ring): Fault {
  const sentence = `${capital(name)} lies outside the sheet. Look at which edges it was measured from.`;
  return { code: 'outside', sentence, points: hole.slice(0, 1), sides: sidesOf(hole) };
}

function sizeFaults(outer: Ring, holes: readonly Ring[]): Fault[] {
  const points = holes.reduce((sum, hole) => sum + hole.length, outer.length);
  const said = (code: string, sentence: string, at: readonly Point[] = []): Fault[] => [
    { code, sentence, points: at, sides: [] },
  ];
  if (points > MOST_POINTS || holes.length > MOST_HOLES)
    return said(
      'many',
      `That makes ${points} corners and ${holes.length} holes; at most ${MOST_POINTS} and ${MOST_HOLES} can be kept. Leave out what lies closer together than you can measure.`,
    );
  if (outer.length < 3)
    return said('few', 'It takes three sides to go round a sheet. Add the next side.', outer);
  const { x0, y0, x1, y1 } = boundsOf(outer);
  if (x1 - x0 > LONGEST_NM || y1 - y0 > LONGEST_NM)
    return said('far', 'The sheet would be longer than 10 m. Look at the lengths and their units.');
  if (Math.min(x1 - x0, y1 - y0) < SLIVER_NM) return said('sliver', SLIVER, outer);
  return [];
}

const SLIVER =
  'There is next to no metal in this outline: it is narrower than 0.2 mm. Look at the lengths, the corners and their units.';

interface Placed {
  side: Side;
  ring: number; // 0 the outline, then the holes
  at: number;
  count: number;
  low: number;
  high: number;
}

/** The same for a way that is still open: where its sides cross. */
export function crossedOn(chain: Ring, called: Called): Fault[] {
  return crossings([sidesOf(chain).slice(0, -1)], called);
}

function crossings(rings: Side[][], called: Called): Fault[] {
  const all = rings.flatMap((sides, number) =>
    sides.map((side, at): Placed => {
      const [low, high] = [Math.min(side[0][0], side[1][0]), Math.max(side[0][0], side[1][0])];
      return { side, ring: number, at, count: sides.length, low, high };
    }),
  );
  all.sort((one, other) => one.low - other.low);
  const found: Fault[] = [];
  for (let i = 0; i < all.length && found.length < SHOWN; i++) {
    const one = all[i] as Placed;
    for (let j = i + 1; j < all.length && (all[j] as Placed).low <= one.high; j++) {
      const other = all[j] as Placed;
      const meeting = meet(one.side, other.side);
      if (meeting && !isCorner(one, other, meeting)) found.push(met(one, other, meeting, called));
      if (found.length >= SHOWN) break;
    }
  }
  return found;
}

/** Neighbours meet in the corner they share, and nowhere else. */
function isCorner(one: Placed, other: Placed, { how, at }: Meeting): boolean {
  if (one.ring !== other.ring || how !== 'touch') return false;
  const follows = (a: Placed, b: Placed): boolean =>
    (a.at + 1) % a.count === b.at && same(a.side[1], at);
  return follows(one, other) || follows(other, one);
}

function met(one: Placed, other: Placed, { how, at }: Meeting, called: Called): Fault {
  const [first, second] =
    one.ring - other.ring || one.at - other.at ? inOrder(one, other) : [one, other];
  const name = ({ ring, at: side }: Placed): string =>
    ring === 0 ? called.side(side) : called.hole(ring - 1);
  const word = { cross: 'crosses', touch: 'touches', along: 'runs back along' }[how];
  const advice =
    first.ring || second.ring
      ? 'Look at where it was measured from.'
      : 'Look at the lengths and corners that lead there.';
  return {
    code: how === 'touch' ? 'touching' : 'crossed',
    sentence: `${capital(name(second))} ${word} ${name(first)}. ${advice}`,
    points: [at],
    sides: [first.side, second.side],
  };
}

const inOrder = (one: Placed, other: Placed): [Placed, Placed] =>
  one.ring < other.ring || (one.ring === other.ring && one.at < other.at)
    ? [one, other]
    : [other, one];

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Less metal than a strip of SLIVER_NM along half the edge. */
function slivers(outer: Ring, holes: readonly Ring[]): Fault[] {
  const size = (doubled: bigint): bigint => (doubled < 0n ? -doubled : doubled);
  const doubled = holes.reduce(
    (sum, hole) => sum - size(doubledArea(hole)),
    size(doubledArea(outer)),
  );
  const edge = sidesOf(outer).reduce(
    (sum, [[x, y], [u, v]]) => sum + Math.abs(u - x) + Math.abs(v - y),
    0,
  );
  if (2n * doubled >= BigInt(edge) * BigInt(SLIVER_NM)) return [];
  return [{ code: 'sliver', sentence: SLIVER, points: outer, sides: [] }];
}
