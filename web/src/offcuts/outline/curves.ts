// Curves as straight chords, always on the safe side: what is told never holds more metal than
// there is. A hole is taken a little larger, an edge that stands out a little smaller. Pure.
import { distance, type Point } from './exact.ts';
import { nm, type Ring } from './rings.ts';

/** How far a chord may stand off its curve. */
const OFF_NM = 50_000;
/** More than the rounding of a corner to whole nm. */
const HAIR_NM = 2;
const FEWEST = 12;
const MOST = 64;

/** A ring around a circle, counter-clockwise: no point of the circle lies outside it. */
export function aroundCircle([x, y]: Point, diameter: number): Ring {
  const radius = diameter / 2 + HAIR_NM;
  const sides = Math.min(
    Math.max(Math.ceil(Math.PI / Math.acos(radius / (radius + OFF_NM))), FEWEST),
    MOST,
  );
  const reach = radius / Math.cos(Math.PI / sides);
  return Array.from({ length: sides }, (_, at): Point => {
    const angle = ((2 * at + 1) * Math.PI) / sides;
    return [nm(x + reach * Math.cos(angle)), nm(y + reach * Math.sin(angle))];
  });
}

/**
 * The corners between two ends of a curved side, with metal to its left. In its middle it stands
 * `rise` nm off the straight between its ends: out of the metal (chords on the curve) or into it
 * (tangents to it). At most a half circle: `rise` is above 0 and at most half the straight.
 */
export function alongCurve(from: Point, to: Point, rise: number, way: 'out' | 'in'): Point[] {
  const half = distance(from, to) / 2;
  const radius = (half * half + rise * rise) / (2 * rise);
  const [ux, uy] = [(to[0] - from[0]) / (2 * half), (to[1] - from[1]) / (2 * half)];
  // the right hand of the walk looks out of the metal
  const [ox, oy] = way === 'out' ? [uy, -ux] : [-uy, ux];
  const depth = radius - rise; // from the straight to the centre
  const centre = [(from[0] + to[0]) / 2 - ox * depth, (from[1] + to[1]) / 2 - oy * depth] as const;
  const opening = 2 * Math.asin(Math.min(half / radius, 1));
  const step = 2 * Math.acos(1 - Math.min(OFF_NM / radius, 0.5));
  const parts = Math.min(Math.max(Math.ceil(opening / step), 2), MOST);
  const tangents = way === 'in';
  const reach = tangents ? (radius + HAIR_NM) / Math.cos(opening / parts / 2) : radius - HAIR_NM;
  const shares = Array.from({ length: tangents ? parts : parts - 1 }, (_, at) =>
    tangents ? (at + 0.5) / parts : (at + 1) / parts,
  );
  return shares.map((share): Point => {
    const angle = opening * (share - 0.5);
    const [across, off] = [Math.sin(angle) * reach, Math.cos(angle) * reach];
    return [nm(centre[0] + ux * across + ox * off), nm(centre[1] + uy * across + oy * off)];
  });
}
