// Holes one in another, to scale, each led out to its words: the rivet, the drill, the hole, the
// hole after dimpling.
import type { Unit } from '../../twins/lengths.ts';
import { lengthText } from './figures.ts';
import { blank, block, LINE, type Picture, widest } from './picture.ts';
import { spread } from './spread.ts';

/** One circle; the diameter in nm. The shank of a rivet is filled, a pilot hole broken. */
export interface Ring {
  words: string;
  diameter: number;
  look: 'rivet' | 'hole' | 'pilot';
}
export interface Rings {
  rings: readonly Ring[];
  unit: Unit;
}

const LARGEST = 84; // radius, px
const GUTTER = 34;

export function drawRings({ rings, unit }: Rings, width: number): Picture {
  const picture = blank(width);
  // the largest first: it is led out at the top
  const sorted = [...rings].sort((a, b) => b.diameter - a.diameter);
  const labels = sorted.map(({ words, diameter }) => [words, lengthText(diameter, unit)]);
  const tall = labels.map((lines) => lines.length * LINE + 6);
  const all = tall.reduce((sum, one) => sum + one, 0);
  const largest = sorted[0]?.diameter ?? 1;
  const wide = widest(labels.flat());
  const radius = Math.min(LARGEST, (width - wide - GUTTER - 16) / 2);
  const middle = Math.max(radius + 10, all / 2 + 6);
  const centre = Math.max(radius + 8, (width - wide - GUTTER) / 2 - 10);
  const column = centre + radius + GUTTER;
  const angles = sorted.map((_, at) => ((at + 0.5) / sorted.length - 0.5) * 1.9);
  const starts = sorted.map(({ diameter }, at) => {
    const own = (diameter / largest) * radius;
    const angle = angles[at] ?? 0;
    return [centre + own * Math.cos(angle), middle + own * Math.sin(angle)] as const;
  });
  const places = spread(
    starts.map(([, y]) => y),
    tall,
  );
  const shift = middle - ((places[0] ?? 0) + (places.at(-1) ?? 0)) / 2;
  for (const [at, ring] of sorted.entries()) {
    const own = (ring.diameter / largest) * radius;
    const look = ring.look === 'rivet' ? 'rivet' : ring.look === 'pilot' ? 'centre' : 'edge';
    picture.circles.push({ x: centre, y: middle, radius: own, look });
    const [start, place = 0] = [starts[at], places[at]];
    const y = place + shift;
    if (start)
      picture.strokes.push({ look: 'leader', points: [start, [column - 14, y], [column - 4, y]] });
    picture.figures.push(...block(labels[at] ?? [], column, y, 'start'));
  }
  picture.height = 2 * middle;
  return picture;
}
