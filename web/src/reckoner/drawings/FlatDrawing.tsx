// The developed flat and the bent sheet, and what may mark it out.
import { Drawn } from './Drawn.tsx';
import { drawFlat, type Flat } from './flat.ts';
import { MarkingCaution } from './MarkingCaution.tsx';
import { flatWords } from './words.ts';

export function FlatDrawing(flat: Flat) {
  return (
    <figure class="shop-drawing">
      <Drawn draw={(width) => drawFlat(flat, width)} words={flatWords(flat)} />
      <figcaption>
        <MarkingCaution />
      </figcaption>
    </figure>
  );
}
