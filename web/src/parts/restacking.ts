// A rivet line is changed as a whole: what becomes of its stretches and of their rivets. Pure.
import type { State } from '../twins/fold.ts';
import { type Change, changesOf, type DashOf, rivetAndLength, segmentsAlong } from './layering.ts';
import type { Line, LineLayer } from './lines.ts';
import { restacked, type Segment } from './segments.ts';

/**
 * The segments to record with the changed line; null where none of its rivets is touched. A stretch
 * whose stack or rivet changed leaves its group and waits to be confirmed (T6).
 */
export function segmentsAfter(
  state: State,
  line: Line,
  after: Line,
  dashOf: DashOf,
): Segment[] | null {
  const recorded = Array.isArray(state.segments) && state.segments.length > 0;
  const before = segmentsAlong(line, state, dashOf);
  if (!recorded && !mustBeKept(line, after, before)) return null;
  const made = before.map((one) => follow(one, line, after, dashOf));
  return JSON.stringify(made) === JSON.stringify(before) ? null : made;
}

// One stack all along needs no stretch of its own, unless the length it had is not right any more.
function mustBeKept(line: Line, after: Line, [only]: readonly Segment[]): boolean {
  const said = rivetAndLength(after.fastener.text).dash;
  const saidAnew = said !== null && after.fastener.text !== line.fastener.text;
  const rivets = line.fastener.kind === 'rivet' && after.fastener.kind === 'rivet';
  if (!rivets || saidAnew || only?.dash == null) return false;
  return !sameStack(line.layers, after.layers) || after.fastener.text !== line.fastener.text;
}

const sameStack = (a: readonly LineLayer[], b: readonly LineLayer[]): boolean => {
  const told = (all: readonly LineLayer[]): string =>
    JSON.stringify(all.map(({ part, thickness }) => [part, thickness?.nm ?? null]));
  return told(a) === told(b);
};

function follow(segment: Segment, line: Line, after: Line, dashOf: DashOf): Segment {
  const rest = segment.name === line.name;
  const layers = layersAfter(segment.layers, line.layers, after.layers);
  const fastener = fastenerAfter(segment, line, after);
  const named = {
    ...segment,
    name: rest ? after.name : segment.name,
    count: rest ? countAfter(segment, line, after) : segment.count,
    layers,
    fastener,
  };
  const same = sameStack(segment.layers, layers) && sameFastener(segment.fastener, fastener);
  return same ? named : restacked(named, { dash: dashOf(layers, fastener) });
}

const sameFastener = (a: Segment['fastener'], b: Segment['fastener']): boolean =>
  a.kind === b.kind && a.text === b.text;

// What was taken out of the line goes, what came in comes in, and what was said of a layer anew is
// said of it where it was the same.
function layersAfter(
  has: readonly LineLayer[],
  before: readonly LineLayer[],
  after: readonly LineLayer[],
): LineLayer[] {
  const find = (all: readonly LineLayer[], part: string): LineLayer | undefined =>
    all.find((one) => one.part === part);
  const found = has.flatMap((layer) => {
    const [was, now] = [find(before, layer.part), find(after, layer.part)];
    if (was && !now) return [];
    return was && now && JSON.stringify(was) === JSON.stringify(layer) ? [now] : [layer];
  });
  for (const [at, layer] of after.entries()) {
    if (find(before, layer.part) || find(found, layer.part)) continue;
    const above = after[at - 1]?.part;
    found.splice(found.findLastIndex((one) => one.part === above) + 1, 0, layer);
  }
  return ordered(found, after);
}

// Layers of the line lie as the line says; those of the stretch alone stay where they are.
function ordered(layers: readonly LineLayer[], after: readonly LineLayer[]): LineLayer[] {
  const at = ({ part }: LineLayer): number => after.findIndex((one) => one.part === part);
  const own = layers.filter((one) => at(one) >= 0).sort((a, b) => at(a) - at(b));
  return layers.map((one) => (at(one) < 0 ? one : (own.shift() as LineLayer)));
}

function fastenerAfter({ fastener }: Segment, line: Line, after: Line): Segment['fastener'] {
  const plain = ({ kind, text }: Line['fastener']) => ({ kind, text: rivetAndLength(text).text });
  return sameFastener(fastener, plain(line.fastener)) ? plain(after.fastener) : fastener;
}

// Holes more or less are holes of the rest of the line.
function countAfter({ count }: Segment, line: Line, after: Line): number | null {
  if (line.count === after.count) return count;
  if (count === null || line.count === null || after.count === null)
    return count === line.count ? after.count : count;
  return Math.max(0, count + after.count - line.count);
}

/** The changes of rivets that wait now and did not, or waited for another length. */
export function newlyWaiting(before: readonly Segment[], after: readonly Segment[]): Change[] {
  const fresh = after.filter((one, at) => {
    const was = before[at];
    return !was || was.confirmed || was.dash !== one.dash || !sameStack(was.layers, one.layers);
  });
  return changesOf(fresh);
}
