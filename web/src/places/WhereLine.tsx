// Where a thing lies, and the way to say that it lies somewhere else. For the screens of things.
import { Fragment } from 'preact';
import { useState } from 'preact/hooks';
import { Problem } from '../offcuts/Choices.tsx';
import { sayKept } from '../shell/feedback.tsx';
import { row } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { lastMove, move, undoMove, whyItFailed } from './moving.ts';
import { PlacePicker } from './PlacePicker.tsx';
import './places.css';
import { whyNotInto } from './tree.ts';
import { named } from './words.ts';

export function WhereLine({ id }: { id: string }) {
  const [moves, setMoves] = useState(false);
  const [problem, setProblem] = useState('');
  const thing = row(id);
  if (!thing) return null;
  const put = async (to: Row | null): Promise<void> => {
    const failed = await whyItFailed(async () => sayKept(await move([thing], to)));
    setProblem(failed);
    if (!failed) setMoves(false);
  };
  const whyNot = (place: Row): string =>
    thing.place === place.id
      ? `${named(thing)} lies in ${place.name} already.`
      : whyNotInto(thing, place, row);
  return (
    <section class="where" aria-label="Where it lies">
      <div class="where-field">
        <Way thing={thing} />
        {!thing.retired && (
          <button type="button" aria-expanded={moves} onClick={() => setMoves(!moves)}>
            {moves ? 'Leave it there' : 'Move'}
          </button>
        )}
      </div>
      <Problem text={problem} />
      {moves && <PlacePicker nowhere={thing.place !== null} mayAdd onPick={put} without={whyNot} />}
      {!moves && <UndoMove of={[id]} />}
    </section>
  );
}

function Way({ thing }: { thing: Row }) {
  const way = placesOver(thing);
  if (!way.length)
    return (
      <p>
        {thing.sort === 'place' ? 'It lies in no other place.' : 'Nobody has said where it lies.'}
      </p>
    );
  return (
    <p>
      Lies in:{' '}
      {way.map((place, at) => (
        <Fragment key={place.id}>
          {at > 0 && ', '}
          <a href={`/place/${place.id}`}>{place.name}</a>
          {place.retired && ' (no longer there)'}
        </Fragment>
      ))}
    </p>
  );
}

/** The places a thing lies in, outermost first. */
function placesOver(thing: Row): Row[] {
  const way: Row[] = [];
  const seen = new Set<string>([thing.id]);
  for (let at = row(thing.place); at && !seen.has(at.id); at = row(at.place)) {
    seen.add(at.id);
    way.unshift(at);
  }
  return way;
}

/** Offers to take the last move back, on the screen where it was made. */
export function UndoMove({ of }: { of: string[] }) {
  const last = lastMove.value;
  const [problem, setProblem] = useState('');
  if (!last?.entries.some(({ subject }) => of.includes(subject))) return null;
  return (
    <>
      <Problem text={problem} />
      <button
        type="button"
        class="leave"
        onClick={async () => setProblem(await whyItFailed(async () => sayKept(await undoMove())))}
      >
        Undo: {last.label}
      </button>
    </>
  );
}
