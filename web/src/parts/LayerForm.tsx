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
import { TextField } from './DescriptionFields.tsx';
import { nameOf } from './JointDrawing.tsx';
import { LayerChanges } from './LayerChanges.tsx';
import {
  segmentsAlong,
  stackTouched,
  type Touched,
  withLayer,
  wrongWithLayer,
} from './layering.ts';
import { type LineLayer, lineOf, TREAT_WORDS, type Treat } from './lines.ts';
import { PartPicker } from './PartPicker.tsx';
import type { SheetProps } from './PartScreen.tsx';
import { type Segment, wrongWithSegments } from './segments.ts';
import { holesWords } from './stretches.ts';
import { ThicknessField } from './ThicknessField.tsx';
import { TouchedFields } from './TouchedFields.tsx';
import { WhereFields } from './WhereFields.tsx';

// stands for a piece that is not a part yet: its rivets are worked out, nothing is recorded
const NOT_ENTERED = 'not entered';

export function LayerForm({ id, card }: SheetProps) {
  const line = lineOf(card.state);
  const dashOf = dashFor(line);
  const before = segmentsAlong(line, card.state, dashOf);
  const [layer, setLayer] = useState<LineLayer | null>(null);
  const [called, setCalled] = useState('');
  const [under, setUnder] = useState(1);
  const [wrong, setWrong] = useState('');
  const [touched, setTouched] = useState<Touched[]>(
    before.length === 1 ? [{ at: 0, holes: null }] : [],
  );
  const pick = (part: string): void => {
    const thickness = (row(part)?.fields.thickness as Length | undefined) ?? null;
    const treat: Treat = line.head === 'flush' ? 'dimple' : 'plain';
    setLayer({ part, thickness, treat });
  };
  const names = (part: string): string =>
    part === NOT_ENTERED ? called.trim() || 'the new piece' : nameOf(part);
  const problem = wrong || wrongWithLayer(before, touched, layer?.part ?? '');
  const over = layer ? `over ${names(layer.part)}`.slice(0, 200) : '';
  const after =
    layer && !problem ? withLayer(before, touched, { layer, under }, dashOf, over) : null;
  const stop = after ? wrongWithSegments(line, after) : problem;
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (!after || stop || !layer || layer.part === NOT_ENTERED) return;
    const body = { segments: after } as unknown as Body;
    await record([{ kind: 'line.segments.v1', subject: id, body }]);
    sayKept(`${names(layer.part)} is in the line`);
    go(`/line/${id}`, true);
  };
  return (
    <form onSubmit={submit}>
      <h2>A layer comes in</h2>
      {!layer && <Which segments={before} near={line.assembly ?? null} onPick={pick} />}
      {layer && (
        <>
          <p class="list-head">
            <b>{names(layer.part)}</b>
            <button type="button" onClick={() => setLayer(null)}>
              Another part
            </button>
          </p>
          {layer.part === NOT_ENTERED && (
            <TextField label="What it is" value={called} onInput={setCalled} longest={80} />
          )}
          <LayerFields layer={layer} onChange={setLayer} onWrong={setWrong} />
          <WhereFields layers={stackTouched(before, touched)} under={under} onChange={setUnder} />
          <TouchedFields segments={before} touched={touched} onChange={setTouched} />
          {after && (
            <LayerChanges
              {...{ after, before, layer }}
              head={line.head}
              nameOf={names}
              onlyLook={layer.part === NOT_ENTERED}
            />
          )}
        </>
      )}
      {layer && stop && (
        <p class="problem" role="alert">
          {stop}
        </p>
      )}
      {layer?.part === NOT_ENTERED ? (
        <EnterFirst />
      ) : (
        <button type="submit" class="main" disabled={!after || !!stop}>
          {after ? `Put it in: ${touchedWords(before, touched)}` : 'Choose the part that comes in'}
        </button>
      )}
    </form>
  );
}

interface WhichProps {
  segments: readonly Segment[];
  near: string | null; // the assembly of the line
  onPick: (part: string) => void;
}

function Which({ segments, near, onPick }: WhichProps) {
  const known = new Set(segments.flatMap((one) => one.layers.map((each) => each.part)));
  return (
    <>
      <PartPicker prompt="Which part" not={[...known]} near={near} onPick={onPick} />
      <button type="button" class="only-look" onClick={() => onPick(NOT_ENTERED)}>
        Not entered yet: only look what it does
      </button>
    </>
  );
}

interface FieldsProps {
  layer: LineLayer;
  onChange: (layer: LineLayer) => void;
  onWrong: (sentence: string) => void;
}

function LayerFields({ layer, onChange, onWrong }: FieldsProps) {
  return (
    <>
      <ThicknessField
        key={layer.part}
        value={layer.thickness ?? null}
        onChange={(thickness, sentence) => {
          onWrong(sentence);
          onChange({ ...layer, thickness });
        }}
      />
      <Choices
        legend="Its holes"
        name="treat"
        columns={3}
        value={layer.treat}
        onChange={(treat) => onChange({ ...layer, treat })}
        choices={(Object.keys(TREAT_WORDS) as Treat[]).map((value) => ({
          value,
          label: TREAT_WORDS[value],
        }))}
      />
    </>
  );
}

function EnterFirst() {
  return (
    <>
      <p class="note">
        Nothing is recorded of a piece that is not entered. Enter it, then put it into the line.
      </p>
      <a class="button main" href="/new-part">
        Enter this part
      </a>
    </>
  );
}

// "12 holes": those that the layer comes into, whatever else on the line waits to be confirmed
function touchedWords(before: readonly Segment[], touched: readonly Touched[]): string {
  const counts = touched.map(({ at, holes }) => holes ?? before[at]?.count ?? null);
  return counts.includes(null)
    ? 'all its holes'
    : holesWords(counts.reduce<number>((sum, one) => sum + (one ?? 0), 0));
}
