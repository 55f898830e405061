// What lies in a place: directly, and in the places below it.
import { useState } from 'preact/hooks';
import { Frame } from '../shell/Frame.tsx';
import { openedPhone, version } from '../shell/state.ts';
import { pathOf, wayTo } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { OPERATIONS } from '../twins/marks.ts';
import { below, byName, lying } from './tree.ts';
import { named, thingsWords } from './words.ts';

const MOST = 60;

interface Props {
  here: Row[]; // directly in it
  everything: Row[]; // and in the places below it
}

export function Contents({ here, everything }: Props) {
  const [deep, setDeep] = useState(false);
  const places = here.filter((one) => one.sort === 'place').sort(byName);
  const loose = here.filter((one) => one.sort !== 'place');
  const all = everything.filter((one) => one.sort !== 'place');
  if (!everything.length)
    return (
      <section aria-label="What lies in it">
        <h2>In it</h2>
        <p>Nothing lies in it.</p>
      </section>
    );
  const further = all.length - loose.length;
  return (
    <section aria-label="What lies in it">
      <h2>In it: {thingsWords(here)}</h2>
      {further > 0 && <p>With the places below it, {thingsWords(all)}.</p>}
      <ul class="plain tree">
        {places.map((place) => (
          <Within place={place} key={place.id} />
        ))}
      </ul>
      <Things things={deep ? all : loose} withWay={deep} />
      {further > 0 && (
        <button type="button" class="leave" onClick={() => setDeep(!deep)}>
          {deep ? 'Only what lies directly in it' : `Show all ${all.length} with the places below`}
        </button>
      )}
    </section>
  );
}

function Within({ place }: { place: Row }) {
  const inside = below(place.id, lying(openedPhone().rows.values()));
  const things = inside.filter((one) => one.sort !== 'place');
  return (
    <li>
      <a href={`/place/${place.id}`}>
        <b>{place.name}</b>
        <span class="faint">{things.length ? thingsWords(things) : 'empty'}</span>
      </a>
    </li>
  );
}

function Things({ things, withWay }: { things: Row[]; withWay: boolean }) {
  const [shown, setShown] = useState(MOST);
  const sorted = [...things].sort(byName);
  return (
    <>
      <ul class="plain things">
        {sorted.slice(0, shown).map((one) => (
          <Thing thing={one} way={withWay ? wayTo(one.place).join(', ') : ''} key={one.id} />
        ))}
      </ul>
      {sorted.length > shown && (
        <button type="button" class="leave" onClick={() => setShown(shown + MOST)}>
          {sorted.length - shown} more
        </button>
      )}
    </>
  );
}

export function Thing({ thing, way }: { thing: Row; way: string }) {
  const number = typeof thing.fields.number === 'string' ? thing.fields.number : '';
  return (
    <li>
      <a href={pathOf(thing)}>
        <b>{named(thing)}</b> {number}
        <span class="under">{[way, stateWords(thing)].filter(Boolean).join(' · ')}</span>
      </a>
    </li>
  );
}

/** What a list of contents says of a thing beside its name. */
function stateWords(thing: Row): string {
  if (thing.sort === 'offcut') return 'offcut';
  if (thing.sort !== 'part') return '';
  if (thing.strip.includes('l')) return 'look at the part';
  const next = OPERATIONS.find((row) => row.op === thing.next);
  if (next) return `next: ${next.name}`;
  return /[tpa]/.test(thing.strip) ? '' : 'nothing open';
}

/** The things of which nobody has said where they lie. */
export function Nowhere() {
  version.value;
  const things = (lying(openedPhone().rows.values()).get('') ?? []).filter(
    (one) => one.sort !== 'place',
  );
  return (
    <Frame title="Nowhere known">
      {things.length ? (
        <>
          <p>
            Nobody has said where {thingsWords(things)} {things.length === 1 ? 'lies' : 'lie'}. Put
            them in a place by scanning it once, and then one after another.
          </p>
          <a class="button main" href="/run?put">
            Put things in a place
          </a>
          <Things things={things} withWay={false} />
        </>
      ) : (
        <p>Everything that is entered lies somewhere.</p>
      )}
    </Frame>
  );
}
