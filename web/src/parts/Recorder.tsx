// The main button and what belongs to it: some of it, the question where it is in doubt, the stops
// before a mistake is recorded, and undo.
import { useEffect, useRef, useState } from 'preact/hooks';
import { sayKept } from '../shell/feedback.tsx';
import { record } from '../shell/state.ts';
import { newId } from '../store/ids.ts';
import { scannedCode } from '../tags/arrival.tsx';
import { tagOnFilm } from '../tags/attaching.ts';
import type { State } from '../twins/fold.ts';
import { type Choice, type Ground, settle } from './choices.ts';
import { drafts, takeBack, undoWords } from './recording.ts';
import { SomeForm } from './SomeForm.tsx';
import { operation } from './steps.ts';
import { mayRecord } from './stops.ts';
import { sayChoice, sayChoices } from './words.ts';

interface Props {
  subject: string;
  part: { id: string; name: string } | null; // null on a rivet line
  state: State;
  ground: Ground;
  choices: Choice[]; // what the main button records
  doubt: boolean; // it is asked, not offered
  layerName?: string;
  note?: string; // stands above the button
  onKept: () => void;
}
interface Kept {
  label: string;
  entries: { event: string; subject: string }[];
}

const HELD_MS = 550;
const SETTLED_MS = 700; // a second tap of the same thumb must not record what comes next

function useKeeping({ subject, part, state, ground, onKept }: Props) {
  const [kept, setKept] = useState<Kept | null>(null);
  const [busy, setBusy] = useState(false); // and for a moment after
  const running = useRef(false);
  const [problem, setProblem] = useState('');
  const attempt = async (work: () => Promise<void>): Promise<void> => {
    if (running.current) return;
    running.current = true;
    setBusy(true);
    setProblem('');
    try {
      await work();
    } catch (failed) {
      setProblem(failed instanceof Error ? failed.message : String(failed));
    }
    running.current = false;
    setTimeout(() => setBusy(false), SETTLED_MS);
  };
  const keep = (wanted: Choice[], label: string): Promise<void> =>
    attempt(async () => {
      const bare = await mayRecord(ground, wanted, part, tagOnFilm(state));
      if (!bare) return;
      const written = drafts(subject, wanted, bare, scannedCode(subject), newId);
      const ids = await record(written);
      const entries = written.map((one, at) => ({ event: ids[at] ?? '', subject: one.subject }));
      setKept({ label, entries });
      sayKept(label);
      onKept();
    });
  const undo = (): Promise<void> =>
    attempt(async () => {
      if (!kept) return;
      await record(takeBack(kept.entries));
      sayKept(`Taken back: ${kept.label}`);
      setKept(null);
      onKept();
    });
  return { kept, busy, problem, keep, undo };
}

export function Recorder(props: Props) {
  const { ground, choices, doubt, note } = props;
  const about = props.layerName ? `, ${props.layerName}` : '';
  const { kept, busy, problem, keep, undo } = useKeeping(props);
  const [some, setSome] = useState<Choice | null>(null);
  const [first] = choices;
  useEffect(() => setSome(null), [first?.op, first?.layer, kept]);
  return (
    <div class="recorder">
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      {some && (
        <SomeForm
          ground={ground}
          start={some}
          about={about}
          onKeep={(choice, label) => keep([choice], label)}
          onClose={() => setSome(null)}
        />
      )}
      {!some && note && <p class="before">{note}</p>}
      {!some && first && doubt && (
        <Question
          ground={ground}
          choice={first}
          about={about}
          busy={busy}
          onAnswer={(choice) => keep([choice], sayChoice(ground, settle(choice)) + about)}
          onSome={() => setSome({ ...first, looked: true })}
        />
      )}
      {!some && first && !doubt && (
        <Main
          label={sayChoices(ground, choices) + about}
          busy={busy}
          onTap={() => keep(choices, sayChoices(ground, choices) + about)}
          onSome={() => setSome(first)}
        />
      )}
      {kept && !some && (
        <button type="button" class="aside" onClick={undo}>
          {undoWords(kept.label)}
        </button>
      )}
    </div>
  );
}

interface MainProps {
  label: string;
  busy: boolean;
  onTap: () => void;
  onSome: () => void;
}

function Main({ label, busy, onTap, onSome }: MainProps) {
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const held = useRef(false);
  const letGo = (): void => clearTimeout(timer.current);
  return (
    <>
      <button
        type="button"
        class="main"
        disabled={busy}
        onPointerDown={() => {
          held.current = false;
          timer.current = setTimeout(() => {
            held.current = true;
            onSome();
          }, HELD_MS);
        }}
        onPointerUp={letGo}
        onPointerLeave={letGo}
        onPointerCancel={letGo}
        onContextMenu={(event) => event.preventDefault()}
        onClick={() => !held.current && onTap()}
      >
        {label}
      </button>
      <button type="button" class="aside" onClick={onSome}>
        some …
      </button>
    </>
  );
}

interface QuestionProps {
  ground: Ground;
  choice: Choice;
  about: string;
  busy: boolean;
  onAnswer: (choice: Choice) => void;
  onSome: () => void;
}

// Doing it twice could cost the part, and the record does not say whether it was done.
function Question({ ground, choice, about, busy, onAnswer, onSome }: QuestionProps) {
  const all: Choice = { ...choice, result: 'all', looked: true };
  const none: Choice = { ...choice, result: 'none', looked: true };
  const how = sayChoice(ground, all).split(': ')[1];
  return (
    <section class="look" aria-label="Look at the part">
      <h2>
        Look at the part: {operation(choice.op).done_word.toLowerCase()}?{about}
      </h2>
      <button type="button" class="main" disabled={busy} onClick={() => onAnswer(all)}>
        Yes, {how}
      </button>
      <div class="two-beside">
        <button type="button" disabled={busy} onClick={onSome}>
          Some …
        </button>
        <button type="button" disabled={busy} onClick={() => onAnswer(none)}>
          No, none
        </button>
      </div>
    </section>
  );
}
