// A joint in side section with one or two rivets in it, drawn to the scale that is given.
import { chain } from './chain.ts';
import { dimension } from './dimension.ts';
import { thicknessText } from './figures.ts';
import { block, LINE, type Picture, type Point, widest } from './picture.ts';
import { drivenRivet, undrivenRivet } from './rivet.ts';
import { spread } from './spread.ts';
import type { Stack } from './stack.ts';
import {
  type Across,
  across,
  drivenLines,
  headHeight,
  LEFT,
  labelOf,
  outLines,
  type Stand,
} from './stand.ts';

/** How far the figures of the sheets may reach below the sheets. */
const BELOW = 10;

export function drawStand(
  picture: Picture,
  stack: Stack,
  stand: Stand,
  scale: number,
  y: number,
): number {
  const { section: cut, layers } = stand;
  const places = across(stack, stand, scale, picture.width);
  const labels = layers.map((layer) => labelOf(layer, stack.unit));
  const tall = labels.map((lines) => lines.length * LINE + 2);
  const all = tall.reduce((sum, one) => sum + one, 0);
  // the figures of the sheets end with the sheets, and so may need room above them
  const head = Math.max(headHeight(stack, cut) * scale, 4);
  const top = y + Math.max(LINE + 8 + head, all - cut.grip * scale - BELOW + 6);
  drawSheets(picture, stand, places, top, scale);
  drawLabels(picture, stand, labels, tall, places, top, scale);
  drawGrip(picture, stack, stand, top, top - head - LINE / 2 - 6, scale);
  const { foot: low, figures } = drawBefore(picture, stack, stand, places, top, scale);
  const foot = stand.driven ? drawDriven(picture, stack, stand, places, top, scale, figures) : low;
  const title = Math.max(low, foot) + LINE / 2 + 4;
  const word = (text: string, x: number): void => {
    const half = widest([text]) / 2;
    picture.figures.push({ x: Math.max(x, half + 6), y: title, text, hold: 'middle', bold: true });
  };
  if (stand.driven) {
    word('before', places.first);
    word('driven', places.second);
  } else word(stand.title || 'before', places.first);
  return title + LINE / 2;
}

function drawSheets(
  picture: Picture,
  { section: cut, layers, driven }: Stand,
  places: Across,
  top: number,
  scale: number,
): void {
  const middle = driven ? (places.first + places.second) / 2 : 0;
  // each stretch of sheet: from an end inwards to a rivet, to the left (-1) or right of it
  const stretches: [far: number, centre: number, side: number][] = [
    [LEFT, places.first, -1],
    [places.end, places.second, 1],
  ];
  if (driven) stretches.push([middle, places.first, 1], [middle, places.second, -1]);
  // from the lowest sheet up, so that a dimple covers what it clashes with
  for (const [index, sheet] of [...cut.sheets.entries()].reverse())
    for (const [far, centre, side] of stretches) {
      const place = ([radius, depth]: readonly [number, number]): Point => [
        centre + side * radius * scale,
        top + depth * scale,
      ];
      const points: Point[] = [
        [far, top + sheet.from * scale],
        ...sheet.upper.map(place),
        ...[...sheet.lower].reverse().map(place),
        [far, top + sheet.to * scale],
      ];
      picture.solids.push({ look: layers[index]?.added ? 'new' : 'metal', points });
      picture.strokes.push({ look: 'edge', points });
    }
}

function drawLabels(
  picture: Picture,
  { section: cut }: Stand,
  labels: readonly string[][],
  tall: readonly number[],
  places: Across,
  top: number,
  scale: number,
): void {
  const middles = cut.sheets.map(({ from, to }) => top + ((from + to) / 2) * scale);
  const lowest = top + cut.grip * scale + BELOW;
  // their block may not reach far below the sheets: the figures of the shop head are there
  const spare = Math.max(0, bottomOf(spread(middles, tall), tall) - lowest);
  const moved = spread(
    middles.map((middle) => middle - spare),
    tall,
  );
  for (const [index, lines] of labels.entries()) {
    const [from = 0, at = 0] = [middles[index], moved[index]];
    const line = at - ((lines.length - 1) * LINE) / 2;
    picture.strokes.push({
      look: 'leader',
      points: [
        [places.end + 2, from],
        [places.end + 5, from],
        [places.labels - 7, line],
        [places.labels - 4, line],
      ],
    });
    picture.figures.push(...block(lines, places.labels, at, 'start', lines.length > 1));
  }
}

function bottomOf(middles: readonly number[], tall: readonly number[]): number {
  return (middles.at(-1) ?? 0) + (tall.at(-1) ?? 0) / 2;
}

/** On the left of the sheets, its figure above them. */
function drawGrip(
  picture: Picture,
  { unit }: Stack,
  { section: cut }: Stand,
  top: number,
  figure: number,
  scale: number,
): void {
  const x = 12;
  const bottom = top + cut.grip * scale;
  chain(picture, [{ from: top, to: bottom, starts: [LEFT, LEFT], lines: [] }], x, -1);
  picture.strokes.push({
    look: 'thin',
    points: [
      [x, figure + LINE / 2 + 1],
      [x, top],
    ],
  });
  const text = `grip ${thicknessText(cut.grip, unit)}`;
  picture.figures.push({ x: 6, y: figure, text, hold: 'start' });
}

function drawBefore(
  picture: Picture,
  stack: Stack,
  { section: cut, out }: Stand,
  places: Across,
  top: number,
  scale: number,
): { foot: number; figures: number } {
  const { rivet } = stack;
  const end = top + (cut.grip + out) * scale;
  picture.solids.push(undrivenRivet(rivet, cut, places.first, top, scale, end));
  const bottom = top + cut.grip * scale;
  const lines = outLines(stack, out);
  const shank = places.first + (rivet.diameter / 2) * scale;
  const x = places.outLine;
  chain(picture, [{ from: bottom, to: end, starts: [x - 12, shank], lines: [] }], x, 1);
  const tall = lines.length * LINE;
  const middle = Math.max((bottom + end) / 2, bottom + 6 + tall / 2);
  picture.figures.push(...block(lines, x + 15, middle, 'start', true));
  const figures = middle + tall / 2;
  return { foot: Math.max(end, figures, top + cut.rim * scale), figures };
}

function drawDriven(
  picture: Picture,
  stack: Stack,
  { section: cut, driven }: Stand,
  { second, after }: Across,
  top: number,
  scale: number,
  figures: number,
): number {
  if (!driven) return top;
  const { rivet } = stack;
  const seat = top + cut.rim * scale;
  const foot = seat + driven.high * scale;
  const half = (driven.across / 2) * scale;
  const hole = stack.hole ?? rivet.diameter;
  picture.solids.push(...drivenRivet({ ...rivet, hole, ...driven }, cut, second, top, scale));
  const side = second + half;
  chain(picture, [{ from: seat, to: foot, starts: [side, side], lines: [] }], side + 11, 1);
  const span = { from: second - half, to: side, starts: [foot, foot] as const, lines: [] };
  const room = [0, picture.width] as const;
  const row = dimension(picture, [span], { first: foot + 9, away: 1, room, upright: false });
  const lines = drivenLines(stack);
  const wide = widest(lines) / 2;
  // under the shop head, and under the figures beside the other rivet where they reach so far
  const under = second - wide < after + 8 ? Math.max(row, figures + 2) : row;
  const middle = Math.min(second, picture.width - wide - 6);
  picture.figures.push(...block(lines, middle, under + LINE + 2, 'middle'));
  return under + LINE * 2 + 2;
}
