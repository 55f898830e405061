// The rivets of a line by their length, and the button that confirms a length that changed.
import { sayKept } from '../shell/feedback.tsx';
import { record } from '../shell/state.ts';
import type { Body } from '../twins/facts.ts';
import type { State } from '../twins/fold.ts';
import { confirmedIn, dashWords, type Group, groupsOf, segmentsOf } from './segments.ts';
import { counted, listed } from './words.ts';

export function Segments({ id, state }: { id: string; state: State }) {
  const segments = segmentsOf(state);
  if (!segments.length) return null;
  const confirm = async (group: Group): Promise<void> => {
    const body = { segments: confirmedIn(segments, group) };
    await record([{ kind: 'line.segments.v1', subject: id, body: body as unknown as Body }]);
    sayKept(`Confirmed: ${groupWords(group)}`);
  };
  return (
    <section>
      <h2>Where the stack changes</h2>
      <ul class="plain segments">
        {groupsOf(segments).map((group) => (
          <li key={groupWords(group)}>
            <p>
              <b>{groupWords(group)}</b>
              {`: ${listed(group.segments.map((one) => one.name))}`}
            </p>
            {!state.retired && waits(group) && (
              <button type="button" onClick={() => confirm(group)}>
                Confirm {groupWords(group)}
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

const waits = ({ segments, dash }: Group): boolean =>
  dash !== null && segments.some((one) => !one.confirmed);

// "MS20426AD3-4, 12 holes"
function groupWords({ fastener, dash, holes }: Group): string {
  const count = holes === null ? 'not counted' : counted(holes, 'hole');
  const size = fastener.text || fastener.kind;
  return dash === null
    ? `${size} ${dashWords(dash)}, ${count}`
    : `${size}${dashWords(dash)}, ${count}`;
}
