// Puts right what is known of a wanted piece. Only what changed is written.
import { useState } from 'preact/hooks';
import { Choices, Typed } from '../offcuts/Choices.tsx';
import { TextField } from '../parts/DescriptionFields.tsx';
import { NumberField } from '../parts/Fields.tsx';
import { ThicknessField } from '../parts/ThicknessField.tsx';
import { go } from '../shell/router.ts';
import { openedPhone } from '../shell/state.ts';
import { rows } from '../shell/things.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import { readLength, showLength } from '../twins/lengths.ts';
import { changedPiece, type Draftable, draftOf, wrongWithPiece } from './change.ts';
import { ForWhat } from './ForWhat.tsx';
import type { Piece } from './wish.ts';

const GRAINS = [
  { value: 'a', label: 'along the first side' },
  { value: 'b', label: 'along the second side' },
  { value: 'any', label: 'either way' },
] as const;
const CLADDINGS = [
  { value: 'clad', label: 'clad' },
  { value: 'bare', label: 'bare' },
  { value: 'unknown', label: 'either' },
] as const;

export function ChangePiece({ id, piece }: { id: string; piece: Piece }) {
  const { unit } = openedPhone().identity;
  const [was] = useState(() => draftOf(piece));
  const [is, setIs] = useState(was);
  const [unread, setUnread] = useState('');
  const { problem, keep } = useKeeping();
  const change = (more: Partial<Draftable>): void => setIs((now) => ({ ...now, ...more }));
  // one that this phone does not know stays what it was
  const lines = new Set([...(piece.lines ?? []), ...rows('line', true).map((one) => one.id)]);
  const wrong = unread || wrongWithPiece(is, unit);
  const body = wrong ? {} : changedPiece(piece, is, unit, (thing) => lines.has(thing));
  const changed = Object.keys(body).length > 0;
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (wrong || !changed) return;
    const draft = { kind: 'piece.described.v1', subject: id, body };
    if (await keep([draft], `Changed: ${is.name.trim()}`)) go(`/wanted/${id}`, true);
  };
  return (
    <form onSubmit={submit}>
      <h2>Name, blank and the rest</h2>
      <TextField label="Name" value={is.name} onInput={(name) => change({ name })} />
      <NumberField label="How many" value={is.count} onChange={(count) => change({ count })} />
      <label>
        Why
        <textarea
          rows={3}
          maxLength={200}
          value={is.why}
          onInput={(event) => change({ why: event.currentTarget.value.replaceAll('\n', ' ') })}
        />
      </label>
      <TextField
        label="Metal"
        hint="Alloy and temper, for example 2024-T3. Leave it empty where nobody said."
        value={is.metal}
        onInput={(metal) => change({ metal })}
      />
      <Choices
        legend="Cladding"
        name="clad"
        columns={3}
        value={is.clad}
        onChange={(clad) => change({ clad })}
        choices={CLADDINGS}
      />
      <ThicknessField
        label="Sheet"
        value={is.thickness}
        onChange={(thickness, sentence) => {
          setUnread(sentence);
          change({ thickness });
        }}
      />
      <div class="two-beside">
        {(['a', 'b'] as const).map((side) => (
          <Typed
            key={side}
            label={side === 'a' ? 'First side' : 'Second side'}
            name={side}
            value={is[side]}
            onInput={(text) => change({ [side]: text })}
            read={otherUnit(is[side], unit)}
            problem={is[side].trim() ? problemOf(is[side], unit) : undefined}
          />
        ))}
      </div>
      <Choices
        legend="Grain"
        name="grain"
        columns={3}
        value={is.grain}
        onChange={(grain) => change({ grain })}
        choices={GRAINS}
      />
      <NumberField
        label="Holes"
        hint="Leave it empty if they are not counted."
        value={is.holes}
        onChange={(holes) => change({ holes })}
      />
      <ForWhat things={is.things} onChange={(things) => change({ things })} />
      {(problem || wrong) && (
        <p class="problem" role="alert">
          {problem || wrong}
        </p>
      )}
      <button type="submit" class="main" disabled={!!wrong || !changed}>
        {wrong ? 'Not yet complete' : changed ? 'Keep the changes' : 'Nothing changed'}
      </button>
    </form>
  );
}

function otherUnit(text: string, unit: 'in' | 'mm'): string {
  const read = readLength(text, unit);
  return 'nm' in read ? showLength(read.nm, unit === 'in' ? 'mm' : 'in') : '';
}

function problemOf(text: string, unit: 'in' | 'mm'): string | undefined {
  const read = readLength(text, unit);
  return 'sentence' in read ? read.sentence : undefined;
}
