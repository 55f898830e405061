// The rivets of a line by their length, and the buttons that confirm a length that changed.
import { useState } from 'preact/hooks';
import { sayKept } from '../shell/feedback.tsx';
import { record } from '../shell/state.ts';
import type { Body } from '../twins/facts.ts';
import type { State } from '../twins/fold.ts';
import { takeBack, undoWords } from './recording.ts';
import { confirmedIn, type Group, groupsOf, segmentsOf } from './segments.ts';
import { confirmedWords, holesWords, rivetWords } from './stretches.ts';

const SETTLED_MS = 700; // a second tap of the same thumb must not take it back

export function Segments({ state }: { state: State }) {
  const segments = segmentsOf(state);
  if (!segments.length) return null;
  return (
    <section>
      <h2>Its rivets</h2>
      <ul class="plain segments">
        {groupsOf(segments).map((group) => (
          <li key={rivetWords(group)}>
            {holesWords(group.holes)}: <b>{rivetWords(group)}</b>
            {group.segments.some((one) => !one.confirmed) && ', not confirmed'}
          </li>
        ))}
      </ul>
    </section>
  );
}

interface ConfirmProps {
  id: string;
  state: State;
  main: boolean;
  onKept: () => void;
}

// One button for every length that waits; the main one where nothing else is to be done.
export function Confirm({ id, state, main, onKept }: ConfirmProps) {
  const [kept, setKept] = useState<{ label: string; event: string } | null>(null);
  const [busy, setBusy] = useState(false);
  const segments = segmentsOf(state);
  const waiting = groupsOf(segments).filter((one) => one.segments.some((each) => !each.confirmed));
  const told = waiting.filter((one) => one.dash !== null);
  const keep = async (label: string, work: () => Promise<string[]>): Promise<string[]> => {
    setBusy(true);
    onKept();
    const ids = await work();
    sayKept(label);
    setTimeout(() => setBusy(false), SETTLED_MS);
    return ids;
  };
  const confirm = async (group: Group): Promise<void> => {
    const body = { segments: confirmedIn(segments, group) } as unknown as Body;
    const label = confirmedWords(group);
    const [event = ''] = await keep(label, () =>
      record([{ kind: 'line.segments.v1', subject: id, body }]),
    );
    setKept({ label, event });
  };
  const undo = async (): Promise<void> => {
    if (!kept) return;
    await keep(`Taken back: ${kept.label}`, () =>
      record(takeBack([{ event: kept.event, subject: id }])),
    );
    setKept(null);
  };
  if (!waiting.length && !kept) return null;
  return (
    <div class="recorder">
      {told.map((group) => (
        <button
          type="button"
          class={main ? 'main' : 'aside'}
          key={confirmedWords(group)}
          disabled={busy}
          onClick={() => confirm(group)}
        >
          {confirmedWords(group)}
        </button>
      ))}
      {waiting.length > 0 && (
        <a class="button aside" href={`/line/${id}/length`}>
          {told.length ? 'Another length …' : 'Give them a length …'}
        </a>
      )}
      {kept && (
        <button type="button" class="aside" disabled={busy} onClick={undo}>
          {undoWords(kept.label)}
        </button>
      )}
    </div>
  );
}
