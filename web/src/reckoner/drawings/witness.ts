// Where a witness line has to pass a figure it is broken there, as on a shop drawing.
import { boxOf, type Picture, type Point, type Stroke } from './picture.ts';

const CLEAR = 3;

/** Breaks the thin level and upright lines of a picture at the figures that they would cross. */
export function breakWitnesses(picture: Picture): void {
  const boxes = picture.figures.map(boxOf);
  picture.strokes = picture.strokes.flatMap((stroke): Stroke[] => {
    const [a, b] = stroke.points;
    if (stroke.look !== 'thin' || stroke.points.length !== 2 || !a || !b) return [stroke];
    const along = a[0] === b[0] ? 1 : 0;
    if (a[1 - along] !== b[1 - along]) return [stroke];
    const across = a[along === 1 ? 0 : 1] ?? 0;
    const gaps = boxes.flatMap((box): [number, number][] => {
      const [low, high, from, to] = along
        ? [box.left, box.right, box.top, box.bottom]
        : [box.top, box.bottom, box.left, box.right];
      return across > low && across < high ? [[from - CLEAR, to + CLEAR]] : [];
    });
    const at = (place: number): Point => (along ? [across, place] : [place, across]);
    const ends = [a[along] ?? 0, b[along] ?? 0].sort((one, two) => one - two);
    return without([ends[0] ?? 0, ends[1] ?? 0], gaps).map(([from, to]) => ({
      look: stroke.look,
      points: [at(from), at(to)],
    }));
  });
}

/** What is left of a stretch when gaps are taken out of it. */
function without(
  [start, end]: readonly [number, number],
  gaps: readonly [number, number][],
): [number, number][] {
  let left: [number, number][] = [[start, end]];
  for (const [from, to] of gaps)
    left = left.flatMap(([low, high]): [number, number][] =>
      to <= low || from >= high
        ? [[low, high]]
        : [
            [low, Math.max(low, from)],
            [Math.min(high, to), high],
          ],
    );
  return left.filter(([low, high]) => high - low > 0.5);
}
