// What is not sent yet and how old it is, the last exchange, and the ways to get it across.
import { useEffect, useState } from 'preact/hooks';
import { factWords } from '../parts/history.ts';
import {
  exchangedAt,
  openedPhone,
  pairAgain,
  sync,
  syncSentence,
  syncState,
  unsent,
  version,
} from '../shell/state.ts';
import { row } from '../shell/things.ts';
import type { Kept } from '../store/database.ts';
import { factOf } from '../store/outbox.ts';
import { age, ago } from './ages.ts';
import { BringIn } from './BringIn.tsx';
import { SaveUnsent } from './SaveUnsent.tsx';
import { useNow } from './useNow.ts';

const MOST_SHOWN = 30;

export function useUnsent(): Kept[] {
  const [kept, setKept] = useState<Kept[]>([]);
  const now = version.value;
  useEffect(() => {
    let current = true;
    void openedPhone()
      .db.getAll('outbox')
      .then((found) => current && setKept(found));
    return () => {
      current = false;
    };
  }, [now]);
  return kept;
}

export function Sending() {
  const kept = useUnsent();
  const now = useNow(10_000);
  const busy = syncState.value === 'busy';
  // a device that is not known any more is told so above, on every screen
  const trouble = ['out of reach', 'refused'].includes(syncState.value) && !pairAgain.value;
  return (
    <section aria-labelledby="sending">
      <h2 id="sending">Sent and not sent</h2>
      <p class="standing">{unsentWords(kept, now)}</p>
      <p>
        {exchangedAt.value === null
          ? 'Nothing has been exchanged with the workshop computer yet.'
          : `Last exchanged with the workshop computer ${ago(exchangedAt.value, now)}.`}
      </p>
      {trouble && (
        <p class="problem" role="status">
          {syncSentence.value} What is recorded stays on this device and is sent by itself as soon
          as that is possible.
        </p>
      )}
      <button type="button" class="main" disabled={busy} onClick={() => void sync()}>
        {busy ? 'Exchanging …' : 'Send now'}
      </button>
      {kept.length > 0 && <Entries kept={kept} />}
      <details class="more">
        <summary>By file instead</summary>
        <p>
          Where this device cannot reach the workshop computer any more, what it has not sent can go
          there as a file: by mail, cable or memory stick.
        </p>
        <SaveUnsent phone={openedPhone()} />
        <BringIn />
      </details>
    </section>
  );
}

function unsentWords(kept: Kept[], now: number): string {
  if (unsent.value === 0) return 'All sent.';
  const photos = openedPhone().photos.toSend().length;
  const told = [];
  if (kept.length) told.push(`${kept.length} ${kept.length === 1 ? 'entry' : 'entries'}`);
  if (photos) told.push(`${photos} ${photos === 1 ? 'photo' : 'photos'}`);
  const [first] = kept;
  const since = first ? ` The oldest entry is from ${age(now - atOf(first))} ago.` : '';
  return `${told.join(' and ')} not sent yet.${since}`;
}

function atOf(kept: Kept): number {
  return (JSON.parse(kept.text) as { at: number }).at;
}

// "Rib 4: deburred, all 164"
export function entryWords(kept: Kept): string {
  const thing = (id: string): string => row(id)?.name || 'something not on this device';
  const name = thing(kept.subject);
  const words = factWords(factOf(kept, null, 0), { thing });
  return `${name}: ${words === `entered it as ${name}` ? 'entered it' : words}`;
}

function Entries({ kept }: { kept: Kept[] }) {
  const shown = kept.slice(-MOST_SHOWN).reverse();
  return (
    <details class="more">
      <summary>What is not sent</summary>
      <ul class="plain entries">
        {shown.map((one) => (
          <li key={one.seq}>{entryWords(one)}</li>
        ))}
      </ul>
      {kept.length > MOST_SHOWN && <p>and {kept.length - MOST_SHOWN} older ones.</p>}
    </details>
  );
}
