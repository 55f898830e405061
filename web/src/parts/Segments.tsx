// The rivets of a line by their length, and the button that confirms a length that changed.
import { sayKept } from '../shell/feedback.tsx';
import { record } from '../shell/state.ts';
import type { Body } from '../twins/facts.ts';
import type { State } from '../twins/fold.ts';
import { confirmedIn, dashWords, type Group, groupsOf, segmentsOf } from './segments.ts';
import { counted, listed } from './words.ts';

export function Segments({ state }: { state: State }) {
  const segments = segmentsOf(state);
  if (!segments.length) return null;
  return (
    <section>
      <h2>Where the stack changes</h2>
      <ul class="plain segments">
        {groupsOf(segments).map((group) => (
          <li key={groupWords(group)}>
            <b>{groupWords(group)}</b>
            {`: ${listed(group.segments.map((one) => one.name))}${wasWords(group)}`}
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
  const segments = segmentsOf(state);
  const waiting = groupsOf(segments).filter(waits);
  if (!waiting.length) return null;
  const confirm = async (group: Group): Promise<void> => {
    const body = { segments: confirmedIn(segments, group) };
    onKept();
    await record([{ kind: 'line.segments.v1', subject: id, body: body as unknown as Body }]);
    sayKept(`Confirmed: ${groupWords(group)}`);
  };
  return (
    <div class="recorder">
      {waiting.map((group) => (
        <button
          type="button"
          class={main ? 'main' : 'aside'}
          key={groupWords(group)}
          onClick={() => confirm(group)}
        >
          Confirm {groupWords(group)}
        </button>
      ))}
    </div>
  );
}

const waits = ({ segments, dash }: Group): boolean =>
  dash !== null && segments.some((one) => !one.confirmed);

// ", before -3.5": what those take that wait
function wasWords({ segments }: Group): string {
  const were = segments.flatMap((one) => (one.confirmed || !one.was_dash ? [] : [one.was_dash]));
  const said = [...new Set(were)].map((dash) => dashWords(dash));
  return said.length ? `, before ${listed(said)}` : '';
}

// "MS20426AD3-4, 12 holes"
function groupWords({ fastener, dash, holes }: Group): string {
  const count = holes === null ? 'not counted' : counted(holes, 'hole');
  const size = fastener.text || fastener.kind;
  return dash === null
    ? `${size} ${dashWords(dash)}, ${count}`
    : `${size}${dashWords(dash)}, ${count}`;
}
