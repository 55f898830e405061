// What a riveted line joins, stretch by stretch: its stack to scale with the rivet in it, what came
// in since, and what does not hold. Loads the rules, so it is fetched when a line is opened.
import { rivetFor, rivetSize } from '../reckoner/address.ts';
import { StackDrawing } from '../reckoner/drawings/StackDrawing.tsx';
import { flushSaid } from '../reckoner/lineflush.ts';
import { dashFor } from '../reckoner/linerivet.ts';
import { segmentStack } from '../reckoner/segmentstack.ts';
import { openedPhone } from '../shell/state.ts';
import type { State } from '../twins/fold.ts';
import { FlushSaidOf } from './FlushSaidOf.tsx';
import { JointDrawing, LayerList, nameOf } from './JointDrawing.tsx';
import { segmentsAlong } from './layering.ts';
import { type Line, lineOf } from './lines.ts';
import type { Segment } from './segments.ts';
import {
  cameIn,
  holesWords,
  missingWords,
  otherByRule,
  rivetWords,
  stackWas,
  stretchName,
  waitingSentence,
} from './stretches.ts';
import { capital } from './words.ts';

export function Stretches({ id, state }: { id: string; state: State }) {
  const line = lineOf(state);
  const segments = segmentsAlong(line, state, dashFor(line));
  return (
    <>
      {segments.map((segment, at) => (
        <Stretch
          key={`${at} ${segment.name}`}
          id={id}
          line={line}
          segment={segment}
          segments={segments}
        />
      ))}
    </>
  );
}

interface Props {
  id: string;
  line: Line;
  segment: Segment;
  segments: readonly Segment[];
}

function Stretch({ id, line, segment, segments }: Props) {
  const { unit } = openedPhone().identity;
  const { layers } = segment;
  const was = stackWas(line, segments, segment);
  const known = new Set(was?.map((one) => one.part));
  const added = new Set(was ? layers.map((one) => one.part).filter((one) => !known.has(one)) : []);
  const stack = segmentStack(
    line,
    segment,
    unit,
    nameOf,
    was ? { layers: was, dash: segment.was_dash } : undefined,
  );
  const saidAbove = segments.length === 1 && line.fastener.text.trim() === rivetWords(segment);
  const sum = rivetFor({ ...line, layers, fastener: segment.fastener }, id, was ?? undefined);
  return (
    <section class="stretch">
      {segments.length > 1 && <h3>{stretchName(segment, line)}</h3>}
      {!saidAbove && (
        <p>
          {capital(holesWords(segment.count))} · {rivetWords(segment)}
        </p>
      )}
      <Said line={line} segment={segment} cameIn={cameIn(segment, was, nameOf)} />
      <FlushSaidOf said={flushSaid(line, segment, unit).filter((one) => one.verdict !== 'meets')} />
      {stack ? (
        <div class="stack-and-layers">
          <StackDrawing {...stack} />
          <LayerList layers={layers} added={added} />
        </div>
      ) : (
        <JointDrawing line={{ ...line, layers }} added={added} />
      )}
      {sum && (
        <a class="button rivet-for" href={sum}>
          Rivet for this stack
        </a>
      )}
    </section>
  );
}

function Said({ line, segment, cameIn }: { line: Line; segment: Segment; cameIn: string }) {
  const waiting = waitingSentence(segment);
  const missing = missingWords(segment, rivetSize, nameOf);
  const rule = otherByRule(segment, dashFor(line)(segment.layers, segment.fastener));
  return (
    <>
      {waiting && <p class="problem">{[waiting, cameIn].filter(Boolean).join(' ')}</p>}
      {rule && <p class="note">{rule}</p>}
      {missing && <p class="note">{missing}</p>}
    </>
  );
}
