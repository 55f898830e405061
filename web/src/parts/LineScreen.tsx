// One rivet line at the bench: the joint as a drawing, how far it is, and the main button.
import { useState } from 'preact/hooks';
import { OpenForm } from '../findings/OpenForm.tsx';
import { addressOf, rivetFor } from '../reckoner/address.ts';
import { SumsOf } from '../reckoner/SumsOf.tsx';
import { Frame } from '../shell/Frame.tsx';
import { later } from '../shell/later.tsx';
import { path } from '../shell/router.ts';
import { row, useCard } from '../shell/things.ts';
import type { Card } from '../store/phone.ts';
import { OPERATIONS } from '../twins/marks.ts';
import { Answers } from './Answers.tsx';
import { wholeLine } from './along.ts';
import { allOf, type Ground, inDoubt } from './choices.ts';
import { Findings, LookAt } from './Findings.tsx';
import { wholeStrip } from './grounds.ts';
import { History } from './History.tsx';
import { JointDrawing, nameOf } from './JointDrawing.tsx';
import { LineForm } from './LineForm.tsx';
import {
  fastenerWords,
  groundOfLine,
  type Line,
  letterAt,
  lineOf,
  nextTarget,
  notFinished,
  notReady,
  type Target,
  targetsOf,
} from './lines.ts';
import { MetalForm } from './MetalForm.tsx';
import { notesBefore } from './notes.ts';
import './part.css';
import { Recorder } from './Recorder.tsx';
import { Retired, RetireForm } from './RetireForm.tsx';
import { Confirm, Segments } from './Segments.tsx';
import { StepStrip } from './StepStrip.tsx';
import { counted, viewOf } from './words.ts';

// these load the rules of the bench sums
const LayerForm = later(async () => (await import('./LayerForm.tsx')).LayerForm, true);
const SizeForm = later(async () => (await import('./SizeForm.tsx')).SizeForm, true);
const LengthForm = later(async () => (await import('./LengthForm.tsx')).LengthForm, true);
const Stretches = later(async () => (await import('./Stretches.tsx')).Stretches, true);

export function LineScreen({ id }: { id: string }) {
  const card = useCard(id);
  if (card === undefined) return <Frame title="…">{null}</Frame>;
  if (card?.state.sort !== 'line')
    return (
      <Frame title="Not on this phone">
        <p>This rivet line is not on this phone, or not yet.</p>
        <a class="button main" href="/parts">
          All parts
        </a>
      </Frame>
    );
  const line = lineOf(card.state);
  const sheet = path.value.split('/')[3];
  return (
    <Frame title={line.name}>
      {sheet === 'edit' && <LineForm id={id} state={card.state} />}
      {sheet === 'metal' && <MetalForm id={id} card={card} />}
      {sheet === 'layer' && <LayerForm id={id} card={card} />}
      {sheet === 'size' && <SizeForm id={id} card={card} />}
      {sheet === 'length' && <LengthForm id={id} card={card} />}
      {sheet === 'finding' && <OpenForm id={id} />}
      {sheet === 'retire' && <RetireForm id={id} card={card} />}
      {sheet ? (
        <p class="way-back">
          <a class="button" href={`/line/${id}`}>
            Back to {line.name}
          </a>
        </p>
      ) : (
        <AtWork id={id} card={card} line={line} />
      )}
    </Frame>
  );
}

interface WorkProps {
  id: string;
  card: Card;
  line: Line;
}

function AtWork({ id, card, line }: WorkProps) {
  const holes = line.count === null ? 'Holes not counted' : counted(line.count, 'hole');
  return (
    <>
      <p>
        {holes} · {fastenerWords(line)}
      </p>
      {card.state.retired ? (
        <>
          <Retired id={id} card={card} />
          <Segments state={card.state} />
        </>
      ) : (
        <Work id={id} card={card} line={line} />
      )}
      <Answers id={id} state={card.state} path={`/line/${id}`} />
      <LookAt id={id} card={card} />
      <Findings id={id} />
      <section>
        <h2>What it joins, from the factory head</h2>
        {line.fastener.kind === 'rivet' ? (
          <Stretches id={id} state={card.state} />
        ) : (
          <OtherJoint id={id} line={line} />
        )}
      </section>
      <SumsOf id={id} state={card.state} />
      {!card.state.retired && (
        <section>
          <h2>Change</h2>
          <ul class="plain change-ways">
            <li>
              <a href={`/line/${id}/edit`}>Holes, fasteners and layers</a>
            </li>
            {line.fastener.kind === 'rivet' && (
              <>
                <li>
                  <a href={`/line/${id}/layer`}>A layer comes in</a>
                </li>
                <li>
                  <a href={`/line/${id}/size`}>Holes go up a size</a>
                </li>
                <li>
                  <a href={`/line/${id}/length`}>Another length of rivet</a>
                </li>
              </>
            )}
            <li>
              <a href={`/line/${id}/metal`}>Holes added or enlarged</a>
            </li>
            <li>
              <a href={`/line/${id}/finding`}>Something is wrong with it</a>
            </li>
            <li>
              <a href={addressOf('', {}, id)}>Bench sums for this line</a>
            </li>
            <li>
              <a href={`/line/${id}/retire`}>Entered by mistake</a>
            </li>
          </ul>
        </section>
      )}
      <History id={id} facts={card.facts} />
    </>
  );
}

