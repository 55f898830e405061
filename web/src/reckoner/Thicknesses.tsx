// One sheet, or a stack of them from the factory head down: by keys of the listed gauges, or typed.
import { useState } from 'preact/hooks';
import { gauges } from '../generated/gauges.json';
import { readThickness, type WhichUnit as Which } from '../twins/lengths.ts';
import { Entry } from './Entries.tsx';
import type { FieldProps } from './Field.tsx';
import { gaugeKeys } from './gauges.ts';
import { entriesOf, isList, listOf } from './typed.ts';

const MOST = 12;

export function Thicknesses(props: FieldProps) {
  const { take, unit } = props;
  return (
    <fieldset class="entries thicknesses">
      <legend>
        {take.label}, {unit}
      </legend>
      {isList(take) ? <Stack {...props} /> : <Sheet {...props} />}
    </fieldset>
  );
}

function Sheet({ take, unit, text, problems, onChange }: FieldProps) {
  return (
    <>
      <div class="choice-grid columns-6">
        {gaugeKeys(unit).map((gauge) => (
          <label key={gauge} class="choice">
            <input
              type="radio"
              name={`${take.key}-gauge`}
              value={gauge}
              checked={text === gauge}
              aria-label={`${gauge} ${unit}`}
              onChange={() => onChange(gauge)}
            />
            <span>{gauge}</span>
          </label>
        ))}
      </div>
      <ol>
        <Entry {...{ take, unit, text, problems, onChange }} at={0} alone>
          {take.optional && text && (
            <button type="button" onClick={() => onChange('')}>
              None
            </button>
          )}
          <WhichUnit text={text} unit={unit} onChoose={onChange} />
        </Entry>
      </ol>
    </>
  );
}

function Stack({ take, unit, text, problems, onChange }: FieldProps) {
  const [opened, setOpened] = useState(-1);
  const entries = entriesOf(text);
  const full = entries.length >= MOST;
  const put = (at: number, entry: string): void =>
    onChange(listOf([...entries.slice(0, at), entry, ...entries.slice(at + 1)]));
  // the first that is still open, else one more sheet below
  const next = (): number => {
    const open = entries.findIndex((entry) => !entry.trim());
    return open < 0 ? entries.length : open;
  };
  return (
    <>
      <div class="choice-grid columns-6">
        {gaugeKeys(unit)
          .slice(0, -1)
          .map((gauge) => (
            <button
              type="button"
              key={gauge}
              aria-label={`Add ${gauge} ${unit}`}
              disabled={full}
              onClick={() => put(next(), gauge)}
            >
              {gauge}
            </button>
          ))}
        <button
          type="button"
          class="typed-one"
          disabled={full}
          onClick={() => {
            setOpened(entries.length);
            put(entries.length, '');
          }}
        >
          type
        </button>
      </div>
      <ol class="sheets">
        {entries.map((entry, at) => (
          <Entry
            key={at}
            {...{ take, unit, at, problems }}
            text={entry}
            first={opened === at}
            onChange={(to) => put(at, to)}
          >
            <button
              type="button"
              aria-label={`Take out number ${at + 1}`}
              onClick={() => onChange(listOf(entries.filter((_, index) => index !== at)))}
            >
              Take out
            </button>
            <WhichUnit text={entry} unit={unit} onChoose={(to) => put(at, to)} />
          </Entry>
        ))}
      </ol>
      {!entries.length && <p class="faint none-yet">No sheet yet: tap its thickness.</p>}
    </>
  );
}

/** A bare figure that is a listed thickness in the other unit only is asked about. */
function WhichUnit(props: { text: string; unit: 'in' | 'mm'; onChoose: (text: string) => void }) {
  const { text, unit, onChoose } = props;
  const read = text.trim() ? readThickness(text, unit, gauges) : null;
  if (!read || !('inch' in read)) return null;
  const { inch, mm } = read as Which;
  return (
    <div class="which-unit">
      {[inch, mm].map((one) => (
        <button type="button" key={one.text} onClick={() => onChoose(one.text)}>
          {one.text}
        </button>
      ))}
    </div>
  );
}
