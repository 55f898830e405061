// Where along a rivet line the stack changes: segments, which rivets they take, and whether those
// wait for someone to confirm their length.
import type { State } from '../twins/fold.ts';
import type { Fastening, Line, LineLayer } from './lines.ts';
import { counted, listed } from './words.ts';

// as in the body of line.segments.v1; dashes are in halves of a dash number: -3.5 is 7
export type Segment = {
  name: string;
  count: number | null;
  layers: LineLayer[];
  fastener: { kind: Fastening; text: string };
  dash: number | null;
  was_dash: number | null;
  confirmed: boolean;
};
// Segments that take the same rivet.
export interface Group {
  fastener: Segment['fastener'];
  dash: number | null;
  segments: Segment[];
  holes: number | null; // null where those of one segment are not counted
}

export function segmentsOf(state: State): Segment[] {
  return (state.segments ?? []) as Segment[];
}

// "-3.5", or "of no length yet"
export function dashWords(dash: number | null): string {
  return dash === null ? 'of no length yet' : `-${dash / 2}`;
}

// In the order in which they come along the line. A segment whose rivets change leaves its group.
export function groupsOf(segments: Segment[]): Group[] {
  const groups = new Map<string, Group>();
  for (const segment of segments) {
    const { fastener, dash, count } = segment;
    const key = JSON.stringify([fastener.kind, fastener.text, dash]);
    const group = groups.get(key) ?? { fastener, dash, segments: [], holes: 0 };
    group.segments.push(segment);
    group.holes = group.holes === null || count === null ? null : group.holes + count;
    groups.set(key, group);
  }
  return [...groups.values()];
}

// A segment with another stack, or another length of rivet: it waits until someone confirms it.
export function restacked(
  segment: Segment,
  { layers, dash }: { layers?: LineLayer[]; dash: number | null },
): Segment {
  const was = segment.confirmed ? segment.dash : segment.was_dash;
  return {
    ...segment,
    layers: layers ?? segment.layers,
    dash,
    was_dash: was,
    confirmed: false,
  };
}

// The segments of a line once the rivets of a group are confirmed.
export function confirmedIn(segments: Segment[], group: Group): Segment[] {
  return withLength(segments, group, group.dash);
}

// The same with another length for the rivets of a group, chosen by whoever confirms it.
export function withLength(segments: Segment[], group: Group, dash: number | null): Segment[] {
  if (dash === null) return segments;
  return segments.map((one) => {
    if (!group.segments.includes(one)) return one;
    const was = one.confirmed && one.dash !== dash ? one.dash : one.was_dash;
    return { ...one, dash, was_dash: was, confirmed: true };
  });
}

const holesOf = (segments: Segment[]): string => {
  const named = segments.filter((one) => one.count === null).map((one) => `“${one.name}”`);
  const holes = segments.reduce((sum, one) => sum + (one.count ?? 0), 0);
  return listed([...(holes ? [counted(holes, 'hole')] : []), ...named]);
};

// Why a line is not ready to rivet, in sentences; none where every length is confirmed.
export function waitingWords(segments: Segment[]): string[] {
  const waiting = new Map<string, Segment[]>();
  for (const one of segments) {
    const key = `${one.fastener.kind} ${one.was_dash} ${one.dash}`;
    if (!one.confirmed) waiting.set(key, [...(waiting.get(key) ?? []), one]);
  }
  return [...waiting.values()].map((same) => {
    const { dash, was_dash, fastener } = same[0] as Segment;
    const whose = `The ${fastener.kind}s of ${holesOf(same)}`;
    if (dash === null) return `${whose} have no length yet: give them one first.`;
    if (was_dash === null) return `${whose} are to be ${dashWords(dash)}: confirm them first.`;
    if (was_dash === dash)
      return `${whose} stay ${dashWords(dash)} in a stack that changed: confirm them first.`;
    return `${whose} changed from ${dashWords(was_dash)} to ${dashWords(dash)}: confirm them first.`;
  });
}

// A sentence where the segments cannot be recorded as they stand; empty when they can.
export function wrongWithSegments(line: Line, segments: Segment[]): string {
  if (segments.length > 40) return 'A line has at most 40 segments. Put some together.';
  if (segments.some((one) => !one.name.trim()))
    return 'Give every segment a name, for example “over the shim”.';
  if (segments.some((one) => !one.layers.length)) return 'Every segment joins at least one layer.';
  const holes = segments.reduce((sum, one) => sum + (one.count ?? 0), 0);
  if (line.count !== null && holes > line.count)
    return `The segments have ${holes} holes, but the line has ${line.count}. Change one of the two.`;
  return '';
}
