// The parts and rivet lines that a piece is for: those chosen, and the way to choose more.
import { useState } from 'preact/hooks';
import { ThingPicker } from '../reckoner/ThingPicker.tsx';
import { row } from '../shell/things.ts';

interface Props {
  things: readonly string[]; // ids
  onChange: (things: string[]) => void;
}

const MOST = 40;

export function ForWhat({ things, onChange }: Props) {
  const [picking, setPicking] = useState(false);
  const nameOf = (id: string): string => row(id)?.name ?? 'a thing not on this phone';
  return (
    <section class="for-what" aria-label="What it is for">
      <p class="field">{things.length ? 'It is for' : 'It is for no part or rivet line yet'}</p>
      {things.map((id) => (
        <p class="list-head" key={id}>
          <span>{nameOf(id)}</span>
          <button
            type="button"
            aria-label={`Not for this: ${nameOf(id)}`}
            onClick={() => onChange(things.filter((one) => one !== id))}
          >
            Not for this
          </button>
        </p>
      ))}
      {picking && (
        <ThingPicker
          not=""
          onPick={(id) => {
            onChange([...new Set([...things, id])]);
            setPicking(false);
          }}
        />
      )}
      {things.length < MOST && (
        <button type="button" onClick={() => setPicking(!picking)}>
          {picking ? 'No other' : things.length ? 'And for another' : 'Choose one'}
        </button>
      )}
    </section>
  );
}
