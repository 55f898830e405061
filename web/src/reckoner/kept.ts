// A kept sum in words. Pure.
import type { Unit } from '../twins/lengths.ts';
import type { Answer, Sum } from '../twins/reckon.ts';
import { asked, type Figure, keptValue, verdictWord } from './figures.ts';

const LENGTHS = new Set(['thickness', 'thicknesses', 'length', 'lengths', 'rivet']);

interface Kept {
  sum: string;
  inputs: Readonly<Record<string, string>>;
  unit: Unit;
  answer: Readonly<Record<string, string>>;
}

/** "Rivet length: MS20470AD4-4"; the name alone of a sum that these rules do not have. */
export function keptTitle(sum: Sum | undefined, { sum: name, answer }: Kept, unit: Unit): string {
  const main = sum ? mainOf(sum, answer, unit) : null;
  return [sum?.title ?? name, main?.own].filter(Boolean).join(': ');
}

function mainOf(sum: Sum, answer: Kept['answer'], unit: Unit): Figure | null {
  const values = Object.entries(answer).map(([key, text]) => [key, keptValue(key, text)]);
  return asked(sum, Object.fromEntries(values) as Answer, unit)[0];
}

/** What the workshop's computer says with its own rules, where it is something else. */
export function otherwiseWords(sum: Sum | undefined, answer: Kept['answer'], unit: Unit): string {
  const main = sum ? mainOf(sum, answer, unit) : null;
  const verdict = verdictWord(answer.verdict ?? '').toLowerCase();
  const said = [main?.own, verdict].filter(Boolean).join(', ');
  return `The workshop computer reckons otherwise: ${said || 'it cannot reckon this'}. Reckon it again before you go by it.`;
}

/**
 * The inputs to open the sum with again. A bare figure that was read in the other unit than the
 * workshop uses now gets its unit.
 */
export function readAgain(
  sum: Sum,
  { inputs, unit: then }: Kept,
  now: Unit,
): Record<string, string> {
  const again: Record<string, string> = { ...inputs };
  for (const { key, kind } of sum.takes)
    if (LENGTHS.has(kind) && inputs[key] && then !== now)
      again[key] = inputs[key]
        .split(',')
        .map((text) => (/^[\d.]+$/.test(text) ? `${text} ${then}` : text))
        .join(',');
  return again;
}
