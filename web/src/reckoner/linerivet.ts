// The rivet that the stack of a rivet line asks for, by the recorded rule. Loads the rules.
import type { DashOf } from '../parts/layering.ts';
import type { Line, LineLayer } from '../parts/lines.ts';
import type { Segment } from '../parts/segments.ts';
import type { Unit } from '../twins/lengths.ts';
import { type Answer, isUnreckoned, reckon } from '../twins/reckon.ts';
import { rivetSize } from './address.ts';
import { RULES } from './book.ts';

/** A stack as the sums read it, in whole millimetres and decimals; null where a sheet is unknown. */
export function stackText(layers: readonly LineLayer[]): string | null {
  const each = layers.map(({ thickness }) => thickness && `${thickness.nm / 1e6} mm`);
  return each.length && each.every(Boolean) ? each.join(',') : null;
}

/** The answer for a stack of a line, before and after; null where the stack or rivet is unknown. */
export function rivetAnswer(
  line: Pick<Line, 'head'>,
  fastener: Segment['fastener'],
  layers: readonly LineLayer[],
  unit: Unit,
  was?: readonly LineLayer[],
): Answer | null {
  const [stack, diameter] = [stackText(layers), rivetSize(fastener.text)];
  if (stack === null || !diameter || fastener.kind !== 'rivet') return null;
  const before = was ? stackText(was) : null;
  const typed = { stack, diameter, head: line.head, ...(before ? { was: before } : {}) };
  const found = reckon(RULES, 'rivet', typed, unit);
  return isUnreckoned(found) ? null : found;
}

/** How long a rivet each stack of a line asks for, in halves of a dash number. */
export function dashFor(line: Pick<Line, 'head'>): DashOf {
  return (layers, fastener) => {
    const dash = rivetAnswer(line, fastener, layers, 'in')?.dash;
    return typeof dash === 'number' ? dash * 2 : null;
  };
}
