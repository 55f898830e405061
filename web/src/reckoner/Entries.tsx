// A list of figures to type in, one below the other: legs, angles.
import { useEffect, useRef } from 'preact/hooks';
import type { FieldProps } from './Field.tsx';
import { Beneath, Line, unitWords } from './TypedField.tsx';
import { entriesOf, exampleOf, listOf } from './typed.ts';

const MOST = 12;

export function Entries({ take, unit, text, problems, onChange }: FieldProps) {
  const entries = entriesOf(text);
  const shown = entries.length ? entries : [''];
  const put = (at: number, entry: string): void =>
    onChange(listOf(shown.map((one, index) => (index === at ? entry : one))));
  const behind = unitWords(take, unit);
  return (
    <fieldset class="entries">
      <legend>
        {take.label}
        {behind && `, ${behind}`}
      </legend>
      <ol>
        {shown.map((entry, at) => (
          <Entry
            key={at}
            {...{ take, unit, at, problems }}
            text={entry}
            onChange={(to) => put(at, to)}
          >
            {shown.length > 1 && (
              <button
                type="button"
                aria-label={`Take out number ${at + 1}`}
                onClick={() => onChange(listOf(shown.filter((_, index) => index !== at)))}
              >
                Take out
              </button>
            )}
          </Entry>
        ))}
      </ol>
      {shown.length < MOST && (
        <button type="button" onClick={() => onChange(listOf([...shown, '']))}>
          Another
        </button>
      )}
    </fieldset>
  );
}

interface EntryProps extends Omit<FieldProps, 'onChange'> {
  at: number;
  onChange: (text: string) => void;
  children: preact.ComponentChildren;
  /** takes the keyboard when it appears */
  first?: boolean;
  alone?: boolean;
}

export function Entry(props: EntryProps) {
  const { take, unit, at, text, problems, onChange, children, first, alone } = props;
  const line = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (first) line.current?.focus();
  }, []);
  const field = alone ? take.key : `${take.key}.${at}`;
  const problem = problems[field] ?? '';
  return (
    <li>
      {!alone && (
        <span class="at" aria-hidden="true">
          {at + 1}
        </span>
      )}
      <Line
        {...{ take, text, problem, field, onChange }}
        inputRef={line}
        label={alone ? take.label : `${take.label}, number ${at + 1}`}
        example={exampleOf(take, unit)}
      />
      {children}
      <Beneath {...{ take, unit, text, problem, field }} />
    </li>
  );
}
