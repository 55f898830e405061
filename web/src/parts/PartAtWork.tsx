// The screen of a part at the bench.
import { useState } from 'preact/hooks';
import { likeThisPart } from '../offcuts/asked.ts';
import { CutFrom } from '../offcuts/cutting/LeftOf.tsx';
import { Photos } from '../photos/Photos.tsx';
import { addressOf } from '../reckoner/address.ts';
import { SumsOf } from '../reckoner/SumsOf.tsx';
import { Frame } from '../shell/Frame.tsx';
import { row, rows } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { TagAnswers } from '../tags/TagAnswers.tsx';
import { TagLines } from '../tags/TagLines.tsx';
import { OPERATIONS } from '../twins/marks.ts';
import { Answers } from './Answers.tsx';
import { allOf, inDoubt, mainOps } from './choices.ts';
import { Findings, LookAt } from './Findings.tsx';
import { groundOfPart, nextOf, wholeStrip } from './grounds.ts';
import { History } from './History.tsx';
import { headlineWords } from './headlines.ts';
import { LinesOf } from './LinesOf.tsx';
import { notesBefore } from './notes.ts';
import { PartHead } from './PartHead.tsx';
import type { SheetProps } from './PartScreen.tsx';
import { Recorder } from './Recorder.tsx';
import { Retired } from './RetireForm.tsx';
import { StepStrip } from './StepStrip.tsx';
import { operation, stepsOf } from './steps.ts';
import { LETTER_WORDS, viewOf } from './words.ts';

export function PartAtWork({ id, card }: SheetProps) {
  const { state } = card;
  const name = String(state.name);
  return (
    <Frame title={name}>
      <PartHead id={id} state={state} />
      {state.retired ? <Retired id={id} card={card} /> : <Work id={id} card={card} />}
      <CutFrom part={id} />
      <TagAnswers id={id} state={state} />
      <Answers id={id} state={state} path={`/part/${id}`} />
      <LookAt id={id} card={card} />
      <Findings id={id} />
      <LinesOf id={id} />
      <SumsOf id={id} state={state} />
      <TagLines id={id} state={state} />
      <Photos id={id} state={state} />
      {!state.retired && <More id={id} pieces={Number(state.pieces ?? 1)} />}
      <History id={id} facts={card.facts} />
    </Frame>
  );
}

function Work({ id, card: { state } }: SheetProps) {
  const [asked, setAsked] = useState<string | null>(null);
  const ground = groundOfPart(state);
  const steps = stepsOf(state);
  const lines = rows('line').filter((line) => line.strips[id]);
  const strip = wholeStrip(
    ground.strip,
    lines.map((line) => line.strips[id] ?? ''),
  );
  const next = nextOf(strip, ground.finalAfterDimple);
  const elsewhere = openElsewhere(lines, id, ground.strip, next);
  const ops = mainOps(ground, elsewhere ? '' : next, asked);
  const choices = ops.map((op) => allOf(ground, op));
  const views = OPERATIONS.map((_, at) =>
    viewOf(ground, at, strip[at] ?? '-', saidByLines(lines, id, at)),
  );
  const [first] = ops;
  return (
    <>
      <StepStrip views={views} chosen={ops} onChoose={(op) => setAsked(asked === op ? null : op)} />
      <p class="headlines">{headlineWords(strip)}</p>
      {!steps && (
        <p class="note">
          Nothing is said yet of what this part needs.{' '}
          <a href={`/part/${id}/needs`}>Say what it needs</a>
        </p>
      )}
      <Recorder
        subject={id}
        part={{ id, name: String(state.name) }}
        state={state}
        ground={ground}
        choices={choices}
        doubt={first !== undefined && inDoubt(ground, first, null)}
        note={choices.flatMap((one) => notesBefore(ground, one, ops, Date.now())).join(' ')}
        onKept={() => setAsked(null)}
      />
      {!first && <NothingNext line={elsewhere} next={next} />}
    </>
  );
}

// What a rivet line adds to an operation of the part: "rear spar to do".
function saidByLines(lines: Row[], id: string, at: number): string[] {
  return lines.flatMap((line) => {
    const letter = line.strips[id]?.[at] ?? '-';
    return letter === '-' ? [] : [`${line.name} ${LETTER_WORDS[letter]}`];
  });
}

// The rivet line on which the next operation is open, where on the part itself it is not.
function openElsewhere(lines: Row[], id: string, own: string, next: string): Row | undefined {
  const at = OPERATIONS.findIndex((one) => one.op === next);
  const open = (strip: string | undefined): boolean => 'tpal'.includes(strip?.[at] ?? '-');
  return at < 0 || open(own) ? undefined : lines.find((line) => open(line.strips[id]));
}

function NothingNext({ line, next }: { line: Row | undefined; next: string }) {
  if (!line) return <p>Nothing is open on this part.</p>;
  return (
    <a class="button main" href={`/line/${line.id}`}>
      Next: {operation(next).name}, on the line {line.name}
    </a>
  );
}

function More({ id, pieces }: { id: string; pieces: number }) {
  const ways = [
    ['needs', 'What this part needs'],
    ['metal', 'The metal changed'],
    ['finding', 'Something is wrong with it'],
    ['line', 'A rivet line of its own'],
    ...(pieces > 1 ? [['split', 'Take pieces out of this bag']] : []),
    ['edit', 'Name, number and the rest'],
    ['retire', 'Scrapped, or entered by mistake'],
  ];
  const part = row(id);
  return (
    <section aria-label="More about this part">
      <h2>Change</h2>
      <ul class="plain change-ways">
        {ways.map(([word, label]) => (
          <li key={word}>
            <a href={`/part/${id}/${word}`}>{label}</a>
          </li>
        ))}
        {part && (
          <li>
            <a href={likeThisPart(part)}>Find an offcut for a piece like this</a>
          </li>
        )}
        <li>
          <a href={addressOf('', {}, id)}>Bench sums for this part</a>
        </li>
      </ul>
    </section>
  );
}
