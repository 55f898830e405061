// An answer as it is recorded with a part or a rivet line. Pure.
import type { Draft } from '../store/outbox.ts';
import type { Body } from '../twins/facts.ts';
import { keptAnswer } from '../twins/kept.ts';
import type { Unit } from '../twins/lengths.ts';
import type { Answer, Sum } from '../twins/reckon.ts';
import type { Typed } from './address.ts';
import { type Figure, verdictWord } from './figures.ts';

interface Kept {
  sum: Sum;
  answer: Answer;
  inputs: Typed;
  unit: Unit;
  note: string;
}

export function keptDraft(subject: string, kept: Kept, rules: string): Draft {
  const { sum, answer, inputs, unit, note } = kept;
  const body = {
    sum: sum.name,
    inputs,
    unit,
    rulebook: rules,
    answer: keptAnswer(answer),
    note: note.trim() || null,
  };
  return { kind: 'sum.kept.v1', subject, body: body as unknown as Body };
}

/** What is said once it is kept: "Kept: MS20470AD4-4, meets". */
export function keptWords(answer: Answer, main: Figure | null): string {
  const verdict = verdictWord(answer.verdict);
  return main ? `Kept: ${main.own}, ${verdict.toLowerCase()}` : `Kept: ${verdict.toLowerCase()}`;
}
