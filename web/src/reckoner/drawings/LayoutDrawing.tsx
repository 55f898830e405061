// A piece from above with its holes, and what may mark it out.
import { Drawn } from './Drawn.tsx';
import { drawLayout, type Layout } from './layout.ts';
import { MarkingCaution } from './MarkingCaution.tsx';
import { layoutWords } from './words.ts';

export function LayoutDrawing(given: Layout) {
  const layout = { ...given, rows: given.rows.filter(({ count }) => count > 0) };
  if (layout.rows.length === 0) return null;
  return (
    <figure class="shop-drawing">
      <Drawn draw={(width) => drawLayout(layout, width)} words={layoutWords(layout)} />
      <figcaption>
        <MarkingCaution />
      </figcaption>
    </figure>
  );
}

/** One hole and the edges of its piece. */
export interface Edge {
  hole: number;
  /** from the hole's centre, nm */
  end: number;
  side: number;
  short?: { end?: number; side?: number };
  unit: Layout['unit'];
}

export function EdgeDrawing({ hole, end, side, short = {}, unit }: Edge) {
  const rows = [{ across: side, start: end, pitch: 0, count: 1 }];
  return <LayoutDrawing length={null} width={null} {...{ hole, rows, short, unit }} />;
}
