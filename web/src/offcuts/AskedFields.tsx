// What every search of the stock asks, whatever its form: the metal, and whether it is for structure.
import { rows } from '../shell/things.ts';

/** Any metal, one of those `listed`, or one that an offcut of these `forms` is of. */
export function MetalAsked(props: {
  value: string;
  listed: readonly { readonly alloy: string; readonly temper: string }[];
  forms: (form: unknown) => boolean;
  onChange: (metal: string) => void;
}) {
  const { value, listed, forms, onChange } = props;
  const own = rows('offcut')
    .map(({ fields }) => fields)
    .filter(({ alloy, temper, form }) => alloy && temper && forms(form));
  const names = [...listed, ...own].map(({ alloy, temper }) => `${alloy}-${temper}`);
  return (
    <label>
      Metal
      <select value={value} onChange={(event) => onChange(event.currentTarget.value)}>
        <option value="">any</option>
        {[...new Set([...names, ...(value ? [value] : [])])].map((metal) => (
          <option key={metal} value={metal}>
            {metal}
          </option>
        ))}
      </select>
    </label>
  );
}

export function Ticked(props: {
  label: string;
  checked: boolean;
  onChange: (checked: boolean) => void;
}) {
  const { label, checked, onChange } = props;
  return (
    <label class="for-structure">
      <input
        type="checkbox"
        checked={checked}
        onChange={(event) => onChange(event.currentTarget.checked)}
      />
      {label}
    </label>
  );
}
