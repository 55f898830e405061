// What is asked of every offcut, sheet or section: how its metal is known, and what was measured.
import { type Choice, Choices } from './Choices.tsx';
import type { Answers, Problems } from './draft.ts';
import type { Offcut } from './wanted.ts';

interface Props {
  answers: Answers;
  onChange: (change: Partial<Answers>) => void;
  problems: Problems;
}

const MEASURED: readonly Choice<Offcut['measured']>[] = [
  { value: 'bare', label: 'bare metal' },
  { value: 'over film', label: 'over film' },
];
const KNOWN_BY: readonly Choice<Offcut['known_by']>[] = [
  { value: 'mill marking', label: 'mill marking seen' },
  { value: 'tagged stock', label: 'cut from tagged stock' },
  { value: 'kit part', label: 'kit part' },
  { value: 'unknown', label: 'not known' },
];

/** Not asked where the metal itself is not known. */
export function KnownBy({ answers, onChange, problems }: Props) {
  if (answers.metal === 'unknown') return null;
  return (
    <Choices
      legend="How do you know the metal?"
      name="known_by"
      choices={KNOWN_BY}
      value={answers.known_by}
      onChange={(known_by) => onChange({ known_by })}
      problem={problems.known_by}
    />
  );
}

export function MeasuredOn({ answers, onChange, problems }: Props) {
  return (
    <Choices
      legend="Measured on"
      name="measured"
      hint="Over film it counts as not confirmed."
      choices={MEASURED}
      value={answers.measured}
      onChange={(measured) => onChange({ measured })}
      problem={problems.measured}
    />
  );
}
