// A part leaves the lists: scrapped, or entered by mistake. Its record stays, and it can come back.
import { ask, sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { record } from '../shell/state.ts';
import { arrived } from '../twins/facts.ts';
import type { State } from '../twins/fold.ts';
import { moment } from './dates.ts';
import { takenBack } from './history.ts';
import { lineOf } from './lines.ts';
import type { SheetProps } from './PartScreen.tsx';
import { personName } from './people.ts';
import { takeBack } from './recording.ts';

function calledIn(state: State): string {
  return state.sort === 'line' ? lineOf(state).name : String(state.name);
}

export function RetireForm({ id, card }: SheetProps) {
  const isLine = card.state.sort === 'line';
  const name = calledIn(card.state);
  const retire = async (why: string, title: string): Promise<void> => {
    const text =
      'It leaves the lists, and its tag says that it is gone. The record stays, and this can be taken back.';
    const answer = await ask(`${title}: ${name}?`, text, [
      { label: title, answer: 'yes', main: true },
      { label: 'Leave it as it is', answer: '' },
    ]);
    if (answer !== 'yes') return;
    await record([{ kind: 'thing.retired.v1', subject: id, body: { why } }]);
    sayKept(`${title}: ${name}`);
    go(`/${card.state.sort}/${id}`, true);
  };
  return (
    <section class="stack">
      <h2>{isLine ? 'Entered by mistake' : 'Scrapped, or entered by mistake'}</h2>
      <p>Nothing is deleted: what was done stays in the record.</p>
      {!isLine && (
        <button type="button" onClick={() => retire('scrapped', 'Scrapped')}>
          Scrapped
        </button>
      )}
      <button type="button" onClick={() => retire('entered by mistake', 'Entered by mistake')}>
        Entered by mistake
      </button>
    </section>
  );
}

export function Retired({ id, card }: SheetProps) {
  const { retired } = card.state;
  if (!retired) return null;
  const back = async (): Promise<void> => {
    const gone = takenBack(card.facts);
    const events = card.facts
      .filter((fact) => fact.kind === 'thing.retired.v1' && !gone.has(fact.id))
      .sort(arrived)
      .map((fact) => ({ event: fact.id, subject: id }));
    await record(takeBack(events));
    sayKept(`Back in the lists: ${calledIn(card.state)}`);
  };
  const why = retired.why === 'scrapped' ? 'Scrapped' : `Out of the lists, ${String(retired.why)}`;
  return (
    <div class="note stack">
      <p>
        {why}, {moment(Number(retired.at))}, {personName(String(retired.by))}.
      </p>
      <button type="button" onClick={back}>
        Take this back
      </button>
    </div>
  );
}
