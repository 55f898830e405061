// Enters a place, with the tag that was scanned for it and the place it lies in, as one record.
import { useState } from 'preact/hooks';
import { Choices, Problem, Typed } from '../offcuts/Choices.tsx';
import { Frame } from '../shell/Frame.tsx';
import { sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { record } from '../shell/state.ts';
import { row, rows, wayTo } from '../shell/things.ts';
import { newId } from '../store/ids.ts';
import type { Draft } from '../store/outbox.ts';
import { attached, type On } from '../tags/attaching.ts';
import { lastOn, OnWhat } from '../tags/OnWhat.tsx';
import { whyItFailed } from './moving.ts';
import { PlacePicker } from './PlacePicker.tsx';
import './places.css';
import { ASSEMBLY_HINT, FORM_WORDS, FORMS, type Form, wrongWithName } from './words.ts';

interface Props {
  code: string | null;
  onDone: (id: string) => void;
  /** The place it lies in, where that is known already. */
  inside?: string | null;
}

let lastForm: Form = 'shelf'; // like places are entered one after another

export function NewPlace({ code, onDone, inside = null }: Props) {
  const [name, setName] = useState('');
  const [form, setForm] = useState<Form>(lastForm);
  const [over, setOver] = useState<string | null>(inside);
  const [on, setOn] = useState<On | null>(lastOn.value === 'film' ? null : lastOn.value);
  const [chooses, setChooses] = useState(false);
  const [problem, setProblem] = useState('');
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const wrong = wrongWithName(name) || (code && !on ? 'Say how the tag is fixed.' : '');
    setProblem(wrong);
    if (wrong) return;
    const id = newId();
    const drafts: Draft[] = [
      { kind: 'place.added.v1', subject: id, via: code, body: { name: name.trim(), form } },
    ];
    if (code && on) drafts.push(attached(id, code, on));
    if (over) drafts.push({ kind: 'thing.moved.v1', subject: id, via: code, body: { to: over } });
    const failed = await whyItFailed(() => record(drafts));
    setProblem(failed);
    if (failed) return;
    lastForm = form;
    sayKept(`Place entered: ${name.trim()}`);
    onDone(id);
  };
  if (chooses)
    return (
      <section aria-label="Where the new place lies">
        <h2>Where is it?</h2>
        <PlacePicker
          nowhere
          onPick={(place) => {
            setOver(place?.id ?? null);
            setChooses(false);
          }}
        />
      </section>
    );
  return (
    <form onSubmit={submit} noValidate>
      <Typed label="Name" name="name" value={name} onInput={setName} last />
      <Alike name={name} over={over} />
      <FormChoices value={form} onChange={setForm} />
      <Over over={over} onChoose={() => setChooses(true)} />
      {code && <OnWhat value={on} onChange={setOn} sort="place" />}
      <Problem text={problem} />
      <button type="submit" class="main">
        {name.trim() ? `Enter ${name.trim()}` : 'Enter this place'}
      </button>
    </form>
  );
}

export function FormChoices({ value, onChange }: { value: Form; onChange: (form: Form) => void }) {
  return (
    <Choices
      legend="What is it?"
      hint={value === 'assembly' ? ASSEMBLY_HINT : ''}
      name="form"
      columns={3}
      value={value}
      onChange={onChange}
      choices={FORMS.map((form) => ({ value: form, label: FORM_WORDS[form] }))}
    />
  );
}

function Over({ over, onChoose }: { over: string | null; onChoose: () => void }) {
  const way = wayTo(over).join(', ');
  return (
    <div class="where-field">
      <p>{way ? `Lies in ${way}` : 'Lies in no other place'}</p>
      {rows('place').length > 0 && (
        <button type="button" onClick={onChoose}>
          {way ? 'Another place' : 'Say where'}
        </button>
      )}
    </div>
  );
}

function Alike({ name, over }: { name: string; over: string | null }) {
  const wanted = name.trim().toLocaleLowerCase();
  const like = rows('place').find(
    (one) => one.name.toLocaleLowerCase() === wanted && one.place === over,
  );
  if (!wanted || !like) return null;
  return (
    <p class="note">
      A place of this name is there already: <a href={`/place/${like.id}`}>{like.name}</a>.
    </p>
  );
}

/** The form on a screen of its own; the place it lies in may stand in the address. */
export function NewPlaceScreen() {
  const inside = row(new URLSearchParams(location.search).get('in'));
  return (
    <Frame title="New place">
      <NewPlace code={null} inside={inside?.id ?? null} onDone={(id) => go(`/place/${id}`, true)} />
    </Frame>
  );
}
