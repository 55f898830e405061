// What a part is: the questions for entering one and for putting right what stands.
import { useState } from 'preact/hooks';
import { Choices } from '../offcuts/Choices.tsx';
import { row, rows } from '../shell/things.ts';
import type { Described } from './changes.ts';
import { NumberField } from './Fields.tsx';
import { PartPicker } from './PartPicker.tsx';
import { ThicknessField } from './ThicknessField.tsx';

export interface DescriptionProps {
  described: Described;
  onChange: (more: Partial<Described>) => void;
  onWrong: (sentence: string) => void; // about the thickness; empty when it can be read
}

export function TextField(props: {
  label: string;
  hint?: string;
  value: string;
  onInput: (text: string) => void;
  longest?: number;
}) {
  const { label, hint, value, onInput, longest = 200 } = props;
  return (
    <label>
      {label}
      {hint && <small>{hint}</small>}
      <input
        value={value}
        maxLength={longest}
        autocomplete="off"
        onInput={(event) => onInput(event.currentTarget.value)}
      />
    </label>
  );
}

// What nearly every part is told apart by.
export function FirstFields({ described, onChange }: DescriptionProps) {
  return (
    <>
      <TextField label="Name" value={described.name} onInput={(name) => onChange({ name })} />
      <div class="two-beside">
        <TextField
          label="Number"
          value={described.number}
          onInput={(number) => onChange({ number })}
        />
        <NumberField
          label="Pieces"
          value={described.pieces || null}
          onChange={(pieces) => onChange({ pieces: pieces ?? 0 })}
        />
      </div>
      <Choices
        legend="Hand"
        name="hand"
        columns={3}
        value={described.hand || 'none'}
        onChange={(hand) => onChange({ hand: hand === 'none' ? '' : hand })}
        choices={[
          { value: 'left', label: 'left' },
          { value: 'right', label: 'right' },
          { value: 'none', label: 'neither' },
        ]}
      />
    </>
  );
}

// The rest, which can wait.
export function MoreFields({ described, onChange, onWrong }: DescriptionProps) {
  const assemblies = rows('place').filter((place) => place.fields.form === 'assembly');
  const known = assemblies.some((place) => place.id === described.assembly);
  return (
    <>
      {(assemblies.length > 0 || described.assembly) && (
        <label>
          Assembly
          <select
            value={described.assembly}
            onChange={(event) => onChange({ assembly: event.currentTarget.value })}
          >
            <option value="">none</option>
            {described.assembly && !known && (
              <option value={described.assembly}>
                {row(described.assembly)?.name ?? 'another'}
              </option>
            )}
            {assemblies.map((place) => (
              <option value={place.id} key={place.id}>
                {place.name}
              </option>
            ))}
          </select>
        </label>
      )}
      <TextField
        label="Station"
        hint="Where on the aircraft it belongs. Once it is drilled or trimmed in place it fits nowhere else."
        value={described.station}
        onInput={(station) => onChange({ station })}
      />
      <TextField
        label="Material"
        hint="Alloy and temper, for example 2024-T3 clad."
        value={described.material}
        onInput={(material) => onChange({ material })}
      />
      <ThicknessField
        value={described.thickness}
        onChange={(thickness, wrong) => {
          onWrong(wrong);
          onChange({ thickness });
        }}
      />
      <Twin described={described} onChange={onChange} onWrong={onWrong} />
      <label>
        Note
        <textarea
          rows={3}
          maxLength={2000}
          value={described.note}
          onInput={(event) => onChange({ note: event.currentTarget.value })}
        />
      </label>
    </>
  );
}

function Twin({ described, onChange }: DescriptionProps) {
  const [picking, setPicking] = useState(false);
  const twin = row(described.twin);
  return (
    <div class="field">
      Mirrored twin
      <small>{twin ? twin.name : 'The same part for the other hand, if there is one.'}</small>
      {picking ? (
        <PartPicker
          prompt="Which part?"
          not={[]}
          onPick={(id) => {
            onChange({ twin: id });
            setPicking(false);
          }}
        />
      ) : (
        <div class="two-beside">
          <button type="button" onClick={() => setPicking(true)}>
            {twin ? 'Another part' : 'Choose it'}
          </button>
          {twin && (
            <button type="button" onClick={() => onChange({ twin: '' })}>
              None
            </button>
          )}
        </div>
      )}
    </div>
  );
}
