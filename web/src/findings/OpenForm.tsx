// Something is wrong with a part or a rivet line: written down, for somebody to decide.
import { useState } from 'preact/hooks';
import { Problem } from '../offcuts/Choices.tsx';
import { TextField } from '../parts/DescriptionFields.tsx';
import { recordWithPhotos } from '../photos/keeping.ts';
import { TakenPhotos } from '../photos/TakenPhotos.tsx';
import { ask, sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import type { KeptPhoto } from '../store/database.ts';
import { newId } from '../store/ids.ts';
import { NoRoom } from '../store/outbox.ts';

export function OpenForm({ id }: { id: string }) {
  const [what, setWhat] = useState('');
  const [note, setNote] = useState('');
  const [photos, setPhotos] = useState<KeptPhoto[]>([]);
  const [problem, setProblem] = useState('');
  const save = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (!what.trim()) return;
    try {
      await keep(id, what.trim(), note.trim(), photos);
    } catch (failed) {
      if (!(failed instanceof NoRoom)) throw failed;
      setProblem(failed.message);
    }
  };
  return (
    <form onSubmit={save}>
      <h2>A finding</h2>
      <p>A mistake or damage is kept here until someone who may decide has decided about it.</p>
      <TextField
        label="What is wrong"
        hint="In a few words: a scratch, a hole out of round, a crack."
        value={what}
        onInput={setWhat}
      />
      <TextField
        label="Where and how much"
        hint="may be left out"
        value={note}
        onInput={setNote}
        longest={1000}
      />
      <TakenPhotos photos={photos} onChange={(change) => setPhotos(change)} />
      <Problem text={problem} />
      <button type="submit" class="main" disabled={!what.trim()}>
        {what.trim() ? 'Write it down as a finding' : 'Say what is wrong'}
      </button>
    </form>
  );
}

async function keep(on: string, what: string, note: string, photos: KeptPhoto[]): Promise<void> {
  const finding = newId();
  const opened = {
    kind: 'finding.opened.v1',
    subject: finding,
    body: { on, what, note: note || null },
  };
  const { notKept } = await recordWithPhotos([opened], finding, photos);
  if (notKept)
    await ask('The photo was not kept', notKept, [{ label: 'Go on', answer: 'on', main: true }]);
  sayKept('Written down as a finding');
  go(`/finding/${finding}`, true);
}
