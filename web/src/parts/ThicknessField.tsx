// A sheet thickness as it is typed, with what was read of it; a figure that could be either unit
// is asked about.
import { useState } from 'preact/hooks';
import { gauges } from '../generated/gauges.json';
import { openedPhone } from '../shell/state.ts';
import { type Length, readThickness, showThickness, type WhichUnit } from '../twins/lengths.ts';

interface Props {
  value: Length | null;
  onChange: (length: Length | null, wrong: string) => void;
  label?: string;
}

export function ThicknessField({ value, onChange, label = 'Thickness' }: Props) {
  const { unit } = openedPhone().identity;
  const [text, setText] = useState(value?.text ?? '');
  const read = text.trim() ? readThickness(text, unit, gauges) : null;
  const take = (typed: string): void => {
    setText(typed);
    const found = typed.trim() ? readThickness(typed, unit, gauges) : null;
    if (found && 'sentence' in found) onChange(null, found.sentence);
    else onChange(found, '');
  };
  const question = read && 'inch' in read ? (read as WhichUnit) : null;
  const other = unit === 'in' ? 'mm' : 'in';
  return (
    <div class="field">
      <label>
        {label}
        <small>
          Of the bare metal, for example .032 in or 0.8 mm. Leave it empty if not known.
        </small>
        <input
          value={text}
          autocomplete="off"
          maxLength={40}
          aria-invalid={read && 'sentence' in read ? true : undefined}
          onInput={(event) => take(event.currentTarget.value)}
        />
      </label>
      {read && 'nm' in read && (
        <output class="read-as faint">
          {showThickness(read.nm, unit)}, {showThickness(read.nm, other)}
        </output>
      )}
      {read && 'sentence' in read && (
        <div class="problem" role="alert">
          <p>{read.sentence}</p>
          {question && (
            <div class="two-beside">
              <button type="button" onClick={() => take(question.inch.text)}>
                {question.inch.text}
              </button>
              <button type="button" onClick={() => take(question.mm.text)}>
                {question.mm.text}
              </button>
            </div>
          )}
        </div>
      )}
    </div>
  );
}
