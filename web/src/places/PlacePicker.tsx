// Choosing a place: by its tag, by its name, or from the tree.
import { useState } from 'preact/hooks';
import { Problem } from '../offcuts/Choices.tsx';
import { later } from '../shell/later.tsx';
import { find, row, rows, wayTo } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { grouped } from '../twins/tagcode.ts';
import { lastPlace } from './moving.ts';
import { NewPlace } from './NewPlace.tsx';
import './places.css';
import { type Branch, branches } from './tree.ts';

interface Props {
  onPick: (to: Row | null) => void;
  /** Why a place cannot be taken, in a sentence; '' where it can. */
  without?: (place: Row) => string;
  /** Offer "nowhere known", for a thing that was put somewhere. */
  nowhere?: boolean;
  /** Offer to enter a place that is not there yet. */
  mayAdd?: boolean;
}

// the reader is large, and most choices are made from the list
const Scanner = later(async () => (await import('../tags/Scanner.tsx')).Scanner, true);

export function PlacePicker({ onPick, without, nowhere = false, mayAdd = false }: Props) {
  const [scans, setScans] = useState(false);
  const [adds, setAdds] = useState(false);
  const [refused, setRefused] = useState('');
  const take = (place: Row | null): void => {
    const why = place ? (without?.(place) ?? '') : '';
    setRefused(why);
    if (!why) onPick(place);
  };
  const read = (code: string): void => {
    const place = placeBehind(code);
    if (typeof place === 'string') setRefused(place);
    else take(place);
  };
  if (adds)
    return (
      <>
        <NewPlace code={null} onDone={(id) => take(row(id) ?? null)} />
        <button type="button" class="leave" onClick={() => setAdds(false)}>
          Choose one that is there
        </button>
      </>
    );
  return (
    <div class="place-picker">
      <Problem text={refused} />
      {scans && <Scanner prompt="The tag of the place." onRead={read} />}
      <div class="ways">
        <button type="button" onClick={() => setScans(!scans)}>
          {scans ? 'Choose from the list' : 'Scan its tag'}
        </button>
        {mayAdd && (
          <button type="button" onClick={() => setAdds(true)}>
            A new place
          </button>
        )}
        {nowhere && (
          <button type="button" onClick={() => take(null)}>
            Nowhere known
          </button>
        )}
      </div>
      {!scans && <Tree onTake={take} />}
    </div>
  );
}

/** The place that a tag is on, or why there is none, in a sentence. */
export function placeBehind(code: string): Row | string {
  const found = find(code);
  if (found.is === 'thing' && found.row.sort === 'place') return found.row;
  if (found.is === 'thing') return `${grouped(code)} is on ${found.row.name}, which is no place.`;
  if (found.is === 'blank') return `${grouped(code)} is on nothing yet.`;
  return `${grouped(code)} is a tag, but not one that this device knows.`;
}

function Tree({ onTake }: { onTake: (place: Row) => void }) {
  const [typed, setTyped] = useState('');
  const places = rows('place');
  const again = row(lastPlace.value);
  const words = typed.toLocaleLowerCase().split(/\s+/).filter(Boolean);
  const shown = branches(places).filter(({ place }) =>
    words.every((word) => place.name.toLocaleLowerCase().includes(word)),
  );
  if (!places.length) return <p>No place is entered yet.</p>;
  return (
    <>
      {places.length > 8 && (
        <input
          type="search"
          aria-label="Find a place"
          placeholder="Name of the place"
          value={typed}
          autocomplete="off"
          onInput={(event) => setTyped(event.currentTarget.value)}
          onKeyDown={(event) => event.key === 'Enter' && event.preventDefault()}
        />
      )}
      <ul class="plain tree">
        {again && !again.retired && !words.length && (
          <li>
            <button type="button" class="row" onClick={() => onTake(again)}>
              <b>{again.name}</b> <span class="faint">as the last time</span>
            </button>
          </li>
        )}
        {shown.map((branch) => (
          <Choice branch={branch} flat={words.length > 0} onTake={onTake} key={branch.place.id} />
        ))}
      </ul>
      {!shown.length && <p>No place is called that.</p>}
    </>
  );
}

function Choice(props: { branch: Branch; flat: boolean; onTake: (place: Row) => void }) {
  const { branch, flat, onTake } = props;
  const { place, depth } = branch;
  const way = flat ? wayTo(place.place).join(', ') : '';
  return (
    <li class={flat ? '' : `depth-${Math.min(depth, 5)}`}>
      <button type="button" class="row" onClick={() => onTake(place)}>
        <b>{place.name}</b>
        {way && <span class="faint"> {way}</span>}
      </button>
    </li>
  );
}
