// A layer comes into a rivet line, or its holes go up a size: the segments it makes, and what
// changes in each. Pure; how long a rivet a stack asks for is passed in.
import type { State } from '../twins/fold.ts';
import type { Line, LineLayer } from './lines.ts';
import { dashWords, restacked, type Segment, segmentsOf } from './segments.ts';
import { counted } from './words.ts';

/** A rivet's length in halves of its dash number for a stack; null where it cannot be told. */
export type DashOf = (layers: readonly LineLayer[], fastener: Segment['fastener']) => number | null;
/** `under`: beneath so many layers of the first stretch that is touched, from the factory head. */
export interface Added {
  layer: LineLayer;
  under: number;
}
/** Which segment, and how many of its holes; null for all of them. */
export interface Touched {
  at: number;
  holes: number | null;
}
export interface Change {
  name: string;
  holes: number | null;
  was: number | null;
  now: number | null;
}

const LENGTH = /-(\d{1,2}(?:\.5)?)$/;

/** The rivet without its length, and the length where its text ends in one: "MS20470AD4-3.5". */
export function rivetAndLength(text: string): { text: string; dash: number | null } {
  const [end, length] = LENGTH.exec(text.trim()) ?? [];
  if (!end || !length) return { text: text.trim(), dash: null };
  return { text: text.trim().slice(0, -end.length), dash: Number(length) * 2 };
}

/** The segments of a line; one stack all along is one segment, named like the line. */
export function segmentsAlong(line: Line, state: State, dashOf: DashOf): Segment[] {
  const recorded = segmentsOf(state);
  if (recorded.length) return recorded;
  const said = rivetAndLength(line.fastener.text);
  const fastener = { ...line.fastener, text: said.text };
  const dash = said.dash ?? dashOf(line.layers, fastener);
  const { name, count, layers } = line;
  return [{ name, count, layers, fastener, dash, was_dash: null, confirmed: dash !== null }];
}

/** The segment in two: the holes that are touched, named `name`, and the rest. */
export function parted(segment: Segment, holes: number | null, name: string): Segment[] {
  const all = holes === null || (segment.count !== null && holes >= segment.count);
  if (all) return [segment];
  const rest = segment.count === null ? null : segment.count - holes;
  return [
    { ...segment, count: rest },
    { ...segment, name, count: holes },
  ];
}

/** Every touched segment has the layer and a rivet for it, and waits to be confirmed. */
export function withLayer(
  segments: readonly Segment[],
  touched: readonly Touched[],
  { layer, under }: Added,
  dashOf: DashOf,
  name = 'with the new layer',
): Segment[] {
  const stack = stackTouched(segments, touched);
  return changed(segments, touched, name, (segment) => {
    const layers = segment.layers.toSpliced(placeIn(segment.layers, stack, under), 0, layer);
    return restacked(segment, { layers, dash: dashOf(layers, segment.fastener) });
  });
}

/** The layers among which one comes in: those of the first segment that is touched. */
export function stackTouched(
  segments: readonly Segment[],
  touched: readonly Touched[],
): readonly LineLayer[] {
  const first = touched.length ? Math.min(...touched.map((one) => one.at)) : 0;
  return segments[first]?.layers ?? [];
}

// In another stack it lies beneath the same layer, or else above the same one.
function placeIn(layers: readonly LineLayer[], stack: readonly LineLayer[], under: number): number {
  const find = (at: number): number => layers.findIndex((one) => one.part === stack[at]?.part);
  const [above, below] = [find(under - 1), find(under)];
  if (above >= 0) return above + 1;
  return below >= 0 ? below : Math.min(under, layers.length);
}

/** Every touched segment takes a larger rivet, and waits to be confirmed. */
export function upSized(
  segments: readonly Segment[],
  touched: readonly Touched[],
  fastener: Segment['fastener'],
  dashOf: DashOf,
  name = 'a size up',
): Segment[] {
  return changed(segments, touched, name, (segment) => ({
    ...restacked(segment, { dash: dashOf(segment.layers, fastener) }),
    fastener,
  }));
}

function changed(
  segments: readonly Segment[],
  touched: readonly Touched[],
  name: string,
  work: (segment: Segment) => Segment,
): Segment[] {
  return segments.flatMap((segment, at) => {
    const here = touched.find((one) => one.at === at);
    if (!here) return [segment];
    const parts = parted(segment, here.holes, name);
    const last = parts.pop() as Segment;
    return [...parts, work(last)];
  });
}

/** What an answer would record, segment by segment: "12 holes, -3.5 to -4". */
export function changesOf(after: readonly Segment[]): Change[] {
  return after
    .filter((one) => !one.confirmed)
    .map(({ name, count, was_dash, dash }) => ({ name, holes: count, was: was_dash, now: dash }));
}

/** "12 holes: -3.5 to -4" */
export function changeWords({ holes, was, now }: Change): string {
  const which = holes === null ? 'Holes not counted' : counted(holes, 'hole');
  if (now === null) return `${which}: of no length yet`;
  if (was === now) return `${which}: ${dashWords(now)}, as before`;
  return `${which}: ${was === null ? '' : `${dashWords(was)} to `}${dashWords(now)}`;
}

/** The layers that a segment had before: those of another that lacks one of its own. */
export function stackBefore(
  segments: readonly Segment[],
  { layers }: Segment,
): readonly LineLayer[] | null {
  const own = new Set(layers.map((one) => one.part));
  const fewer = segments.filter(
    (one) => one.layers.length < layers.length && one.layers.every((each) => own.has(each.part)),
  );
  fewer.sort((a, b) => b.layers.length - a.layers.length);
  return fewer[0]?.layers ?? null;
}

/** A sentence where a layer cannot be put in as it is told; empty where it can. */
export function wrongWithLayer(
  segments: readonly Segment[],
  touched: readonly Touched[],
  part: string,
): string {
  if (!part) return 'Choose the part that comes in between.';
  if (!touched.length) return 'Choose which holes it touches.';
  for (const { at, holes } of touched) {
    const segment = segments[at];
    if (!segment) continue;
    if (segment.layers.some((one) => one.part === part))
      return `That part is in “${segment.name}” already.`;
    if (segment.layers.length >= 12) return 'A joint has at most 12 layers.';
    if (holes !== null && holes < 1) return 'It touches at least one hole.';
    if (holes !== null && segment.count !== null && holes > segment.count)
      return `“${segment.name}” has ${segment.count} holes. Write at most that many.`;
  }
  return '';
}
