// The record of a thing, newest first; an own entry can be taken back from here.
import { useState } from 'preact/hooks';
import { ask, sayKept } from '../shell/feedback.tsx';
import { openedPhone, record } from '../shell/state.ts';
import type { Fact } from '../twins/facts.ts';
import { moment } from './dates.ts';
import { historyLines, type Line } from './history.ts';
import { NAMES, personName } from './people.ts';
import { takeBack } from './recording.ts';
import { capital, counted } from './words.ts';

// Entries that can be taken back without leaving something else behind.
const RETURNABLE = new Set([
  'step.recorded.v1',
  'metal.changed.v1',
  'thing.moved.v1',
  'thing.retired.v1',
  'part.described.v1',
  'place.described.v1',
  'offcut.described.v1',
  'piece.described.v1',
  'offcut.reserved.v1',
  'photo.removed.v1',
  'sum.kept.v1',
  'finding.decided.v1',
  'finding.closed.v1',
  'line.segments.v1',
  'event.withdrawn.v1',
]);

export function History({ id, facts }: { id: string; facts: Fact[] }) {
  const lines = historyLines(facts, NAMES);
  const kinds = new Map(facts.map((fact) => [fact.id, fact.kind]));
  const waiting = facts.filter((fact) => fact.pos === null).length;
  return (
    <section class="history">
      <h2>What was done{waiting > 0 && `, ${waiting} not sent yet`}</h2>
      <ol>
        {lines.map((line) => (
          <Entry
            id={id}
            line={line}
            key={line.id}
            returnable={RETURNABLE.has(kinds.get(line.id) ?? '')}
          />
        ))}
      </ol>
      {facts.length > lines.length && (
        <p class="faint">{counted(facts.length - lines.length, 'older entry', 'older entries')}.</p>
      )}
    </section>
  );
}

function Entry({ id, line, returnable }: { id: string; line: Line; returnable: boolean }) {
  const [open, setOpen] = useState(false);
  const own = line.by === openedPhone().identity.person;
  const said = (
    <>
      <span class="when">
        {moment(line.at)} {personName(line.by)}:
      </span>{' '}
      {line.gone ? <s>{line.words}</s> : line.words}
      {line.gone && ' (taken back)'}
      {line.unsent && <em> not sent yet</em>}
    </>
  );
  if (!own || line.gone || !returnable) return <li>{said}</li>;
  const remove = async (): Promise<void> => {
    const answer = await ask('Take this back?', `${capital(line.words)}.`, [
      { label: 'Take it back', answer: 'back', main: true },
      { label: 'Leave it', answer: '' },
    ]);
    if (answer !== 'back') return;
    await record(takeBack([{ event: line.id, subject: id }]));
    sayKept(`Taken back: ${line.words}`);
    setOpen(false);
  };
  return (
    <li>
      <button type="button" class="entry" aria-expanded={open} onClick={() => setOpen(!open)}>
        {said}
      </button>
      {open && (
        <button type="button" onClick={remove}>
          Take this back
        </button>
      )}
    </li>
  );
}
