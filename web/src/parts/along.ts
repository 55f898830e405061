// What a rivet line joins along its whole length: its own layers and those that came in at some of
// its holes, and at how many holes each of them is.
import type { State } from '../twins/fold.ts';
import type { Line, LineLayer } from './lines.ts';
import { type Segment, segmentsOf } from './segments.ts';

/** The line with every layer that it joins anywhere, each once for a way its holes are made. */
export function wholeLine(state: State): Line {
  const line = state.line as unknown as Line;
  return { ...line, layers: inOrder(line.layers, segmentsOf(state)) };
}

// A layer that came in stands beneath the one that lies above it there.
function inOrder(own: readonly LineLayer[], segments: readonly Segment[]): LineLayer[] {
  const found = [...own];
  for (const { layers } of segments)
    for (const [at, layer] of layers.entries()) {
      if (found.some((one) => one.part === layer.part && one.treat === layer.treat)) continue;
      const last = (part?: string): number => found.findLastIndex((one) => one.part === part);
      const same = last(layer.part);
      found.splice((same < 0 ? last(layers[at - 1]?.part) : same) + 1, 0, layer);
    }
  return found;
}

/** Part -> at how many holes of the line it is; null where they are not counted. */
export function holesAt(state: State): Record<string, number | null> {
  const line = state.line as unknown as Line;
  const segments = segmentsOf(state);
  const all = sum(segments.map((one) => one.count));
  const rest = line.count === null || all === null ? null : Math.max(0, line.count - all);
  const parts = wholeLine(state).layers.map(({ part }) => part);
  return Object.fromEntries(
    parts.map((part) => {
      const has = (layers: readonly LineLayer[]): boolean =>
        layers.some((one) => one.part === part);
      const counts = segments.filter(({ layers }) => has(layers)).map((one) => one.count);
      return [part, sum(has(line.layers) && rest !== 0 ? [...counts, rest] : counts)];
    }),
  );
}

const sum = (counts: readonly (number | null)[]): number | null =>
  counts.reduce((all, one) => (all === null || one === null ? null : all + one), 0);
