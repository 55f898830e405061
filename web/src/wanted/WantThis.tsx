// "I want this piece": the blank of an answer goes on the list of pieces to be made.
import { useState } from 'preact/hooks';
import { TextField } from '../parts/DescriptionFields.tsx';
import { NumberField } from '../parts/Fields.tsx';
import type { Typed } from '../reckoner/address.ts';
import { RULES, RULES_VERSION } from '../reckoner/book.ts';
import { keptDraft } from '../reckoner/keeping.ts';
import { ask } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { row } from '../shell/things.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import { newId } from '../store/ids.ts';
import type { Row } from '../store/rows.ts';
import type { Unit } from '../twins/lengths.ts';
import { type Answer, readAll, type Sum } from '../twins/reckon.ts';
import { ForWhat } from './ForWhat.tsx';
import './wanted.css';
import { notOffered, whatOf, wishBody } from './wish.ts';
import { capital } from './words.ts';

interface Props {
  sum: Sum;
  answer: Answer;
  inputs: Typed;
  unit: Unit;
  about: Row | undefined;
}

interface Wishing extends Props {
  onClose: () => void;
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

function WishForm({ sum, answer, inputs, unit, about: opened, onClose }: Wishing) {
  // a piece is not for another piece
  const about = opened && ['part', 'line'].includes(opened.sort) ? opened : undefined;
  const what = whatOf(sum, inputs);
  const [things, setThings] = useState<string[]>(about ? [about.id] : []);
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
      <ForWhat things={things} onChange={setThings} />
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <div class="piece-ways">
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
  const word = capital(what);
  return about ? `${word} for ${about.name}`.slice(0, 200) : word;
}

// the metal as it was read: "2024 t3" is 2024-T3
function metalRead(sum: Sum, inputs: Typed, unit: Unit): string {
  const values = readAll(RULES, sum, inputs, unit);
  return 'read' in values && typeof values.read.alloy === 'string' ? values.read.alloy : '';
}
