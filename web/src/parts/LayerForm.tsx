// A layer comes into a rivet line: which part, where in the stack, at which holes; and what that
// does to the rivets, before it is recorded. Loads the rules, so it is fetched when it is opened.
import { useState } from 'preact/hooks';
import { Choices } from '../offcuts/Choices.tsx';
import { dashFor } from '../reckoner/linerivet.ts';
import { sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { record } from '../shell/state.ts';
import { row } from '../shell/things.ts';
import type { Body } from '../twins/facts.ts';
import type { Length } from '../twins/lengths.ts';
import { LayerChanges } from './LayerChanges.tsx';
import { changesOf, segmentsAlong, type Touched, withLayer, wrongWithLayer } from './layering.ts';
import { type LineLayer, lineOf, TREAT_WORDS, type Treat } from './lines.ts';
import { PartPicker } from './PartPicker.tsx';
import type { SheetProps } from './PartScreen.tsx';
import { type Segment, wrongWithSegments } from './segments.ts';
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
          {after && <LayerChanges after={after} before={before} layer={layer} head={line.head} />}
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
