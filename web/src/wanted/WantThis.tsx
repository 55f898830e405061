// "I want this piece": the blank of an answer goes on the list of pieces to be made.
import { useState } from 'preact/hooks';
import { TextField } from '../parts/DescriptionFields.tsx';
import { NumberField } from '../parts/Fields.tsx';
import type { Typed } from '../reckoner/address.ts';
import { RULES, RULES_VERSION } from '../reckoner/book.ts';
import { keptDraft } from '../reckoner/keeping.ts';
import { ThingPicker } from '../reckoner/ThingPicker.tsx';
import { ask } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { row } from '../shell/things.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import { newId } from '../store/ids.ts';
import type { Row } from '../store/rows.ts';
import type { Unit } from '../twins/lengths.ts';
import { type Answer, readAll, type Sum } from '../twins/reckon.ts';
import './wanted.css';
import { notOffered, whatOf, wishBody } from './wish.ts';

interface Props {
  sum: Sum;
  answer: Answer;
  inputs: Typed;
  unit: Unit;
  about: Row | undefined;
}

export function WantThis(props: Props) {
  const [open, setOpen] = useState(false);
  const not = notOffered(props.answer);
  if (not) return <p>{not}</p>;
  if (open) return <WishForm {...props} onClose={() => setOpen(false)} />;
  return (
    <button type="button" class="main" onClick={() => setOpen(true)}>
      I want this piece
    </button>
  );
}

function WishForm({ sum, answer, inputs, unit, about, onClose }: Props & { onClose: () => void }) {
  const what = whatOf(sum, inputs);
  const [things, setThings] = useState<string[]>(about ? [about.id] : []);
  const [picking, setPicking] = useState(false);
  const [name, setName] = useState(firstName(what, about));
  const [count, setCount] = useState<number | null>(1);
  const [why, setWhy] = useState('');
  const { problem, keep } = useKeeping();
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (!name.trim() || !count) return;
    if (answer.verdict === 'check' && !(await sureOf(answer))) return;
    const of = (sort: string): string[] => things.filter((id) => row(id)?.sort === sort);
    const wish = { name, count, why, parts: of('part'), lines: of('line') };
    const body = wishBody(sum, answer, inputs, metalRead(sum, inputs, unit), wish, unit);
    if (!body) return;
    const subject = newId();
    const kept = keptDraft(subject, { sum, answer, inputs, unit, note: '' }, RULES_VERSION);
    const drafts = [{ kind: 'piece.wanted.v1', subject, body }, kept];
    if (await keep(drafts, `Wanted: ${name.trim()}`)) go(`/wanted/${subject}`);
  };
  return (
    <form class="wish" onSubmit={submit}>
      <h2>A piece wanted</h2>
      <TextField label="Name" value={name} onInput={setName} />
      <NumberField label="How many" value={count} onChange={setCount} />
      <TextField label="What for" hint="May stay empty." value={why} onInput={setWhy} />
      <p class="list-head">
        <span>
          {things.length
            ? `For ${things.map((id) => row(id)?.name ?? 'a thing not on this phone').join(', ')}`
            : 'For no part or rivet line yet'}
        </span>
        <button type="button" onClick={() => setPicking(!picking)}>
          {picking ? 'Done' : 'Add one'}
        </button>
      </p>
      {picking && (
        <ThingPicker
          not={things[0] ?? ''}
          onPick={(id) => {
            setThings([...new Set([...things, id])]);
            setPicking(false);
          }}
        />
      )}
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <div class="ways">
        <button type="submit" class="main" disabled={!name.trim() || !count}>
          {name.trim() && count ? `Wanted: ${name.trim()}` : 'Give it a name and a number'}
        </button>
        <button type="button" onClick={onClose}>
          Not now
        </button>
      </div>
    </form>
  );
}

async function sureOf(answer: Answer): Promise<boolean> {
  const said = await ask('The sum says: check', answer.why, [
    { label: 'I checked it: I want the piece', answer: 'yes', main: true },
    { label: 'Not yet', answer: '' },
  ]);
  return said === 'yes';
}

// "Shim for rear spar, top"
function firstName(what: string, about: Row | undefined): string {
  const word = what.charAt(0).toUpperCase() + what.slice(1);
  return about ? `${word} for ${about.name}`.slice(0, 200) : word;
}

// the metal as it was read: "2024 t3" is 2024-T3
function metalRead(sum: Sum, inputs: Typed, unit: Unit): string {
  const values = readAll(RULES, sum, inputs, unit);
  return 'read' in values && typeof values.read.alloy === 'string' ? values.read.alloy : '';
}
