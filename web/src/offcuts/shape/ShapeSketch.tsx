// Small drawings of the shapes to pick from.
import type { ShapeWay } from '../outline/answers.ts';

const RING: Record<ShapeWay, string> = {
  'two sides': 'M14 12H82V52H14Z',
  'corner off': 'M14 12H60L82 30V52H14Z',
  ell: 'M14 12H50V32H82V52H14Z',
  triangle: 'M14 52H82L34 12Z',
  walked: 'M14 52H60L82 36L66 12L30 18Z',
  offsets: 'M22 46H66L80 30L58 14L30 20Z',
  dxf: 'M14 52V24C14 8 38 8 44 20L82 30V52Z',
};
const THIN: Partial<Record<ShapeWay, string>> = {
  // the way round, and the two edges that corners are measured from
  walked: 'M20 58H50M50 58L44 55M50 58L44 61',
  offsets: 'M10 8V56H88M10 30H80M80 56V30',
  dxf: 'M56 38A6 6 0 1 0 68 38A6 6 0 1 0 56 38',
};

export function ShapeSketch({ way }: { way: ShapeWay }) {
  return (
    <svg class="shape-sketch" viewBox="0 0 96 64" aria-hidden="true">
      <path d={RING[way]} />
      {THIN[way] && <path class="thin" d={THIN[way]} />}
    </svg>
  );
}
