// The piece itself: its outline, open where it is broken, its holes, and its bend line.
import type { Layout } from './layout.ts';
import { breakLines, type Picture } from './picture.ts';
import type { Placed } from './placing.ts';

export function drawPiece(picture: Picture, layout: Layout, placed: Placed): void {
  const { left, right, top, bottom, across, along } = placed;
  // the outline, open where it is broken
  const cuts = along.map((at) => [at - 4, at + 4] as const);
  const rises = across.map((at) => [at - 4, at + 4] as const);
  for (const y of [...(layout.width === null ? [] : [top]), bottom])
    for (const [from, to] of parts(left, right, cuts))
      picture.strokes.push({
        look: 'edge',
        points: [
          [from, y],
          [to, y],
        ],
      });
  for (const x of [...(layout.open ? [] : [left]), ...(layout.length === null ? [] : [right])])
    for (const [from, to] of parts(top, bottom, rises))
      picture.strokes.push({
        look: 'edge',
        points: [
          [x, from],
          [x, to],
        ],
      });
  for (const at of along) picture.strokes.push(...breakLines(at, top, bottom, true));
  for (const at of across) picture.strokes.push(...breakLines(at, left, right, false));
  if (layout.open) picture.strokes.push(...breakLines(left, top, bottom, true).slice(1));
  if (layout.length === null)
    picture.strokes.push(...breakLines(right, top, bottom, true).slice(0, 1));
  if (layout.width === null) picture.strokes.push(...breakLines(top, left, right, false).slice(1));
  for (const [index, holes] of placed.holes.entries()) {
    const y = placed.y(layout.rows[index]?.across ?? 0);
    for (const [from, to] of parts(left - 6, right + 6, cuts))
      picture.strokes.push({
        look: 'centre',
        points: [
          [from, y],
          [to, y],
        ],
      });
    for (const x of holes) picture.circles.push({ x, y, radius: placed.radius, look: 'hole' });
  }
  if (layout.bend !== undefined) {
    const y = placed.y(layout.bend);
    for (const [from, to] of parts(left, right, cuts))
      picture.strokes.push({
        look: 'sight',
        points: [
          [from, y],
          [to, y],
        ],
      });
  }
}

/** What is left of a line from `from` to `to` beside the cuts in it. */
function parts(
  from: number,
  to: number,
  cuts: readonly (readonly [number, number])[],
): [number, number][] {
  const ends = [from, ...cuts.flat(), to];
  const found: [number, number][] = [];
  for (let at = 0; at + 1 < ends.length; at += 2) found.push([ends[at] ?? 0, ends[at + 1] ?? 0]);
  return found;
}
