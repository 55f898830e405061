// Another name, another form, a note: only what differs is recorded.
import { useState } from 'preact/hooks';
import { Problem, Typed } from '../offcuts/Choices.tsx';
import { sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { record } from '../shell/state.ts';
import type { Body } from '../twins/facts.ts';
import { whyItFailed } from './moving.ts';
import { FormChoices } from './NewPlace.tsx';
import type { SheetProps } from './PlaceScreen.tsx';
import { type Form, wrongWithName } from './words.ts';

export function EditPlace({ place, card }: SheetProps) {
  const was = {
    name: place.name,
    form: (card.state.form as Form | undefined) ?? 'other',
    note: (card.state.note as string | null | undefined) ?? '',
  };
  const [is, setIs] = useState(was);
  const [problem, setProblem] = useState('');
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const wrong = wrongWithName(is.name);
    const body = differences(was, is);
    if (!wrong && Object.keys(body).length) {
      const draft = { kind: 'place.described.v1', subject: place.id, body };
      const failed = await whyItFailed(() => record([draft]));
      setProblem(failed);
      if (failed) return;
      sayKept(`Kept: ${is.name.trim()}`);
    } else setProblem(wrong);
    if (!wrong) go(`/place/${place.id}`, true);
  };
  return (
    <form onSubmit={submit} noValidate>
      <Typed label="Name" name="name" value={is.name} onInput={(name) => setIs({ ...is, name })} />
      <FormChoices value={is.form} onChange={(form) => setIs({ ...is, form })} />
      <Typed
        label="Note"
        hint="may stay empty"
        name="note"
        value={is.note}
        onInput={(note) => setIs({ ...is, note })}
        last
      />
      <Problem text={problem} />
      <button type="submit" class="main">
        Keep that
      </button>
    </form>
  );
}

interface Described {
  name: string;
  form: Form;
  note: string;
}

function differences(was: Described, is: Described): Body {
  const body: Body = {};
  if (is.name.trim() !== was.name) body.name = is.name.trim();
  if (is.form !== was.form) body.form = is.form;
  if (is.note.trim() !== was.note) body.note = is.note.trim() || null;
  return body;
}
