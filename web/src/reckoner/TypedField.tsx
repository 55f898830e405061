// A field to type in, with what was read of it, or what is wrong with it, beneath.
import type { Ref } from 'preact';
import type { Unit } from '../twins/lengths.ts';
import type { Takes } from '../twins/reading.ts';
import { exampleOf, otherwise } from './typed.ts';

interface Props {
  take: Takes;
  unit: Unit;
  text: string;
  problem: string;
  onChange: (text: string) => void;
}

const LENGTHS = new Set(['thickness', 'thicknesses', 'length', 'lengths']);
// figures only; a length may need a stroke or a letter
const FIGURES = new Set(['count', 'number', 'percent', 'angle', 'angles']);
const UNITS: Readonly<Record<string, string>> = {
  angle: 'degrees',
  angles: 'degrees',
  percent: '%',
};

/** What stands behind a label: the unit in which a bare figure is read. */
export function unitWords({ kind }: Takes, unit: Unit): string {
  return LENGTHS.has(kind) ? unit : (UNITS[kind] ?? '');
}

export function TypedField({ take, unit, text, problem, onChange }: Props) {
  const behind = unitWords(take, unit);
  return (
    <div class="field typed">
      <label htmlFor={`take-${take.key}`}>
        {take.label}
        {behind && `, ${behind}`}
      </label>
      <Line
        {...{ take, text, problem, onChange }}
        field={take.key}
        example={`${take.default ? 'usually' : 'for example'} ${exampleOf(take, unit)}`}
      />
      <Beneath {...{ take, unit, text, problem }} field={take.key} />
    </div>
  );
}

interface LineProps {
  take: Takes;
  text: string;
  problem: string;
  field: string;
  onChange: (text: string) => void;
  label?: string;
  example?: string;
  inputRef?: Ref<HTMLInputElement>;
}

export function Line(props: LineProps) {
  const { take, text, problem, field, onChange, label, example, inputRef } = props;
  return (
    <input
      name={field}
      id={`take-${field}`}
      ref={inputRef ?? null}
      value={text}
      aria-label={label}
      placeholder={example}
      inputMode={FIGURES.has(take.kind) ? 'decimal' : 'text'}
      autocomplete="off"
      autocapitalize="off"
      spellcheck={false}
      enterkeyhint="done"
      maxLength={60}
      aria-invalid={problem ? true : undefined}
      aria-describedby={problem ? `${field}-problem` : undefined}
      onInput={(event) => onChange(event.currentTarget.value)}
      // puts the keyboard away, so that the answer is in sight
      onKeyDown={(event) => event.key === 'Enter' && event.currentTarget.blur()}
    />
  );
}

interface BeneathProps {
  take: Takes;
  unit: Unit;
  text: string;
  problem: string;
  field: string;
}

export function Beneath({ take, unit, text, problem, field }: BeneathProps) {
  const read = LENGTHS.has(take.kind)
    ? otherwise(text, unit, take.kind.startsWith('thickness'))
    : '';
  if (problem)
    return (
      <p class="problem" id={`${field}-problem`}>
        {problem}
      </p>
    );
  return read ? <output class="read-as">{read}</output> : null;
}
