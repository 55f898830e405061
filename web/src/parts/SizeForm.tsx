// Holes of a rivet line go up a size: edge, pitch, treatment and length are checked first, and
// only where they hold is it offered. Loads the rules, so it is fetched when it is opened.
import { useState } from 'preact/hooks';
import { StackDrawing } from '../reckoner/drawings/StackDrawing.tsx';
import { dashFor } from '../reckoner/linerivet.ts';
import { segmentStack } from '../reckoner/segmentstack.ts';
import { largerRivet, upsizeAnswer } from '../reckoner/upsizing.ts';
import '../reckoner/reckoner.css';
import { Verdict } from '../reckoner/Verdict.tsx';
import { sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { openedPhone, record } from '../shell/state.ts';
import { row } from '../shell/things.ts';
import { newId } from '../store/ids.ts';
import type { Body } from '../twins/facts.ts';
import { type Answer, isUnreckoned } from '../twins/reckon.ts';
import { TextField } from './DescriptionFields.tsx';
import { changesOf, segmentsAlong, type Touched, upSized } from './layering.ts';
import { lineOf } from './lines.ts';
import type { SheetProps } from './PartScreen.tsx';
import { dashWords, type Segment, wrongWithSegments } from './segments.ts';
import { TouchedFields } from './TouchedFields.tsx';
import { counted } from './words.ts';

const nameOf = (id: string): string => row(id)?.name ?? 'a part not on this phone';

export function SizeForm({ id, card }: SheetProps) {
  const line = lineOf(card.state);
  const { unit } = openedPhone().identity;
  const before = segmentsAlong(line, card.state, dashFor(line));
  const [edge, setEdge] = useState('');
  const [pitch, setPitch] = useState('');
  const [touched, setTouched] = useState<Touched[]>([{ at: 0, holes: null }]);
  const segment = before[touched[0]?.at ?? 0];
  const found = segment && edge.trim() ? upsizeAnswer(line, segment, { edge, pitch }, unit) : null;
  const unknown = segment && !upsizeAnswer(line, segment, { edge: '1', pitch: '' }, unit);
  const answer = found && !isUnreckoned(found) ? found : null;
  const larger = largerRivet(found);
  const fastener = larger ? { kind: 'rivet' as const, text: larger } : null;
  const after = fastener ? upSized(before, touched, fastener, dashFor(line)) : null;
  const stop = after ? wrongWithSegments(line, after) : '';
  const holes = touched[0]?.holes ?? segment?.count ?? null;
  const keep = async (): Promise<void> => {
    if (!after || stop) return;
    const enlarged: Body = { change: 'holes enlarged', holes };
    await record([
      { kind: 'metal.changed.v1', subject: id, body: enlarged },
      { kind: 'line.segments.v1', subject: id, body: { segments: after } as unknown as Body },
    ]);
    sayKept(`${larger}: ${holes === null ? 'its holes' : counted(holes, 'hole')}`);
    go(`/line/${id}`, true);
  };
  return (
    <div class="stack">
      <h2>Holes go up a size</h2>
      <TouchedFields
        segments={before}
        touched={touched}
        onChange={(next) => setTouched(next.slice(-1))}
      />
      <TextField
        label={`From the hole to the edge, ${unit}`}
        value={edge}
        onInput={setEdge}
        longest={40}
      />
      <TextField
        label={`To the nearest rivet of the row, ${unit}`}
        value={pitch}
        onInput={setPitch}
        longest={40}
      />
      {found && isUnreckoned(found) && (
        <p class="problem" role="alert">
          {found.sentence}
        </p>
      )}
      {unknown && (
        <p class="problem" role="alert">
          The rivet’s diameter or the thickness of a layer is not known here.{' '}
          <a href={`/line/${id}/edit`}>Say it under “Holes, fasteners and layers”</a> first.
        </p>
      )}
      {answer && <Told answer={answer} />}
      {after && larger && <After after={after} larger={larger} head={line.head} />}
      {stop && <p class="problem">{stop}</p>}
      {answer?.verdict === 'fails' ? (
        <FindingInstead id={id} answer={answer} />
      ) : (
        <button type="button" class="main" disabled={!after || !!stop} onClick={keep}>
          {larger ? `Drilled out for ${larger}` : unknown ? 'Not yet' : 'Measure the edge first'}
        </button>
      )}
      {answer && <p class="faint">Source: {answer.source}</p>}
    </div>
  );
}

function Told({ answer }: { answer: Answer }) {
  return (
    <section aria-live="polite">
      <Verdict verdict={answer.verdict} />
      <p>{answer.why}</p>
      <p class="note">{answer.caution}</p>
    </section>
  );
}

interface AfterProps {
  after: readonly Segment[];
  larger: string;
  head: 'protruding' | 'flush';
}

function After({ after, larger, head }: AfterProps) {
  const changed = after.filter((one) => !one.confirmed && one.fastener.text === larger);
  const [first] = changed;
  const stack = first && segmentStack({ head }, first, openedPhone().identity.unit, nameOf);
  return (
    <section>
      <ul class="plain segments">
        {changesOf(changed).map((one) => (
          <li key={one.name}>
            {one.holes === null ? 'Holes not counted' : counted(one.holes, 'hole')}:{' '}
            <b>
              {larger}
              {dashWords(one.now)}
            </b>
            , to be confirmed
          </li>
        ))}
      </ul>
      {stack && <StackDrawing {...stack} />}
    </section>
  );
}

// What cannot be is not offered; what is wrong there can be written down for a decision.
function FindingInstead({ id, answer }: { id: string; answer: Answer }) {
  const open = async (): Promise<void> => {
    const body: Body = {
      on: id,
      what: 'Hole oversize, no room for the next rivet',
      note: answer.why,
    };
    await record([{ kind: 'finding.opened.v1', subject: newId(Date.now()), body }]);
    sayKept('Written down as a finding');
    go(`/line/${id}`, true);
  };
  return (
    <>
      <p>
        It is not offered. Leave the hole as it is until the maker of the kit, or whoever may
        decide, has said what is to be done.
      </p>
      <button type="button" class="main" onClick={open}>
        Write it down as a finding
      </button>
    </>
  );
}
