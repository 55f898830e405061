// Twin of the sums in events/fold.py: what was reckoned about a thing and kept. Part of the fold twin.
import type { Judged, Told } from './facts.ts';
import { MOST_SUMS } from './kinds.ts';
import type { Flat } from './reckon.ts';

export interface KeptSum {
  event: string;
  at: number;
  by: string;
  sum: string;
  inputs: Record<string, string>;
  unit: 'in' | 'mm';
  rulebook: string;
  answer: Record<string, string>;
  verdict?: string;
  note?: string | null;
  judged?: Judged;
}

export function keptSums(told: Told[]): KeptSum[] {
  const kept = told.filter((fact) => fact.kind === 'sum.kept.v1');
  return kept.slice(-MOST_SUMS).map(({ id, at, by, body, judged }) => {
    const sum = body as unknown as KeptSum;
    const { verdict } = sum.answer;
    return {
      ...sum,
      event: id,
      at,
      by,
      ...(verdict === undefined ? {} : { verdict }),
      ...(judged ? { judged } : {}),
    };
  });
}

// An answer as it is kept: figures without an exponent, yes and no, lists with ", " between.
export function keptAnswer(answer: Readonly<Record<string, Flat>>): Record<string, string> {
  return Object.fromEntries(Object.entries(answer).map(([key, value]) => [key, answerText(value)]));
}

export function answerText(value: Flat): string {
  if (Array.isArray(value)) return value.map(answerText).join(', ');
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'number' ? plainFigure(value) : value;
}

// below a millionth JavaScript writes an exponent; no answer has more than six decimals
function plainFigure(value: number): string {
  return Math.abs(value) < 1e-6 ? '0' : String(value);
}
