// The way without a camera: a few symbols of the code suggest tags that exist on this phone. None is
// taken without a tap, since two codes may differ in little.
import { useId, useState } from 'preact/hooks';
import { check, foldTyped, grouped, type Suggestion, suggest, type Why } from '../twins/tagcode.ts';
import { knownTags } from './known.ts';

const WHY: Record<Why, string> = {
  same: 'as typed',
  last: 'ends so',
  first: 'begins so',
  'one-wrong': 'one symbol differs',
  swapped: 'two symbols swapped',
  'one-missing': 'one symbol more',
  'one-extra': 'one symbol fewer',
};
const ENOUGH = 4;
const WHOLE = 10;

export function Typed({ onTaken }: { onTaken: (code: string) => void }) {
  const [typed, setTyped] = useState('');
  const field = useId();
  const known = knownTags();
  const found = suggest(typed, known.keys());
  const read = check(typed);
  const take = (code: string): void => {
    setTyped(''); // the next one may be typed at once
    onTaken(code);
  };
  return (
    <form class="typed" onSubmit={(event) => event.preventDefault()}>
      <label for={field}>
        Code on the tag
        <small>The last four symbols are enough for a tag this phone knows.</small>
      </label>
      <input
        id={field}
        class="code"
        value={typed}
        onInput={(event) => setTyped(event.currentTarget.value)}
        autocomplete="off"
        autocapitalize="characters"
        spellcheck={false}
        enterkeyhint="done"
        maxLength={40}
      />
      <div aria-live="polite">
        {found.length > 0 && (
          <ul class="plain" aria-label="Tags like this">
            {found.map((one) => (
              <Choice one={one} name={nameOf(known.get(one.code))} onTaken={take} key={one.code} />
            ))}
          </ul>
        )}
        {read.code && !known.has(read.code) && (
          <ul class="plain" aria-label="The whole code">
            <Choice
              one={{ code: read.code, why: 'same' }}
              name="not known on this phone"
              onTaken={take}
            />
          </ul>
        )}
        <p class="faint">{advice(typed, found.length, known.size)}</p>
      </div>
    </form>
  );
}

function nameOf(thing: { name: string; retired: boolean } | null | undefined): string {
  if (!thing) return 'blank, on nothing yet';
  const name = thing.name || 'a thing without a name';
  return thing.retired ? `${name}, which is gone` : name;
}

function Choice({
  one,
  name,
  onTaken,
}: {
  one: Suggestion;
  name: string;
  onTaken: (code: string) => void;
}) {
  return (
    <li>
      <button type="button" class="row" onClick={() => onTaken(one.code)}>
        <span class="code">{grouped(one.code)}</span> <span class="faint">{WHY[one.why]}</span>
        <br />
        {name}
      </button>
    </li>
  );
}

/** What to do next; '' while there is something to tap or too little was typed. */
function advice(typed: string, found: number, known: number): string {
  const symbols = [...foldTyped(typed)].length;
  if (found || symbols < ENOUGH) return known ? '' : 'No tag is known on this phone yet.';
  const read = check(typed);
  if (read.code) return '';
  if (symbols >= WHOLE || read.reason === 'symbol') return read.sentence;
  return 'No tag on this phone has these symbols. Type all ten, in two groups of five.';
}
