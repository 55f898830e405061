// The offcuts: what is wanted above, what serves below, as it is typed.
import { useMemo, useState } from 'preact/hooks';
import { Frame } from '../shell/Frame.tsx';
import { openedPhone, version } from '../shell/state.ts';
import { row, rows } from '../shell/things.ts';
import type { Unit } from '../twins/lengths.ts';
import { AskedForm } from './AskedForm.tsx';
import { type Asked, addressOf, askedIn, NOTHING_ASKED, understand } from './asked.ts';
import { OffcutList } from './OffcutList.tsx';
import { pieceOfRow, shopIn } from './piece.ts';
import { countWords, NearMisses, Results } from './Results.tsx';
import { search } from './search.ts';
import type { Offcut, Want } from './wanted.ts';
import './offcuts.css';

export function OffcutsScreen() {
  const { unit } = openedPhone().identity;
  const [asked, setAsked] = useState<Asked>(() => askedIn(location.search));
  const now = version.value;
  const pieces = useMemo(() => rows('offcut').map(pieceOfRow), [now]);
  const change = (part: Partial<Asked>): void => {
    const next = { ...asked, ...part };
    setAsked(next);
    // so that "back" from an offcut finds the question as it was
    history.replaceState(null, '', addressOf(next));
  };
  const { is, want, problems } = understand(asked, unit);
  const part = row(asked.part);
  return (
    <Frame title="Offcuts">
      {part && (
        <p class="note">
          A piece for <a href={`/part/${part.id}`}>{part.name}</a>.
        </p>
      )}
      {pieces.length > 0 ? (
        <>
          <AskedForm asked={asked} problems={problems} unit={unit} onChange={change} />
          {addressOf(asked) !== '/offcuts' && (
            <button type="button" class="ask-again" onClick={() => change(NOTHING_ASKED)}>
              Ask nothing, show all
            </button>
          )}
        </>
      ) : (
        <p>
          No offcut is entered yet. Put a blank tag on the next piece that is worth keeping and scan
          it, or enter one without a tag.
        </p>
      )}
      <p>
        <a class="button" href="/offcut/new">
          Enter an offcut
        </a>
      </p>
      {pieces.length > 0 && <Answer is={is} want={want} pieces={pieces} unit={unit} />}
    </Frame>
  );
}

interface Question {
  is: 'all' | 'like' | 'search';
  want: Want;
  pieces: Offcut[];
  unit: Unit;
}

function Answer({ is, want, pieces, unit }: Question) {
  const key = JSON.stringify(want);
  const most = is === 'search' ? undefined : pieces.length;
  const found = useMemo(
    () => (is === 'all' ? null : search(want, pieces, shopIn(unit), most)),
    [is, key, pieces, unit, most],
  );
  if (!found) return <OffcutList pieces={pieces} />;
  return (
    <section aria-label="Answer">
      <p class="count" aria-live="polite">
        {countWords(found)}
      </p>
      {is === 'search' ? (
        <Results key={key} found={found} want={want} unit={unit} />
      ) : (
        <>
          <OffcutList pieces={found.serves.map(({ offcut }) => offcut)} />
          {found.near.length > 0 && <h2>Near misses</h2>}
          <NearMisses near={found.near.slice(0, 40)} />
        </>
      )}
    </section>
  );
}
