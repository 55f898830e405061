// The rivet in side section: its factory head, its shank, and the shop head once it is driven.
import type { Point, Solid } from './picture.ts';
import type { RivetHead, Section } from './section.ts';

interface Rivet {
  diameter: number;
  head: RivetHead;
}
const STEPS = 12;

/** A rivet in its hole: centre and upper face of the sheets in px, px to the nm, the shank's end. */
export function undrivenRivet(
  { diameter, head }: Rivet,
  cut: Section,
  centre: number,
  top: number,
  scale: number,
  end: number,
): Solid {
  const half = (diameter / 2) * scale;
  const right: Point[] = [...headSide(head, diameter, cut, scale), [half, end - top]];
  return { look: 'rivet', points: mirrored(right, centre, top) };
}

/** Driven: the shank fills the hole, and a barrel of a shop head sits on the lowest metal. */
export function drivenRivet(
  rivet: Rivet & { hole: number; across: number; high: number },
  cut: Section,
  centre: number,
  top: number,
  scale: number,
): Solid[] {
  const half = (rivet.hole / 2) * scale;
  const seat = cut.rim * scale;
  const shank: Point[] = [...headSide(rivet.head, rivet.hole, cut, scale), [half, seat + 0.5]];
  const high = rivet.high * scale;
  const wide = (rivet.across / 2) * scale;
  // full at the middle of its height, a little less at its faces
  const shop: Point[] = Array.from({ length: STEPS + 1 }, (_, step): Point => {
    const along = step / STEPS;
    return [wide * (0.86 + 0.14 * Math.sin(Math.PI * along)), seat + along * high];
  });
  return [
    { look: 'rivet', points: mirrored(shank, centre, top) },
    { look: 'rivet', points: mirrored(shop, centre, top) },
  ];
}

/** The right side of the factory head, from the middle of its upper face down to the shank. */
function headSide(head: RivetHead, shank: number, { proud }: Section, scale: number): Point[] {
  const [wide, neck] = [(head.diameter / 2) * scale, (shank / 2) * scale];
  if (head.shape === 'flush') {
    const upper = -proud * scale;
    const deep = (wide - neck) / Math.tan((head.angle / 2) * (Math.PI / 180));
    return [
      [0, upper],
      [wide, upper],
      [neck, upper + deep],
    ];
  }
  const high = head.height * scale;
  const dome = Array.from({ length: STEPS + 1 }, (_, step): Point => {
    const turn = (step / STEPS) * (Math.PI / 2);
    return [wide * Math.sin(turn) ** 0.8, -high * Math.cos(turn) ** 0.7];
  });
  return [...dome, [neck, 0]];
}

function mirrored(right: readonly Point[], centre: number, top: number): Point[] {
  const left = right.map(([x, y]): Point => [-x, y]).reverse();
  return [...right, ...left].map(([x, y]): Point => [centre + x, top + y]);
}
