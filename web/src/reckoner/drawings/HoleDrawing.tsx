// Holes one in another: the drill, the hole, the hole after dimpling.
import { Drawn } from './Drawn.tsx';
import { drawRings, type Rings } from './rings.ts';
import { ringsWords } from './words.ts';

export function HoleDrawing(rings: Rings) {
  if (rings.rings.length === 0) return null;
  return (
    <figure class="shop-drawing">
      <Drawn draw={(width) => drawRings(rings, width)} words={ringsWords(rings)} />
    </figure>
  );
}
