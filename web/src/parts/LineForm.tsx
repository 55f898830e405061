// A rivet line: holes that share fasteners, entered or changed as a whole.
import { useState } from 'preact/hooks';
import { Choices } from '../offcuts/Choices.tsx';
import { ask, sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { openedPhone, record } from '../shell/state.ts';
import { row } from '../shell/things.ts';
import { newId } from '../store/ids.ts';
import type { Body } from '../twins/facts.ts';
import type { State } from '../twins/fold.ts';
import type { Length } from '../twins/lengths.ts';
import { TextField } from './DescriptionFields.tsx';
import { NumberField, OpenFields } from './Fields.tsx';
import { LayerFields } from './LineFields.tsx';
import { changeWords } from './layering.ts';
import { FASTENINGS, type Fastening, type Line, lineOf, wrongWithLine } from './lines.ts';
import { newlyWaiting, segmentsAfter } from './restacking.ts';
import { segmentsOf, wrongWithSegments } from './segments.ts';
import { type Steps, SUPPLIED_WORDS, type Supplied, saidOpen } from './steps.ts';

interface Props {
  id: string | null; // null for a new line
  state?: State; // of the line as it is
  first?: string; // the part that a new line begins with
}

function begin(first: string): Line {
  const part = row(first);
  const steps = part?.fields.steps as Steps | undefined;
  const thickness = (part?.fields.thickness as Length | undefined) ?? null;
  return {
    name: '',
    count: null,
    supplied: steps?.holes.supplied ?? 'pilot',
    head: 'protruding',
    fastener: { kind: 'rivet', text: '' },
    layers: [{ part: first, thickness, treat: 'plain' }],
    open: [],
  };
}

export function LineForm({ id, state, first = '' }: Props) {
  const [line, setLine] = useState<Line>(() => (state ? lineOf(state) : begin(first)));
  const [unread, setUnread] = useState<Record<string, string>>({});
  const [problem, setProblem] = useState('');
  const change = (more: Partial<Line>): void => setLine((now) => ({ ...now, ...more }));
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const body = { ...line, name: line.name.trim(), open: saidOpen(line.open) };
    const wrong = wrongWithLine(line) || Object.values(unread).find(Boolean) || '';
    setProblem(wrong);
    if (wrong) return;
    const subject = id ?? newId();
    const segments = state ? await rivetsAfter(state, body) : null;
    if (segments === 'stop') return;
    if (typeof segments === 'string') return setProblem(segments);
    await record([
      { kind: 'line.set.v1', subject, body: body as unknown as Body },
      ...(segments ? [{ kind: 'line.segments.v1', subject, body: segments }] : []),
    ]);
    sayKept(`Line: ${body.name}`);
    go(`/line/${subject}`, true);
  };
  return (
    <form onSubmit={submit}>
      <h2>{id ? 'Change this line' : 'A rivet line of its own'}</h2>
      <p class="faint">
        Only where something differs from the rest of the part: another stack, another fastener, or
        holes that are worked on by themselves.
      </p>
      <TextField
        label="Name"
        hint="For example rear spar, top."
        value={line.name}
        onInput={(name) => change({ name })}
      />
      <NumberField
        label="Holes"
        hint="Leave it empty if they are not counted."
        value={line.count}
        onChange={(count) => change({ count })}
      />
      <FastenerFields line={line} onChange={change} />
      <Choices
        legend="Its holes as they came"
        name="supplied"
        columns={3}
        value={line.supplied}
        onChange={(supplied) => change({ supplied })}
        choices={(Object.keys(SUPPLIED_WORDS) as Supplied[]).map((value) => ({
          value,
          label: SUPPLIED_WORDS[value],
        }))}
      />
      <LayerFields
        line={line}
        onChange={(layers) => change({ layers })}
        onWrong={(layer, sentence) => setUnread((now) => ({ ...now, [layer]: sentence }))}
      />
      <OpenFields open={line.open} onChange={(open) => change({ open })} />
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <button type="submit" class="main">
        {id ? 'Keep the line so' : 'Make this line'}
      </button>
    </form>
  );
}

// What the change does to the rivets of a line, once somebody said yes to it; null where it touches
// none, a sentence where it cannot be. Loads the rules.
async function rivetsAfter(state: State, after: Line): Promise<Body | null | 'stop' | string> {
  const { dashFor } = await import('../reckoner/linerivet.ts');
  const before = lineOf(state);
  const segments = segmentsAfter(state, before, after, dashFor(after));
  if (!segments) return null;
  const wrong = wrongWithSegments(after, segments);
  if (wrong) return wrong;
  const told = newlyWaiting(segmentsOf(state), segments).map((one) => `${changeWords(one)}.`);
  if (told.length && (await askRivets(told)) !== 'keep') return 'stop';
  return { segments } as unknown as Body;
}

function askRivets(told: string[]): Promise<string> {
  return ask(
    'The rivets change with it',
    `${told.join(' ')} They wait until somebody confirms them.`,
    [
      { label: 'Keep the line so', answer: 'keep', main: true },
      { label: 'Go back', answer: 'stop' },
    ],
  );
}

function FastenerFields({
  line,
  onChange,
}: {
  line: Line;
  onChange: (more: Partial<Line>) => void;
}) {
  const unit = openedPhone().identity.unit;
  const { fastener } = line;
  return (
    <>
      <div class="two-beside">
        <label>
          Fastened by
          <select
            value={fastener.kind}
            onChange={(event) =>
              onChange({ fastener: { ...fastener, kind: event.currentTarget.value as Fastening } })
            }
          >
            {FASTENINGS.map((kind) => (
              <option value={kind} key={kind}>
                {kind}
              </option>
            ))}
          </select>
        </label>
        <TextField
          label="Size"
          value={fastener.text}
          hint={unit === 'in' ? 'For example AD3-3.5.' : 'For example 2.4 x 5.5.'}
          onInput={(text) => onChange({ fastener: { ...fastener, text } })}
        />
      </div>
      <Choices
        legend="Head"
        name="head"
        columns={2}
        value={line.head}
        onChange={(head) => onChange({ head })}
        choices={[
          { value: 'protruding', label: 'protruding' },
          { value: 'flush', label: 'flush' },
        ]}
      />
    </>
  );
}
