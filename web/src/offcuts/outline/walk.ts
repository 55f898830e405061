// Walking round a sheet: from side to side, by length and by the corner in between, with the metal
// to the left; and what becomes of a walk that does not quite come back to where it began. Pure.
import { alongCurve } from './curves.ts';
import { crossing, distance, meet, type Point, turn } from './exact.ts';
import { direction, doubledArea, nm, type Ring } from './rings.ts';

const MICRO = 1_000_000;
const HALF_TURN = 180 * MICRO;

/** One side: its length (of the straight between its ends) and the corner at its far end. */
export interface Step {
  length: number; // nm
  /** the angle that the metal has at the corner behind this side, millionths of a degree, 0 to 360 */
  corner: number;
  /** of a curved side: how far its middle stands off the straight, out of the metal or into it */
  curve?: { rise: number; way: 'out' | 'in' } | undefined;
}

export interface Walked {
  /** where each side ends, the start first: one more than there are sides */
  ends: Point[];
  /** which way each side runs, millionths of a degree from the first */
  headings: number[];
}

export function walk(steps: readonly Step[]): Walked {
  const ends: Point[] = [[0, 0]];
  const headings: number[] = [];
  let heading = 0;
  for (const { length, corner } of steps) {
    const [cos, sin] = direction(heading);
    const [x, y] = ends.at(-1) as Point;
    ends.push([nm(x + length * cos), nm(y + length * sin)]);
    headings.push(heading);
    heading = (heading + HALF_TURN - corner) % (2 * HALF_TURN);
  }
  return { ends, headings };
}

/** A gap no larger than this is what measuring leaves: this share of the way round, at most 3 mm. */
const GAP_SHARE = 0.005;
const GAP_MOST_NM = 3_000_000;

export type Closing =
  | { is: 'closed' | 'back'; gap: 0 }
  | { is: 'nearly'; gap: number } // closed on the safe side
  | { is: 'open'; gap: number };

/** How far a walk ends from where it began, and whether that is near enough. */
export function closingOf(steps: readonly Step[], { ends }: Walked, back: boolean): Closing {
  const gap = distance(ends[0] as Point, ends.at(-1) as Point);
  if (gap === 0) return { is: 'closed', gap: 0 };
  if (back) return { is: 'back', gap: 0 };
  const round = steps.reduce((sum, { length }) => sum + length, 0);
  const near = steps.length > 2 && gap <= Math.min(round * GAP_SHARE, GAP_MOST_NM);
  return { is: near ? 'nearly' : 'open', gap };
}

export interface Around {
  ring: Ring;
  /** for each side of the ring the side walked that it is of; one more is the way straight back */
  of: number[];
}

/** The ring that a walk goes round, its curved sides as chords; of an open one, as far as it goes. */
export function ringOf(steps: readonly Step[], { ends }: Walked, closing: Closing): Around {
  const [start, last] = [ends[0] as Point, ends.at(-1) as Point];
  const joined = closing.is === 'nearly' ? joint(ends) : [start];
  const ring: Point[] = [...joined];
  const of = joined.map((_, at) => (at === joined.length - 1 ? 0 : steps.length - 1));
  for (const [at, step] of steps.entries()) {
    const [from, to] = [ends[at] as Point, ends[at + 1] as Point];
    const more = step.curve ? alongCurve(from, to, step.curve.rise, step.curve.way) : [];
    const corners = at > 0 ? [from, ...more] : more;
    ring.push(...corners);
    of.push(...corners.map(() => at));
  }
  if (closing.is === 'back' || closing.is === 'open') {
    ring.push(last);
    of.push(steps.length);
  }
  return { ring, of };
}

/**
 * The corners that join the last side to the first where the walk ends beside its start. The start
 * may be where it was said to be, or where the walk ended: what is metal both ways is kept.
 */
function joint(ends: readonly Point[]): Point[] {
  const [start, next] = [ends[0] as Point, ends[1] as Point];
  const [before, end] = [ends.at(-2) as Point, ends.at(-1) as Point];
  for (const [one, other] of [
    [start, end],
    [end, start],
  ] as const) {
    const found = meet([before, one], [other, next]);
    if (found?.how !== 'cross') continue;
    const at = crossing([before, one], [other, next]);
    const first = turn(before, at, other) > 0 ? [other, at] : [at];
    return turn(at, next, one) > 0 ? [...first, one] : first;
  }
  const whole = [...ends.slice(1, -1)];
  return doubledArea([start, ...whole]) <= doubledArea([end, ...whole]) ? [start] : [end];
}