function OtherJoint({ id, line }: { id: string; line: Line }) {
  const sum = rivetFor(line, id);
  return (
    <>
      <JointDrawing line={line} />
      {sum && (
        <a class="button rivet-for" href={sum}>
          Rivet for this stack
        </a>
      )}
    </>
  );
}

function Work({ id, card, line }: WorkProps) {
  const [asked, setAsked] = useState<Target | null>(null);
  const [resting, rest] = useRest();
  const ground = groundOfLine(card.state);
  const whole = wholeLine(card.state);
  const target = asked ?? nextTarget(ground, whole);
  const unfinished = notFinished(ground, line);
  const filling: Target = { op: 'rivet', layer: null };
  const now = target ?? (unfinished ? filling : null);
  const choices = now && !resting ? [allOf(ground, now.op, now.layer)] : [];
  const notes = choices.flatMap((one) => notesBefore(ground, one, [], Date.now()));
  if (now?.op === 'rivet') notes.push(...notReady(ground, whole, partOf));
  return (
    <>
      <Strips ground={ground} line={whole} now={now} onChoose={setAsked} />
      {unfinished && <p class="problem">{unfinished}</p>}
      <Recorder
        subject={id}
        part={null}
        state={card.state}
        ground={ground}
        choices={choices}
        doubt={now !== null && inDoubt(ground, now.op, now.layer)}
        layerName={now?.layer ? nameOf(now.layer) : ''}
        note={notes.join(' ')}
        onKept={() => setAsked(null)}
      />
      {!now && <Idle ground={ground} />}
      <Segments state={card.state} />
      <Confirm id={id} state={card.state} main={!now} onKept={rest} />
    </>
  );
}

// For a moment after a length is confirmed nothing is offered: a second tap of the same thumb must
// not record the riveting.
function useRest(): [boolean, () => void] {
  const [resting, setResting] = useState(false);
  const rest = (): void => {
    setResting(true);
    setTimeout(() => setResting(false), 700);
  };
  return [resting, rest];
}

// Nothing to offer: all is done, or its rivets wait.
function Idle({ ground }: { ground: Ground }) {
  const rivet = letterAt(ground, { op: 'rivet', layer: null });
  const waiting = 'tpa'.includes(rivet) ? (ground.waiting ?? []) : [];
  if (!waiting.length) return <p>Nothing is open on this line.</p>;
  return <p class="problem">Not ready to rivet. {waiting.join(' ')}</p>;
}

function partOf(id: string): { name: string; strip: string } | undefined {
  const found = row(id);
  return found && { name: found.name, strip: wholeStrip(found.strip, []) };
}

interface StripsProps {
  ground: Ground;
  line: Line;
  now: Target | null;
  onChoose: (target: Target | null) => void;
}

// First what is done once for all layers, then each layer by itself.
function Strips({ ground, line, now, onChoose }: StripsProps) {
  const targets = targetsOf(line);
  const groups = [null, ...new Set(line.layers.map((layer) => layer.part))];
  return (
    <div class="layer-strips">
      {groups.map((layer) => {
        const mine = targets.filter((target) => target.layer === layer);
        const views = mine.map((target) => {
          const marks = Object.fromEntries(
            Object.entries(ground.marks).filter(
              ([key]) => layer === null || key.split(':')[1] === layer,
            ),
          );
          const at = OPERATIONS.findIndex((one) => one.op === target.op);
          return viewOf({ ...ground, marks }, at, letterAt(ground, target));
        });
        const name = layer ? nameOf(layer) : 'All layers together';
        return (
          <div class="layer-strip" key={layer ?? ''}>
            <p>{name}</p>
            <StepStrip
              views={views}
              about={name}
              chosen={now && now.layer === layer ? [now.op] : []}
              onChoose={(op) => onChoose({ op, layer })}
            />
          </div>
        );
      })}
    </div>
  );
}
