// "Keep this": the answer goes with a part or a rivet line, and can be taken back at once.
import { useState } from 'preact/hooks';
import { takeBack, undoWords } from '../parts/recording.ts';
import { pathOf, row } from '../shell/things.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import type { Row } from '../store/rows.ts';
import type { Unit } from '../twins/lengths.ts';
import type { Answer, Sum } from '../twins/reckon.ts';
import type { Typed } from './address.ts';
import { RULES_VERSION } from './book.ts';
import type { Figure } from './figures.ts';
import { keptDraft, keptWords } from './keeping.ts';
import { ThingPicker } from './ThingPicker.tsx';

interface Props {
  sum: Sum;
  answer: Answer;
  main: Figure | null;
  inputs: Typed;
  unit: Unit;
  /** what the sum was opened for */
  about: Row | undefined;
}
interface Done {
  label: string;
  event: string;
  subject: string;
}

export function Keep(props: Props) {
  const { about, answer, main } = props;
  const [picking, setPicking] = useState(false);
  const [note, setNote] = useState('');
  const [done, setDone] = useState<Done | null>(null);
  const { problem, keep } = useKeeping();
  const keepWith = async (subject: string): Promise<void> => {
    const label = keptWords(answer, main);
    const ids = await keep([keptDraft(subject, { ...props, note }, RULES_VERSION)], label);
    if (!ids) return;
    setDone({ label, event: ids[0] ?? '', subject });
    setPicking(false);
    setNote('');
  };
  const undo = async (): Promise<void> => {
    if (done && (await keep(takeBack([done]), `Taken back: ${done.label}`))) setDone(null);
  };
  return (
    <div class="keep">
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      {picking && <NoteField note={note} onChange={setNote} />}
      {picking && about && (
        <button type="button" class="main" onClick={() => keepWith(about.id)}>
          Keep it with {about.name}
        </button>
      )}
      {picking && <ThingPicker not={about?.id ?? ''} onPick={keepWith} />}
      <div class="two-beside">
        <button type="button" aria-expanded={picking} onClick={() => setPicking(!picking)}>
          {picking ? 'Do not keep it' : 'Keep this'}
        </button>
        <button type="button" onClick={() => print()}>
          Print
        </button>
      </div>
      {done && <KeptWith done={done} onUndo={undo} />}
    </div>
  );
}

function NoteField({ note, onChange }: { note: string; onChange: (note: string) => void }) {
  return (
    <label>
      Note
      <small>May stay empty.</small>
      <input
        value={note}
        maxLength={200}
        autocomplete="off"
        onInput={(event) => onChange(event.currentTarget.value)}
      />
    </label>
  );
}

function KeptWith({ done, onUndo }: { done: Done; onUndo: () => void }) {
  const thing = row(done.subject);
  return (
    <>
      {thing && (
        <p>
          Kept with <a href={pathOf(thing)}>{thing.name}</a>.
        </p>
      )}
      <button type="button" class="aside" onClick={onUndo}>
        {undoWords(done.label)}
      </button>
    </>
  );
}
