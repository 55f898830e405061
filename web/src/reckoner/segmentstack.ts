// The joint of a stretch of a rivet line as it is recorded: its own layers and treatments, the
// rivet it has, and the stack before a layer came in. Null where a figure is missing.
import type { Line, LineLayer } from '../parts/lines.ts';
import type { Segment } from '../parts/segments.ts';
import { type Length, readLength, type Unit } from '../twins/lengths.ts';
import { rivetSize } from './address.ts';
import { RULES } from './book.ts';
import type { StackLayer } from './drawings/section.ts';
import type { Stack } from './drawings/stack.ts';
import { numberOf } from './drawn.ts';
import { driven, headOf } from './joints.ts';

interface Before {
  layers: readonly LineLayer[];
  dash: number | null;
}

export function segmentStack(
  line: Pick<Line, 'head'>,
  segment: Pick<Segment, 'layers' | 'fastener' | 'dash'>,
  unit: Unit,
  nameOf: (part: string) => string,
  before?: Before,
): Stack | null {
  const size = readLength(rivetSize(segment.fastener.text), 'in');
  const step = numberOf(RULES, 'rivet length unit');
  if ('sentence' in size || step === null || segment.fastener.kind !== 'rivet') return null;
  const head = headOf(RULES, size.nm, line.head === 'flush');
  const now = sheets(segment.layers, nameOf, before?.layers);
  if (!head || !now || segment.dash === null) return null;
  const out = (dash: number, all: readonly StackLayer[]): number =>
    Math.round((dash / 2) * step) - all.reduce((sum, one) => sum + one.thickness, 0);
  const drawn: Stack = {
    layers: now,
    rivet: { diameter: size.nm, head },
    out: out(segment.dash, now),
    unit,
    ...driven(RULES, size.nm),
  };
  const was = before && sheets(before.layers, nameOf);
  if (was && before.dash !== null) drawn.was = { layers: was, out: out(before.dash, was) };
  return drawn;
}

function sheets(
  layers: readonly LineLayer[],
  nameOf: (part: string) => string,
  before?: readonly LineLayer[],
): StackLayer[] | null {
  const known = new Set(before?.map((one) => one.part));
  const made = layers.map(({ part, thickness, treat }) => ({
    thickness: (thickness as Length | null | undefined)?.nm ?? 0,
    treat,
    name: nameOf(part),
    ...(before && !known.has(part) ? { added: true } : {}),
  }));
  return made.length && made.every((one) => one.thickness > 0) ? made : null;
}
