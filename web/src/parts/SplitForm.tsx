// Takes pieces out of a bag, to be a part of their own with their own tag and history.
import { useState } from 'preact/hooks';
import { sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { record } from '../shell/state.ts';
import { newId } from '../store/ids.ts';
import { splitOff } from './changes.ts';
import { TextField } from './DescriptionFields.tsx';
import { NumberField } from './Fields.tsx';
import type { SheetProps } from './PartScreen.tsx';
import { counted } from './words.ts';

export function SplitForm({ id, card }: SheetProps) {
  const there = Number(card.state.pieces ?? 1);
  const [pieces, setPieces] = useState<number | null>(1);
  const [name, setName] = useState(String(card.state.name));
  const wrong = wrongWithSplit(pieces, there, name);
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (wrong || pieces === null) return;
    const out = newId();
    await record(splitOff({ id, state: card.state }, out, pieces, name.trim()));
    sayKept(`${counted(pieces, 'piece')} taken out`);
    go(`/part/${out}`, true);
  };
  if (there < 2) return <p>There is one piece only: nothing to take out.</p>;
  return (
    <form onSubmit={submit}>
      <h2>Take pieces out of this bag</h2>
      <p>There are {there} in it. What was done to all of them stands for those taken out too.</p>
      <NumberField label="Pieces" value={pieces} onChange={setPieces} first />
      <TextField label="Name of what is taken out" value={name} onInput={setName} />
      {wrong && (
        <p class="problem" role="alert">
          {wrong}
        </p>
      )}
      <button type="submit" class="main" disabled={Boolean(wrong)}>
        {wrong ? 'Take out' : `Take out ${counted(pieces ?? 0, 'piece')}`}
      </button>
    </form>
  );
}

function wrongWithSplit(pieces: number | null, there: number, name: string): string {
  if (!pieces) return 'Say how many pieces are taken out.';
  if (pieces >= there) return `There are ${there} in the bag. At least one has to stay in it.`;
  return name.trim() ? '' : 'Give what is taken out a name.';
}
