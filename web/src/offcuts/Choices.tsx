// A question with a few answers, each large enough for a gloved thumb.
import type { ComponentChildren } from 'preact';
import './choices.css';

export interface Choice<V extends string> {
  value: V;
  label: ComponentChildren;
  /** what is read out where the label is a drawing */
  words?: string;
}

export function Choices<V extends string>(props: {
  legend: string;
  name: string;
  choices: readonly Choice<V>[];
  value: V | '';
  onChange: (value: V) => void;
  problem?: string | undefined;
  columns?: 1 | 2 | 3 | 6;
  hint?: string;
}) {
  const { legend, name, choices, value, onChange, problem, columns = 2, hint } = props;
  return (
    <fieldset class="choices" data-wrong={problem ? '' : undefined}>
      <legend>
        {legend}
        {hint && <small>{hint}</small>}
      </legend>
      <Problem text={problem} />
      <div class={`choice-grid columns-${columns}`}>
        {choices.map((choice) => (
          <label key={choice.value} class="choice">
            <input
              type="radio"
              name={name}
              value={choice.value}
              checked={value === choice.value}
              aria-label={choice.words}
              onChange={() => onChange(choice.value)}
            />
            <span>{choice.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

export function Problem({ text, id }: { text?: string | undefined; id?: string }) {
  return text ? (
    <p class="problem" role="alert" id={id}>
      {text}
    </p>
  ) : null;
}

/** "Next" on the keyboard leads to the next line to type in, or puts the keyboard away. */
function goOn(event: KeyboardEvent): void {
  event.preventDefault();
  const input = event.currentTarget as HTMLInputElement;
  const all = [...(input.form?.querySelectorAll('input') ?? [])];
  const next = all[all.indexOf(input) + 1];
  if (next?.type === 'text') next.focus();
  else input.blur();
}

/** A line to type in, with what was read of it and what is wrong with it beside it. */
export function Typed(props: {
  label: string;
  name: string;
  value: string;
  onInput: (text: string) => void;
  problem?: string | undefined;
  hint?: string;
  /** what was understood, such as the other unit */
  read?: string;
  last?: boolean;
}) {
  const { label, name, value, onInput, problem, hint, read, last } = props;
  return (
    <div class="field typed" data-wrong={problem ? '' : undefined}>
      <label>
        {label}
        {hint && <small>{hint}</small>}
        <input
          name={name}
          value={value}
          onInput={(event) => onInput(event.currentTarget.value)}
          onKeyDown={(event) => event.key === 'Enter' && goOn(event)}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          enterkeyhint={last ? 'done' : 'next'}
          maxLength={200}
          aria-invalid={problem ? true : undefined}
          aria-describedby={problem ? `${name}-problem` : undefined}
        />
      </label>
      {read && !problem && <output class="read-as">{read}</output>}
      <Problem text={problem} id={`${name}-problem`} />
    </div>
  );
}
