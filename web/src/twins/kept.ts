// Twin of the sums in events/fold.py: what was reckoned about a thing and kept. Part of the fold twin.
import type { Judged, Told } from './facts.ts';
import { MOST_SUMS } from './kinds.ts';

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
