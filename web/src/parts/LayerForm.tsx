// A layer comes into a rivet line: which part, where in the stack, at which holes; and what that
// does to the rivets, before it is recorded. Loads the rules, so it is fetched when it is opened.
import { useState } from 'preact/hooks';
import { Choices } from '../offcuts/Choices.tsx';
import { StackDrawing } from '../reckoner/drawings/StackDrawing.tsx';
import { dashFor } from '../reckoner/linerivet.ts';
import { segmentStack } from '../reckoner/segmentstack.ts';
import { sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { openedPhone, record } from '../shell/state.ts';
import { row } from '../shell/things.ts';
import type { Body } from '../twins/facts.ts';
import type { Length } from '../twins/lengths.ts';
import { changesOf, segmentsAlong, type Touched, withLayer, wrongWithLayer } from './layering.ts';
import { type LineLayer, lineOf, TREAT_WORDS, type Treat } from './lines.ts';
import { PartPicker } from './PartPicker.tsx';
import type { SheetProps } from './PartScreen.tsx';
import { dashWords, type Segment, wrongWithSegments } from './segments.ts';
import { ThicknessField } from './ThicknessField.tsx';
import { TouchedFields } from './TouchedFields.tsx';
import { WhereFields } from './WhereFields.tsx';
import { counted } from './words.ts';

const nameOf = (id: string): string => row(id)?.name ?? 'a part not on this phone';

export function LayerForm({ id, card }: SheetProps) {
  const line = lineOf(card.state);
  const before = segmentsAlong(line, card.state, dashFor(line));
  const [layer, setLayer] = useState<LineLayer | null>(null);
  const [under, setUnder] = useState(1);
  const [wrong, setWrong] = useState('');
  const [touched, setTouched] = useState<Touched[]>(
    before.length === 1 ? [{ at: 0, holes: null }] : [],
  );
  const known = new Set(before.flatMap((one) => one.layers.map((each) => each.part)));
  const pick = (part: string): void => {
    const thickness = (row(part)?.fields.thickness as Length | undefined) ?? null;
    const treat: Treat = line.head === 'flush' ? 'dimple' : 'plain';
    setLayer({ part, thickness, treat });
  };
  const problem = wrong || wrongWithLayer(before, touched, layer?.part ?? '');
  const name = layer ? `over ${nameOf(layer.part)}`.slice(0, 200) : '';
  const after =
    layer && !problem ? withLayer(before, touched, { layer, under }, dashFor(line), name) : null;
  const stop = after ? wrongWithSegments(line, after) : problem;
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (!after || stop || !layer) return;
    const body = { segments: after } as unknown as Body;
    await record([{ kind: 'line.segments.v1', subject: id, body }]);
    sayKept(`${nameOf(layer.part)} is in the line`);
    go(`/line/${id}`, true);
  };
  return (
    <form onSubmit={submit}>
      <h2>A layer comes in</h2>
      {!layer && <PartPicker prompt="Which part" not={[...known]} onPick={pick} />}
      {layer && (
        <>
          <p class="list-head">
            <b>{nameOf(layer.part)}</b>
            <button type="button" onClick={() => setLayer(null)}>
              Another part
            </button>
          </p>
          <ThicknessField
            key={layer.part}
            value={layer.thickness ?? null}
            onChange={(thickness, sentence) => {
              setWrong(sentence);
              setLayer({ ...layer, thickness });
            }}
          />
          <Choices
            legend="Its holes"
            name="treat"
            columns={3}
            value={layer.treat}
            onChange={(treat) => setLayer({ ...layer, treat })}
            choices={(Object.keys(TREAT_WORDS) as Treat[]).map((value) => ({
              value,
              label: TREAT_WORDS[value],
            }))}
          />
          <WhereFields layers={before[0]?.layers ?? []} under={under} onChange={setUnder} />
          <TouchedFields segments={before} touched={touched} onChange={setTouched} />
          {after && <Changes after={after} before={before} layer={layer} head={line.head} />}
        </>
      )}
      {layer && stop && (
        <p class="problem" role="alert">
          {stop}
        </p>
      )}
      <button type="submit" class="main" disabled={!after || !!stop}>
        {after ? buttonWords(after) : 'Choose the part that comes in'}
      </button>
    </form>
  );
}

// "Put it in: 12 holes"
function buttonWords(after: readonly Segment[]): string {
  const changes = changesOf(after);
  const holes = changes.every((one) => one.holes !== null)
    ? counted(
        changes.reduce((sum, one) => sum + (one.holes ?? 0), 0),
        'hole',
      )
    : 'all its holes';
  return `Put it in: ${holes}`;
}

interface ChangesProps {
  after: readonly Segment[];
  before: readonly Segment[];
  layer: LineLayer;
  head: 'protruding' | 'flush';
}

// What it does to the rivets of every stretch, and the first of them drawn with the stack before.
function Changes({ after, before, layer, head }: ChangesProps) {
  const changed = after.filter((one) => one.layers.some((each) => each.part === layer.part));
  const [first] = changed;
  const source = first && before.find((one) => first.layers.length === one.layers.length + 1);
  const stack =
    first &&
    segmentStack({ head }, first, openedPhone().identity.unit, nameOf, {
      layers: source?.layers ?? [],
      dash: first.was_dash,
    });
  return (
    <section aria-live="polite">
      <h3>What it does to the rivets</h3>
      <ul class="plain segments">
        {changesOf(changed).map((one) => (
          <li key={one.name}>
            {one.holes === null ? 'Holes not counted' : counted(one.holes, 'hole')}
            {': '}
            <b>
              {dashWords(one.was)} to {dashWords(one.now)}
            </b>
          </li>
        ))}
      </ul>
      {changed.some((one) => one.dash === null) && (
        <p class="problem">
          Its rivets cannot be worked out: the thickness of a layer or the size of the rivet is not
          known. They have no length until it is.
        </p>
      )}
      {stack && <StackDrawing {...stack} />}
      <p>
        They wait until somebody confirms them: look at a rivet in the stack first. The kit maker’s
        plans and approved data come first.
      </p>
    </section>
  );
}
