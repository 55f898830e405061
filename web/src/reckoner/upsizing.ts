// Whether the holes of a stretch of a rivet line may go up a size, by the recorded rule, and the
// rivet they then take. Loads the rules. Nothing is offered where the rule fails.

import { rivetAndLength } from '../parts/layering.ts';
import type { Line, LineLayer } from '../parts/lines.ts';
import type { Segment } from '../parts/segments.ts';
import type { Unit } from '../twins/lengths.ts';
import { type Answer, isUnreckoned, reckon, type Unreckoned } from '../twins/reckon.ts';
import { rivetSize } from './address.ts';
import { RULES } from './book.ts';
import { stackText } from './linerivet.ts';

export interface Measured {
  edge: string; // as typed
  pitch: string;
}

/** How the head's layers are made now, in the words that the sum takes. */
export function treatmentOf(layers: readonly LineLayer[]): string {
  const [top, second] = layers.map((one) => one.treat);
  if (top !== 'dimple') return 'countersink';
  return second === 'countersink' ? 'dimple-on-countersink' : 'dimple';
}

/** The answer, what could not be read, or null where the line says too little to ask. */
export function upsizeAnswer(
  line: Pick<Line, 'head'>,
  segment: Pick<Segment, 'layers' | 'fastener'>,
  { edge, pitch }: Measured,
  unit: Unit,
): Answer | Unreckoned | null {
  const [stack, diameter] = [stackText(segment.layers), rivetSize(segment.fastener.text)];
  if (stack === null || !diameter || segment.fastener.kind !== 'rivet') return null;
  const typed: Record<string, string> = { diameter, stack, edge, head: line.head };
  if (pitch.trim()) typed.pitch = pitch;
  if (line.head === 'flush') typed.treatment = treatmentOf(segment.layers);
  return reckon(RULES, 'upsize', typed, unit);
}

/** The larger rivet without its length; null where none is offered. */
export function largerRivet(answer: Answer | Unreckoned | null): string | null {
  if (!answer || isUnreckoned(answer)) return null;
  const offered = answer.verdict === 'meets' || answer.verdict === 'check';
  return offered && typeof answer.part_number === 'string'
    ? rivetAndLength(answer.part_number).text
    : null;
}
