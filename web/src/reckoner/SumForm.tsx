// The form of a sum, made from what it takes: a new sum of the rules needs nothing here.
import type { Unit } from '../twins/lengths.ts';
import type { Takes } from '../twins/reading.ts';
import type { Sum } from '../twins/reckon.ts';
import type { Typed } from './address.ts';
import { Field } from './Field.tsx';
import { isList, small, startWith } from './typed.ts';
import '../offcuts/choices.css';
import './form.css';

export interface FormProps {
  sum: Sum;
  unit: Unit;
  typed: Typed;
  problems: Readonly<Record<string, string>>;
  verdict: string;
  onChange: (key: string, text: string) => void;
  onClear: () => void;
}

/** Asked for at once: all that must be given, and what is seldom left as it usually is. */
const atOnce = (take: Takes): boolean =>
  !take.optional && (take.default === null || take.kind === 'word' || isList(take));

export function SumForm(props: FormProps) {
  const { sum, typed, problems, verdict, onClear } = props;
  const more = sum.takes.filter((take) => !atOnce(take));
  const blank = startWith(sum, {});
  const given = ({ key }: Takes): boolean => (typed[key] ?? '') !== blank[key];
  return (
    <form
      class="sum-form"
      aria-label={sum.question}
      noValidate
      onSubmit={(event) => event.preventDefault()}
    >
      <div class="question">
        <p>{sum.question}</p>
        {sum.takes.some(given) && (
          <button type="button" onClick={onClear}>
            Clear
          </button>
        )}
      </div>
      {sum.takes.filter(atOnce).map((take) => (
        <OneField key={take.key} take={take} {...props} />
      ))}
      {more.length > 0 && (
        <details
          class="more-takes"
          // what is missing for an answer is often in here
          open={
            more.some(given) || more.some(({ key }) => problems[key]) || verdict === 'not covered'
          }
        >
          <summary>
            <span>
              More<small>{moreWords(more)}</small>
            </span>
          </summary>
          {more.map((take) => (
            <OneField key={take.key} take={take} {...props} />
          ))}
        </details>
      )}
    </form>
  );
}

function OneField({ take, unit, typed, problems, onChange }: FormProps & { take: Takes }) {
  return (
    <Field
      take={take}
      unit={unit}
      text={typed[take.key] ?? ''}
      problems={problems}
      onChange={(text) => onChange(take.key, text)}
    />
  );
}

const NAMED = 2;

function moreWords(takes: Takes[]): string {
  const words = takes.map(({ label }) => small(label));
  if (words.length <= NAMED + 1) return words.join('; ');
  return `${words.slice(0, NAMED).join('; ')}; ${words.length - NAMED} more`;
}
