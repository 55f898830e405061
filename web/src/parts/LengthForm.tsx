// Another length for the rivets of a group than the rule gives, with how far each would stick out.
// Loads the rules, so it is fetched when it is opened.
import { useState } from 'preact/hooks';
import { Choices } from '../offcuts/Choices.tsx';
import { StackDrawing } from '../reckoner/drawings/StackDrawing.tsx';
import { type Length, type Lengths, lengthsFor } from '../reckoner/linelengths.ts';
import { dashFor } from '../reckoner/linerivet.ts';
import { segmentStack } from '../reckoner/segmentstack.ts';
import { sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { openedPhone, record } from '../shell/state.ts';
import type { Body } from '../twins/facts.ts';
import { TextField } from './DescriptionFields.tsx';
import { nameOf } from './JointDrawing.tsx';
import { segmentsAlong } from './layering.ts';
import { lineOf } from './lines.ts';
import type { SheetProps } from './PartScreen.tsx';
import { dashWords, type Group, groupsOf, withLength } from './segments.ts';
import { confirmedWords, holesWords, rivetWords } from './stretches.ts';

export function LengthForm({ id, card }: SheetProps) {
  const line = lineOf(card.state);
  const segments = segmentsAlong(line, card.state, dashFor(line));
  const groups = groupsOf(segments);
  const waits = groups.findIndex((one) => one.segments.some((each) => !each.confirmed));
  const [at, setAt] = useState(Math.max(0, waits));
  const [chosen, setChosen] = useState<number | null>(null);
  const group = groups[at];
  if (!group) return null;
  const lengths = lengthsFor(line, group.segments);
  const dash = chosen ?? group.dash;
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (dash === null) return;
    const body = { segments: withLength(segments, group, dash) } as unknown as Body;
    await record([{ kind: 'line.segments.v1', subject: id, body }]);
    sayKept(confirmedWords(group, dash));
    go(`/line/${id}`, true);
  };
  return (
    <form onSubmit={submit}>
      <h2>The length of its rivets</h2>
      {groups.length > 1 && (
        <Choices
          legend="Which rivets"
          name="group"
          columns={1}
          value={String(at)}
          onChange={(value) => {
            setAt(Number(value));
            setChosen(null);
          }}
          choices={groups.map((one, index) => ({
            value: String(index),
            label: `${rivetWords(one)}, ${holesWords(one.holes)}`,
          }))}
        />
      )}
      {lengths ? (
        <Around lengths={lengths} dash={dash} onChange={setChosen} />
      ) : (
        <Written key={at} dash={group.dash} onChange={setChosen} />
      )}
      <Drawn group={group} dash={dash} head={line.head} />
      <button type="submit" class="main" disabled={dash === null}>
        {dash === null ? 'Write a length first' : confirmedWords(group, dash)}
      </button>
    </form>
  );
}

interface AroundProps {
  lengths: Lengths;
  dash: number | null;
  onChange: (dash: number) => void;
}

function Around({ lengths: { all, least, most }, dash, onChange }: AroundProps) {
  const chosen = all.find((one) => one.dash === dash);
  return (
    <>
      <Choices
        legend="Length"
        name="dash"
        columns={1}
        value={String(dash ?? '')}
        onChange={(value) => onChange(Number(value))}
        choices={all.map((one) => ({ value: String(one.dash), label: lengthWords(one, most) }))}
      />
      {chosen && !chosen.within && (
        <p class="note">
          The published range is {least} to {most} D. Take this length only where the plans or other
          approved data ask for it.
        </p>
      )}
    </>
  );
}

// "-3.5: sticks out 1.22 D, too little"
function lengthWords({ dash, out, within }: Length, most: number): string {
  const [low, high] = out.map((one) => Number(one.toFixed(2)));
  const range = low === high ? `${low} D` : `${low} to ${high} D`;
  const far = (high ?? 0) > most ? 'too much' : 'too little';
  return `${dashWords(dash)}: sticks out ${range}${within ? '' : `, ${far}`}`;
}

// Where no rule can be asked, the length is what the plans give.
function Written({ dash, onChange }: { dash: number | null; onChange: (dash: number) => void }) {
  const [text, setText] = useState(dash === null ? '' : String(dash / 2));
  const [problem, setProblem] = useState('');
  const take = (typed: string): void => {
    setText(typed);
    const [, figure] = /^-?(\d{1,2}(?:\.[05])?)$/.exec(typed.trim()) ?? [];
    const halves = Number(figure ?? 0) * 2;
    const fits = halves > 0;
    setProblem(fits || !typed.trim() ? '' : 'Write it in sixteenths, for example 4 or 3.5.');
    if (fits) onChange(halves);
  };
  return (
    <>
      <p class="note">
        The rule cannot be asked: the thickness of a layer or the size of the rivet is not known.
      </p>
      <TextField
        label="Length as the plans give it"
        hint="The number after the last dash: 3.5 of MS20470AD3-3.5."
        value={text}
        onInput={take}
        longest={6}
      />
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
    </>
  );
}

interface DrawnProps {
  group: Group;
  dash: number | null;
  head: 'protruding' | 'flush';
}

function Drawn({ group, dash, head }: DrawnProps) {
  const [first] = group.segments;
  const { unit } = openedPhone().identity;
  const stack = first && segmentStack({ head }, { ...first, dash }, unit, nameOf);
  return stack ? <StackDrawing {...stack} /> : null;
}
