// The joint in side section, to scale: the rivet in its hole before driving, and the shop head
// after, in the same sheets; beneath, if wanted, the stack as it was.
import type { Unit } from '../../twins/lengths.ts';
import { blank, type Picture, widest } from './picture.ts';
import { type RivetHead, type Section, type StackLayer, section } from './section.ts';
import { drawStand } from './side-view.ts';
import { across, headHeight, labelOf, type Stand } from './stand.ts';

/** What to draw; lengths in nm. */
export interface Stack {
  /** from the factory head down */
  layers: readonly StackLayer[];
  rivet: { diameter: number; head: RivetHead };
  /** the finished hole; the rivet's diameter where it is not given */
  hole?: number;
  /** how far the shank stands out of the flat sheets before driving: its length less the grip */
  out: number;
  /** the shop head after driving; left out, only the rivet before driving is drawn */
  driven?: { across: number; high: number };
  /** the stack before a sheet was added, with the rivet that it had */
  was?: { layers: readonly StackLayer[]; out: number };
  unit: Unit;
}
const TALLEST = 330;
const LARGEST = 52; // px to a diameter

export function drawStack(stack: Stack, width: number): Picture {
  const stands = standsOf(stack);
  const scale = scaleOf(stack, stands, width);
  const picture = blank(width);
  let y = 8;
  for (const stand of stands) y = drawStand(picture, stack, stand, scale, y) + 14;
  picture.height = y - 4;
  return picture;
}

function standsOf(stack: Stack): Stand[] {
  const hole = stack.hole ?? stack.rivet.diameter;
  const of = (layers: readonly StackLayer[]): Section => section(layers, hole, stack.rivet.head);
  const { layers, out, driven, was } = stack;
  const title = was ? 'now' : '';
  const now: Stand = { layers, section: of(layers), out, driven, title };
  if (!was) return [now];
  return [now, { ...was, section: of(was.layers), driven: undefined, title: 'as it was' }];
}

/** The largest scale (px to nm) at which everything has room. */
function scaleOf(stack: Stack, stands: readonly Stand[], width: number): number {
  let scale = LARGEST / stack.rivet.diameter;
  const fits = (): boolean =>
    stands.every((stand) => {
      const { section: cut, out } = stand;
      const tall = (headHeight(stack, cut) + Math.max(cut.rim, cut.grip + out)) * scale;
      const { labels, width: most } = across(stack, stand, scale, width);
      return (
        tall <= TALLEST &&
        labels + widest(stand.layers.flatMap((one) => labelOf(one, stack.unit))) <= most - 4
      );
    });
  for (let tries = 0; tries < 200 && !fits(); tries += 1) scale *= 0.98;
  return scale;
}
