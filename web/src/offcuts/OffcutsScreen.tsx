// The offcuts: what is wanted above, what serves below, as it is typed.
import { useEffect, useMemo, useState } from 'preact/hooks';
import { below, lying } from '../places/tree.ts';
import { Frame } from '../shell/Frame.tsx';
import { openedPhone, version } from '../shell/state.ts';
import { row, rows } from '../shell/things.ts';
import type { Unit } from '../twins/lengths.ts';
import { AskedForm } from './AskedForm.tsx';
import {
  type Asked,
  addressOf,
  askedIn,
  NOTHING_ASKED,
  type Understood,
  understand,
} from './asked.ts';
import { CutInDoubt } from './cutting/CutInDoubt.tsx';
import { StillToMeasure } from './Measured.tsx';
import { OffcutList } from './OffcutList.tsx';
import { pieceOfRow, shopIn } from './piece.ts';
import { countWords, NearMisses, Results } from './Results.tsx';
import { LISTED, search } from './search.ts';
import { allowancesIn } from './sections/allowances.ts';
import { type AnyForm, FormPick } from './sections/FormPick.tsx';
import type { Found, Offcut, Want } from './wanted.ts';
import './offcuts.css';
import { OpenPieces } from '../wanted/OpenPieces.tsx';

/** `onForm`: angle, channel or tube is asked for instead. */
export function OffcutsScreen({ onForm }: { onForm: (form: AnyForm) => void }) {
  const { unit } = openedPhone().identity;
  const [asked, setAsked] = useState<Asked>(() => askedIn(location.search));
  const now = version.value;
  const pieces = useMemo(() => {
    const { curves } = openedPhone();
    const here = asked.place ? below(asked.place, lying(openedPhone().rows.values())) : null;
    const shown = here ? here.filter(({ sort }) => sort === 'offcut') : rows('offcut');
    return shown.map((one) => pieceOfRow(one, curves, row));
  }, [now, asked.place]);
  const change = (part: Partial<Asked>): void => setAsked((last) => ({ ...last, ...part }));
  useAddress(asked);
  const { is, want, problems } = understand(asked, unit);
  const found = useFound(is, want, pieces, unit);
  const part = row(asked.part);
  if (!pieces.length && !asked.place) return <None />;
  return (
    <Frame title="Offcuts">
      {part && (
        <p class="note">
          A piece for <a href={`/part/${part.id}`}>{part.name}</a>.
        </p>
      )}
      <CutInDoubt />
      {asked.place && <OnlyIn place={asked.place} onEverywhere={() => change({ place: '' })} />}
      <OpenPieces />
      <FormPick value="sheet" onChange={onForm} />
      <AskedForm asked={asked} problems={problems} unit={unit} onChange={change}>
        <p class="count" aria-live="polite">
          {found ? countWords(found) : `${pieces.length} in all. Write what you need.`}
        </p>
      </AskedForm>
      <p class="ways">
        <a class="button" href="/offcut/new">
          Enter an offcut
        </a>
        {addressOf(asked) !== '/offcuts' && (
          <button type="button" onClick={() => change(NOTHING_ASKED)}>
            Ask nothing, show all
          </button>
        )}
      </p>
      <StillToMeasure />
      <Answer is={is} found={found} want={want} pieces={pieces} unit={unit} />
    </Frame>
  );
}

/** Keeps the question in the address, so that "back" from an offcut finds it as it was. */
function useAddress(asked: Asked): void {
  useEffect(() => {
    const to = addressOf(asked);
    const keep = (): void => {
      const { pathname, search } = location;
      if (pathname === '/offcuts' && pathname + search !== to) history.replaceState(null, '', to);
    };
    // not with every key: some phones allow a page a hundred changes in half a minute
    const later = setTimeout(keep, 350);
    addEventListener('click', keep, true); // but before a link leads away
    return () => {
      clearTimeout(later);
      removeEventListener('click', keep, true);
    };
  }, [asked]);
}

/** The search looks in one place, and in what lies in it. */
function OnlyIn({ place, onEverywhere }: { place: string; onEverywhere: () => void }) {
  const known = row(place);
  return (
    <div class="note">
      <p>
        Only what lies in {known ? <a href={`/place/${place}`}>{known.name}</a> : 'that place'}.
      </p>
      <button type="button" onClick={onEverywhere}>
        Look everywhere
      </button>
    </div>
  );
}

function None() {
  return (
    <Frame title="Offcuts">
      <p>
        No offcut is entered yet. Put a blank tag on the next piece that is worth keeping and scan
        it, or enter one without a tag.
      </p>
      <a class="button main" href="/offcut/new">
        Enter an offcut
      </a>
    </Frame>
  );
}

/** The answer, worked out anew only when the question or the offcuts changed; null for no question. */
function useFound(is: Understood['is'], want: Want, pieces: Offcut[], unit: Unit): Found | null {
  const key = JSON.stringify([is, want]);
  const most = is === 'search' ? undefined : pieces.length;
  const least_useful_nm = allowancesIn(unit, openedPhone().identity.sawing).narrowest.nm;
  return useMemo(
    () => (is === 'all' ? null : search(want, pieces, { ...shopIn(unit), least_useful_nm }, most)),
    [key, pieces, unit, least_useful_nm],
  );
}

function Answer(props: {
  is: Understood['is'];
  found: Found | null;
  want: Want;
  pieces: Offcut[];
  unit: Unit;
}) {
  const { is, found, want, pieces, unit } = props;
  if (!found) return <OffcutList pieces={pieces} />;
  if (is === 'search')
    return <Results key={JSON.stringify(want)} found={found} want={want} unit={unit} />;
  return (
    <>
      <OffcutList pieces={found.serves.map(({ offcut }) => offcut)} />
      {found.near.length > 0 && <h2>Near misses</h2>}
      <NearMisses near={found.near.slice(0, LISTED)} />
    </>
  );
}
