// How a tag is fixed. It is asked each time, because a tag on the film goes when the film does.
import { signal } from '@preact/signals';
import { type On, onWords } from './attaching.ts';

const CHOICES: On[] = ['film', 'metal', 'tied', 'bag'];
const HINTS: Partial<Record<On, string>> = { film: 'goes when the film comes off' };

/** The last answer of this sitting: tags are put on in batches. */
export const lastOn = signal<On | null>(null);

export function OnWhat({
  value,
  onChange,
  sort = 'part',
  name = 'on',
}: {
  value: On | null;
  onChange: (on: On) => void;
  sort?: string;
  /** where a form asks it more than once */
  name?: string;
}) {
  const choices = sort === 'place' ? CHOICES.filter((on) => on !== 'film') : CHOICES;
  return (
    <fieldset class="on-what">
      <legend>How is the tag fixed?</legend>
      {choices.map((on) => (
        <label key={on}>
          <input
            type="radio"
            name={name}
            value={on}
            required
            checked={value === on}
            onChange={() => {
              lastOn.value = on;
              onChange(on);
            }}
          />
          <span>
            {onWords(on, sort)}
            {HINTS[on] && <small>{HINTS[on]}</small>}
          </span>
        </label>
      ))}
    </fieldset>
  );
}
