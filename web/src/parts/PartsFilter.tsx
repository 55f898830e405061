// What the list of parts shows: words to find, and a sentence that opens to be changed.
import { HEADLINES, type Headline } from './headlines.ts';
import { type Asked, type Filter, filterWords } from './listing.ts';

const WORDS: Record<Headline, Record<Asked, string>> = {
  film: { any: 'film on or off', yes: 'film off', 'not yet': 'film not off yet' },
  deburr: { any: 'deburred or not', yes: 'deburred', 'not yet': 'not yet deburred' },
  flush: {
    any: 'dimpled, countersunk or neither',
    yes: 'dimpled or countersunk',
    'not yet': 'not yet dimpled or countersunk',
  },
  prime: { any: 'primed or not', yes: 'primed', 'not yet': 'not yet primed' },
};
const ASKED: Asked[] = ['any', 'yes', 'not yet'];

interface Props {
  filter: Filter;
  onChange: (filter: Filter) => void;
}

export function PartsFilter({ filter, onChange }: Props) {
  return (
    <div class="parts-filter">
      <input
        type="search"
        aria-label="Find parts"
        placeholder="Name, number, place, state"
        value={filter.words}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        enterkeyhint="search"
        onInput={(event) => onChange({ ...filter, words: event.currentTarget.value })}
      />
      <details>
        <summary>{filterWords(filter)}</summary>
        <div class="sentence">
          <span>Parts with</span>
          {HEADLINES.map(({ key, word }) => (
            <select
              key={key}
              aria-label={word}
              value={filter.states[key]}
              onChange={(event) => {
                const asked = event.currentTarget.value as Asked;
                onChange({ ...filter, states: { ...filter.states, [key]: asked } });
              }}
            >
              {ASKED.map((asked) => (
                <option value={asked} key={asked}>
                  {WORDS[key][asked]}
                </option>
              ))}
            </select>
          ))}
          <select
            aria-label="Order"
            value={filter.by}
            onChange={(event) =>
              onChange({ ...filter, by: event.currentTarget.value as Filter['by'] })
            }
          >
            <option value="touched">last touched first</option>
            <option value="name">by name</option>
          </select>
        </div>
      </details>
    </div>
  );
}
