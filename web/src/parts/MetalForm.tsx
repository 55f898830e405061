// The metal itself was changed: what was done before may have to be done again.
import { useState } from 'preact/hooks';
import { type Choice, Choices } from '../offcuts/Choices.tsx';
import { sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { record } from '../shell/state.ts';
import { type MetalChange, metalChanged } from './changes.ts';
import { TextField } from './DescriptionFields.tsx';
import { NumberField } from './Fields.tsx';
import type { SheetProps } from './PartScreen.tsx';
import { counted } from './words.ts';

const EFFECT: Record<MetalChange, string> = {
  trimmed: 'Its edges are to be dressed again, and cleaning and primer with them.',
  'holes added': 'The new holes are to be drilled, deburred and dimpled or countersunk.',
  'holes enlarged': 'These holes are to be deburred again. A countersink there is to be looked at.',
  touched: 'The face is to be cleaned again before it is primed, or its primer touched up.',
};

const OF_PARTS: Choice<MetalChange>[] = [
  { value: 'trimmed', label: 'it was trimmed' },
  { value: 'touched', label: 'bare hands or a scratch on it' },
];
const OF_HOLES: Choice<MetalChange>[] = [
  { value: 'holes added', label: 'holes were added' },
  { value: 'holes enlarged', label: 'holes were enlarged' },
];

function words(change: MetalChange, holes: number | null): string {
  if (change === 'trimmed') return 'Trimmed';
  if (change === 'touched') return 'Touched or scratched';
  const what = change === 'holes added' ? 'added' : 'enlarged';
  return holes === null
    ? `Holes ${what}, how many is not known`
    : `${counted(holes, 'hole')} ${what}`;
}

export function MetalForm({ id, card }: SheetProps) {
  const [change, setChange] = useState<MetalChange | ''>('');
  const [holes, setHoles] = useState<number | null>(null);
  const [note, setNote] = useState('');
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (!change) return;
    await record(metalChanged(id, change, holes || null, note, card.state));
    sayKept(words(change, holes || null));
    go(`/${card.state.sort}/${id}`, true);
  };
  return (
    <form onSubmit={submit}>
      <h2>The metal changed</h2>
      <Choices
        legend="What happened?"
        name="change"
        columns={2}
        value={change}
        onChange={setChange}
        choices={card.state.sort === 'line' ? OF_HOLES : [...OF_PARTS, ...OF_HOLES]}
      />
      {change.startsWith('holes') && (
        <NumberField
          label="How many holes?"
          hint="Leave it empty if nobody knows: then all of them count."
          value={holes}
          onChange={setHoles}
        />
      )}
      {change && <TextField label="Note" value={note} onInput={setNote} longest={1000} />}
      {change && <p>{EFFECT[change]}</p>}
      <button type="submit" class="main" disabled={!change}>
        {change ? words(change, holes || null) : 'Choose what happened'}
      </button>
    </form>
  );
}
