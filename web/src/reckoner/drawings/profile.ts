// The bent sheet in section, from its flats, bends and thickness: to scale, y upwards, in the unit
// that is given.
import type { Point } from './picture.ts';

export interface Turn {
  /** degrees bent through */
  angle: number;
  /** inside radius */
  radius: number;
  up: boolean;
}
export interface Profile {
  /** the outline of the metal, closed */
  outline: Point[];
  /** for each flat its middle, and which way is square to it (upwards on a flat that lies) */
  flats: { at: Point; square: Point }[];
}

const STEP = 8; // degrees from one point of a bend to the next

/**
 * `flats` has one more than `turns`: the straight lengths between the tangent lines. The longest
 * flat lies level.
 */
export function bentProfile(
  flats: readonly number[],
  turns: readonly Turn[],
  thickness: number,
): Profile {
  let [x, y, heading] = [0, 0, -turnedBefore(flats, turns)];
  const upper: Point[] = [];
  const lower: Point[] = [];
  const middles: Profile['flats'] = [];
  const square = (): Point => [-Math.sin(heading), Math.cos(heading)];
  const mark = (): void => {
    const [nx, ny] = square();
    upper.push([x + (nx * thickness) / 2, y + (ny * thickness) / 2]);
    lower.push([x - (nx * thickness) / 2, y - (ny * thickness) / 2]);
  };
  for (const [at, flat] of flats.entries()) {
    mark();
    const [dx, dy] = [Math.cos(heading) * flat, Math.sin(heading) * flat];
    middles.push({ at: [x + dx / 2, y + dy / 2], square: square() });
    [x, y] = [x + dx, y + dy];
    mark();
    const turn = turns[at];
    if (!turn) continue;
    const side = turn.up ? 1 : -1;
    const reach = turn.radius + thickness / 2;
    const [nx, ny] = square();
    const [cx, cy] = [x + nx * side * reach, y + ny * side * reach];
    const steps = Math.max(2, Math.ceil(turn.angle / STEP));
    for (let step = 1; step <= steps; step += 1) {
      heading += (side * turn.angle * Math.PI) / 180 / steps;
      const [sx, sy] = square();
      [x, y] = [cx - sx * side * reach, cy - sy * side * reach];
      mark();
    }
  }
  return { outline: [...upper, ...lower.reverse()], flats: middles };
}

/** How far the sheet has turned (radians, upwards) where its longest flat begins. */
function turnedBefore(flats: readonly number[], turns: readonly Turn[]): number {
  const longest = flats.indexOf(Math.max(...flats));
  const degrees = turns
    .slice(0, longest)
    .reduce((sum, { angle, up }) => sum + (up ? angle : -angle), 0);
  return (degrees * Math.PI) / 180;
}
