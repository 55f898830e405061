// One finding: what was seen, what was decided and by whom, and what shows that it is dealt with.
import { Answers } from '../parts/Answers.tsx';
import { moment } from '../parts/dates.ts';
import { History } from '../parts/History.tsx';
import { takenBack } from '../parts/history.ts';
import '../parts/part.css';
import { Problem } from '../offcuts/Choices.tsx';
import { personName } from '../parts/people.ts';
import { takeBack } from '../parts/recording.ts';
import { Photos } from '../photos/Photos.tsx';
import { Frame } from '../shell/Frame.tsx';
import { path } from '../shell/router.ts';
import { pathOf, row, useCard } from '../shell/things.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import type { Card } from '../store/phone.ts';
import { standing } from '../twins/facts.ts';
import type { Closing } from '../twins/findings.ts';
import { CloseForm } from './CloseForm.tsx';
import { DecideForm } from './DecideForm.tsx';
import { closedWords, decidedWords, ENDS, LACKING, OUTCOMES } from './words.ts';

export interface FindingProps {
  id: string;
  card: Card;
}

export function FindingScreen({ id }: { id: string }) {
  const card = useCard(id);
  if (card === undefined) return <Frame title="Finding">{null}</Frame>;
  if (card?.state.sort !== 'finding')
    return (
      <Frame title="No such finding">
        <p>
          This phone knows no finding at this address. It may have been written down on another
          phone and not have come in yet.
        </p>
        <a class="button main" href="/">
          To the bench
        </a>
      </Frame>
    );
  const sheet = path.value.split('/')[3];
  const { state } = card;
  return (
    <Frame title={String(state.what)}>
      {sheet === 'decide' && <DecideForm id={id} card={card} />}
      {sheet === 'close' && <CloseForm id={id} card={card} />}
      {!sheet && <Told id={id} card={card} />}
    </Frame>
  );
}

function Told({ id, card }: FindingProps) {
  const { state } = card;
  const opened = card.facts.find((fact) => fact.kind === 'finding.opened.v1');
  const on = row(String(state.on));
  return (
    <>
      <p>
        On {on ? <a href={pathOf(on)}>{on.name}</a> : 'a thing this phone does not know'}
        {opened && `, written down ${moment(opened.at)} by ${personName(opened.by)}`}.
      </p>
      {state.note ? <p>{String(state.note)}</p> : null}
      <Answers id={id} state={state} path={`/finding/${id}`} />
      {state.closed ? <Dealt id={id} card={card} /> : <Open id={id} card={card} />}
      <Photos id={id} state={state} />
      <History id={id} facts={card.facts} />
    </>
  );
}

function Open({ id, card }: FindingProps) {
  const { decided } = card.state;
  const ends = decided && ENDS[decided.decision] && decided.who;
  return (
    <section class="stack" aria-label="What becomes of it">
      <h2>What was decided</h2>
      {decided ? <Decision card={card} /> : <p>Nothing is decided yet.</p>}
      <NotClosed card={card} />
      {ends && (
        <a class="button main" href={`/finding/${id}/close`}>
          It is done: close it
        </a>
      )}
      <a class={ends ? 'button' : 'button main'} href={`/finding/${id}/decide`}>
        {decided && decided.decision !== 'ask the maker'
          ? 'Another decision'
          : 'Say what was decided'}
      </a>
      {!ends && (
        <a class="button" href={`/finding/${id}/close`}>
          Close it
        </a>
      )}
      <p class="note">
        Leave it as it is until someone who may decide has decided: the maker of the kit, approved
        data, or a person licensed for it. This is a record, not an approval.
      </p>
    </section>
  );
}

// A closing that was written and does not count, and why not.
function NotClosed({ card }: { card: Card }) {
  const { lacks = [] } = card.state;
  const tried = standing(card.facts).filter(({ kind }) => kind === 'finding.closed.v1');
  const last = tried.at(-1)?.body as unknown as Closing | undefined;
  if (!last?.outcome || !lacks.length) return null;
  const words = lacks.map((one) => LACKING[one]).join('; ');
  return (
    <p class="problem">
      It was to be closed: {OUTCOMES[last.outcome].toLowerCase()}. It stays open. It wants {words}.
    </p>
  );
}

function Decision({ card }: { card: Card }) {
  const { decided } = card.state;
  if (!decided) return null;
  return (
    <>
      <p>
        {decidedWords(decided)}, written down {moment(decided.at)} by{' '}
        {personName(decided.written_by)}.
      </p>
      {decided.what && <p>{decided.what}</p>}
    </>
  );
}

function Dealt({ id, card }: FindingProps) {
  const { closed } = card.state;
  const { problem, keep } = useKeeping();
  if (!closed) return null;
  const open = async (): Promise<void> => {
    const gone = takenBack(card.facts);
    const events = card.facts
      .filter((fact) => fact.kind === 'finding.closed.v1' && !gone.has(fact.id))
      .map((fact) => ({ event: fact.id, subject: id }));
    await keep(takeBack(events), 'Open again');
  };
  return (
    <section class="stack" aria-label="What became of it">
      <h2>Closed</h2>
      <p>
        {closedWords(closed)}. {moment(closed.at)}, {personName(closed.by)}.
      </p>
      <Decision card={card} />
      <Problem text={problem} />
      <button type="button" onClick={open}>
        Open it again
      </button>
    </section>
  );
}
