// Dimensions one above the other on one upright line, their figures level beside it.
import type { Span } from './dimension.ts';
import { ARROW, arrow, block, LINE, type Picture } from './picture.ts';
import { spread } from './spread.ts';

const CLEAR = 4;
/** From the line to the figures beside it. */
export const BESIDE = 15;

/**
 * Draws `spans`, in order from above and none over another, on the line at `x`, with the figures to
 * the left (`side` -1) or right of it. A figure that has to move is led to its dimension.
 */
export function chain(picture: Picture, spans: readonly Span[], x: number, side: 1 | -1): void {
  const middles = spans.map(({ from, to }) => (from + to) / 2);
  const tall = spans.map(({ lines }) => lines.length * LINE + 6);
  const places = spread(middles, tall);
  for (const [index, span] of spans.entries()) {
    drawLink(picture, span, x, side);
    const [middle = 0, place = 0] = [middles[index], places[index]];
    if (Math.abs(place - middle) > 5 && span.lines.length > 0)
      picture.strokes.push({
        look: 'leader',
        points: [
          [x + side * 3, middle],
          [x + side * (BESIDE - 3), place],
        ],
      });
    const hold = side < 0 ? 'end' : 'start';
    picture.figures.push(...block(span.lines, x + side * BESIDE, place, hold, span.fails));
  }
}

function drawLink(picture: Picture, span: Span, x: number, side: 1 | -1): void {
  const [low, high] = [Math.min(span.from, span.to), Math.max(span.from, span.to)];
  for (const [y, start] of [
    [span.from, span.starts[0]],
    [span.to, span.starts[1]],
  ] as const)
    picture.strokes.push({
      look: 'thin',
      points: [
        [start + side * CLEAR, y],
        [x + side * CLEAR, y],
      ],
    });
  const arrows = high - low >= 2 * ARROW + 4;
  const inset = arrows ? ARROW - 1 : 0;
  for (const off of span.fails ? [-2.2, 2.2] : [0])
    picture.strokes.push({
      look: span.fails ? 'heavy' : 'thin',
      points: [
        [x + off, low + inset],
        [x + off, high - inset],
      ],
    });
  if (arrows) picture.solids.push(arrow([x, low], 0, 1), arrow([x, high], 0, -1));
  // too short for arrowheads: a slash at each end
  else
    for (const y of [low, high])
      picture.strokes.push({
        look: 'edge',
        points: [
          [x - 4, y + 4],
          [x + 4, y - 4],
        ],
      });
}
