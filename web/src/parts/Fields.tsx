// Fields that several forms of this folder share: whole numbers, and holes left open on purpose.
import { useId } from 'preact/hooks';
import type { LeftOpen } from './steps.ts';

interface NumberProps {
  label: string;
  hint?: string;
  value: number | null;
  onChange: (value: number | null) => void;
  first?: boolean; // takes the keyboard when it appears
}

// A whole number; an empty field is null. What is no figure does not get in.
export function NumberField({ label, hint, value, onChange, first }: NumberProps) {
  return (
    <label>
      {label}
      {hint && <small>{hint}</small>}
      <input
        class="figures"
        inputMode="numeric"
        autocomplete="off"
        maxLength={6}
        value={value === null ? '' : String(value)}
        ref={(field) => {
          if (first && field && !field.dataset.met) meet(field);
        }}
        onInput={(event) => {
          const field = event.currentTarget;
          const figures = field.value.replace(/\D/g, '');
          field.value = figures;
          onChange(figures === '' ? null : Number(figures));
        }}
      />
    </label>
  );
}

function meet(field: HTMLInputElement): void {
  field.dataset.met = 'yes';
  field.focus();
  field.select();
}

interface OpenProps {
  open: LeftOpen[];
  onChange: (open: LeftOpen[]) => void;
}

// Holes that stay open on purpose, and what fills them later.
export function OpenFields({ open, onChange }: OpenProps) {
  const suggestions = useId();
  const rows = open.length ? open : [{ n: 0, fills: '' }];
  const change = (at: number, row: LeftOpen): void =>
    onChange(rows.map((one, index) => (index === at ? row : one)));
  return (
    <fieldset class="left-open">
      <legend>Left open on purpose</legend>
      {rows.map((row, at) => (
        <div class="two-beside" key={at}>
          <NumberField
            label={at ? 'And holes' : 'Holes'}
            value={row.n || null}
            onChange={(n) => change(at, { ...row, n: n ?? 0 })}
          />
          <label>
            filled later by
            <input
              value={row.fills}
              list={suggestions}
              maxLength={200}
              autocomplete="off"
              onInput={(event) => change(at, { ...row, fills: event.currentTarget.value })}
            />
          </label>
        </div>
      ))}
      <datalist id={suggestions}>
        {['nut plates', 'the next part', 'pulled rivets', 'bolts', 'screws'].map((fills) => (
          <option value={fills} key={fills} />
        ))}
      </datalist>
      {open.some((row) => row.n > 0) && (
        <button type="button" onClick={() => onChange([...rows, { n: 0, fills: '' }])}>
          Others stay open too
        </button>
      )}
    </fieldset>
  );
}
