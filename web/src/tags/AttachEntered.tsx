// A tag for a thing that is entered already: found by name or number, then how the tag is fixed.
import { useState } from 'preact/hooks';
import { sayKept } from '../shell/feedback.tsx';
import { openedPhone, version } from '../shell/state.ts';
import { wayTo } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { grouped } from '../twins/tagcode.ts';
import { type On, replaced } from './attaching.ts';
import { keptOrWhy } from './keeping.ts';
import { lastOn, OnWhat } from './OnWhat.tsx';
import { MOST_FOUND, matching } from './search.ts';

const SORTS = ['part', 'offcut', 'place'];

interface Props {
  code: string;
  onDone: (id: string) => void;
}

export function AttachEntered({ code, onDone }: Props) {
  const [thing, setThing] = useState<Row | null>(null);
  if (!thing)
    return (
      <>
        <p>
          Tag <span class="code">{grouped(code)}</span>
        </p>
        <Search onTaken={setThing} />
      </>
    );
  return (
    <Fix
      code={code}
      thing={thing}
      onDone={() => onDone(thing.id)}
      onBack={() => setThing(null)}
      back="Another thing"
    />
  );
}

function Search({ onTaken }: { onTaken: (thing: Row) => void }) {
  const [typed, setTyped] = useState('');
  version.value;
  const found = matching(openedPhone().rows.values(), SORTS, typed);
  return (
    <>
      <label>
        Name or number
        <input
          type="search"
          value={typed}
          autocomplete="off"
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
      </label>
      {!found.length && (
        <p>{typed ? 'Nothing entered has all of these words.' : 'Nothing is entered yet.'}</p>
      )}
      <ul class="plain">
        {found.slice(0, MOST_FOUND).map((one) => (
          <li key={one.id}>
            <button type="button" class="row" onClick={() => onTaken(one)}>
              <b>{one.name || 'without a name'}</b> {number(one)}
              <br />
              <span class="faint">{[one.sort, ...wayTo(one.place)].join(', ')}</span>
            </button>
          </li>
        ))}
      </ul>
      {found.length > MOST_FOUND && (
        <p class="faint">{found.length - MOST_FOUND} more: type another word.</p>
      )}
    </>
  );
}

function number(thing: Row): string {
  return typeof thing.fields.number === 'string' ? thing.fields.number : '';
}

interface FixProps {
  code: string;
  thing: Row;
  onDone: () => void;
  onBack: () => void;
  /** What going back chooses anew. */
  back: string;
}

/** How the tag is fixed, and whether it takes the place of those that are on the thing. */
export function Fix({ code, thing, onDone, onBack, back }: FixProps) {
  const [on, setOn] = useState<On | null>(lastOn.value);
  const live = thing.codes.filter((one) => !thing.oldCodes.includes(one));
  const [gone, setGone] = useState<string[]>(live);
  const [problem, setProblem] = useState('');
  const name = thing.name || 'this thing';
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (!on) return;
    const why = await keptOrWhy(replaced(thing.id, gone, code, on));
    setProblem(why);
    if (why) return;
    sayKept(`Tag on ${name}`);
    onDone();
  };
  const toggle = (one: string): void =>
    setGone(gone.includes(one) ? gone.filter((each) => each !== one) : [...gone, one]);
  return (
    <form onSubmit={submit}>
      <p class="goes-with">
        <span>
          Tag <span class="code">{grouped(code)}</span> for <b>{name}</b> {number(thing)}
        </span>
        <button type="button" onClick={onBack}>
          {back}
        </button>
      </p>
      <OnWhat value={on} onChange={setOn} sort={thing.sort} />
      {live.length > 0 && (
        <fieldset class="on-what">
          <legend>It takes the place of</legend>
          {live.map((one) => (
            <label key={one}>
              <input type="checkbox" checked={gone.includes(one)} onChange={() => toggle(one)} />
              <span>
                <span class="code">{grouped(one)}</span>
                <small>still finds {name} when it is scanned</small>
              </span>
            </label>
          ))}
        </fieldset>
      )}
      <Problem text={problem} />
      <button type="submit" class="main">
        Put the tag on {name}
      </button>
    </form>
  );
}

export function Problem({ text }: { text: string }) {
  if (!text) return null;
  return (
    <p class="problem" role="alert">
      {text}
    </p>
  );
}
