// A part or a rivet line as recording sees it, from its state.
import type { State } from '../twins/fold.ts';
import { OPERATIONS } from '../twins/marks.ts';
import { joinStrips, lookAt, nextOperation } from '../twins/strip.ts';
import type { Ground } from './choices.ts';
import { stepsOf, templateOf } from './steps.ts';

export function groundOfPart(state: State): Ground {
  const steps = stepsOf(state);
  return {
    marks: state.marks ?? {},
    strip: state.strip ?? '',
    count: steps?.holes.count ?? null,
    pieces: (state.pieces as number | undefined) || 1,
    open: steps?.open ?? [],
    die: steps?.die ?? null,
    alongLines: steps?.along_lines ?? false,
    together: templateOf(steps?.template ?? '')?.together ?? [],
    windowH: steps?.window_h ?? null,
    finalAfterDimple: steps?.final_after_dimple ?? false,
  };
}

// The strip of a part together with its layers in rivet lines.
export function wholeStrip(own: string, layers: string[]): string {
  return layers.length && own ? joinStrips([own, ...layers]) : own;
}

// What comes next on the part itself, or what has to be looked at before it goes on. Where the
// holes get their final size after dimpling, the drill does not hold up deburring and dimpling.
export function nextOf(strip: string, finalAfterDimple: boolean): string {
  const next = nextOperation(strip) || lookAt(strip);
  if (!finalAfterDimple || next !== 'drill') return next;
  const at = (op: string): number => OPERATIONS.findIndex((row) => row.op === op);
  const before = at('dimple');
  if (!'tpa'.includes(strip[before] ?? '-')) return next;
  const drill = at('drill');
  const assumed = `${strip.slice(0, drill)}d${strip.slice(drill + 1)}`;
  const found = nextOperation(assumed);
  return found === 'deburr' || found === 'dimple' ? found : next;
}
