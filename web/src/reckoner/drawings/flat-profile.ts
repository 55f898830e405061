// The bent sheet above its flat, small and to scale, with a letter for every leg.
import type { Flat } from './flat.ts';
import { type Figure, LETTER, type Picture, type Point } from './picture.ts';
import { bentProfile } from './profile.ts';

const PROFILE = { wide: 190, tall: 112 };

/** The straight lengths between the bends, nm from the datum edge. */
export function flatsOf({ bends, developed }: Flat): [from: number, to: number][] {
  const ends = [0, ...bends.flatMap(({ start, end }) => [start, end]), developed];
  return Array.from({ length: bends.length + 1 }, (_, at) => [
    ends[2 * at] ?? 0,
    ends[2 * at + 1] ?? 0,
  ]);
}

export function letter(index: number): string {
  return String.fromCharCode(65 + index);
}

/** The bent sheet, lettered as the flat is; returns where it ends. */
export function drawProfile(picture: Picture, flat: Flat, width: number): number {
  const lengths = flatsOf(flat).map(([from, to]) => to - from);
  const { outline, flats } = bentProfile(lengths, flat.bends, flat.thickness);
  const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
  const [low, high] = [Math.min(...xs), Math.max(...xs)];
  const [under, over] = [Math.min(...ys), Math.max(...ys)];
  const scale = Math.min(PROFILE.wide / (high - low), PROFILE.tall / (over - under));
  const pad = LETTER + 14;
  const left = (width - (high - low) * scale) / 2;
  const put = ([x, y]: Point): Point => [left + (x - low) * scale, pad + (over - y) * scale];
  const points = outline.map(put);
  const dense = densely(points);
  const first = points[0];
  picture.solids.push({ look: 'metal', points });
  picture.strokes.push({ look: 'edge', points: first ? [...points, first] : points });
  for (const [index, { at, square }] of flats.entries()) {
    const figure = (place: Point): Figure => ({
      x: place[0],
      y: place[1],
      text: letter(index),
      hold: 'middle',
      bold: true,
    });
    const place = clearPlace(put(at), square, [...dense, ...picture.figures.map(middleOf)]);
    picture.figures.push(figure(place));
  }
  return pad + (over - under) * scale + LETTER + 14;
}

/** The outline with points no further than a few px apart. */
function densely(points: readonly Point[]): Point[] {
  return points.flatMap(([x, y], at) => {
    const [px, py] = points.at(at - 1) ?? [x, y];
    const steps = Math.ceil(Math.hypot(x - px, y - py) / 4);
    return Array.from({ length: steps }, (_, step): Point => {
      const part = (step + 1) / steps;
      return [px + (x - px) * part, py + (y - py) * part];
    });
  });
}

function middleOf({ x, y }: Figure): Point {
  return [x, y];
}

/** Beside a flat, as near to it as it is clear of the metal and of the other letters. */
function clearPlace([x, y]: Point, square: Point, others: readonly Point[]): Point {
  const places = [16, 20, 26, 34].flatMap((away) =>
    [0, 180, 30, -30, 150, -150, 60, -60].map((degrees): Point => {
      const turn = Math.atan2(-square[1], square[0]) + (degrees * Math.PI) / 180 + Math.PI;
      return [x + Math.cos(turn) * away, y + Math.sin(turn) * away];
    }),
  );
  const clear = ([px, py]: Point): number =>
    Math.min(...others.map(([ox, oy]) => Math.hypot(ox - px, oy - py)));
  const found = places.find((place) => clear(place) >= 13);
  return found ?? places.reduce((a, b) => (clear(b) > clear(a) ? b : a));
}
