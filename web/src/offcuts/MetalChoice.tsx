// Which metal: those used last first, then the listed ones, then any other, or not known.
import { useState } from 'preact/hooks';
import { metals } from '../generated/materials.json';
import { rows } from '../shell/things.ts';
import { Choices, Typed } from './Choices.tsx';
import type { Answers } from './draft.ts';
import { type FormProps, onlyCladding } from './OffcutForm.tsx';

const AT_FIRST = 6;

interface Metal {
  alloy: string;
  temper: string;
  note: string;
}
const nameOf = ({ alloy, temper }: Pick<Metal, 'alloy' | 'temper'>): string => `${alloy}-${temper}`;

/** Listed metals, those of the offcuts touched last first, then those that need no heat treatment. */
function inOrder(listed: readonly Metal[]): Metal[] {
  const used = rows('offcut', true)
    .sort((one, other) => other.touched - one.touched)
    .map((row) => `${row.fields.alloy}-${row.fields.temper}`);
  const plain = [...listed].sort((one, other) => Number(!!one.note) - Number(!!other.note));
  const rank = (metal: Metal): number => {
    const at = used.indexOf(nameOf(metal));
    return at < 0 ? used.length : at;
  };
  return plain.sort((one, other) => rank(one) - rank(other));
}

/** What choosing a key answers: the metal, and what follows from it about cladding and marks. */
function answeredMetal(value: string, answers: Answers, order: Metal[]): Partial<Answers> {
  if (value === 'unknown') return { metal: 'unknown', clad: 'unknown', known_by: 'unknown' };
  // "not known" was the answer for the metal that was not known; of this one it is asked again
  const known_by = answers.metal === 'unknown' ? '' : answers.known_by;
  if (value === 'other') return { metal: 'other', alloy: '', temper: '', clad: '', known_by };
  const found = order.find((metal) => nameOf(metal) === value);
  if (!found) return {};
  const metal = { metal: 'listed', alloy: found.alloy, temper: found.temper } as const;
  return { ...metal, clad: onlyCladding({ ...answers, ...metal }) ?? '', known_by };
}

/** `listed`: the metals that its form is made of; those of sheet where nothing is said. */
export function MetalChoice(props: FormProps & { listed?: readonly Metal[] }) {
  const { answers, onChange, problems, listed = metals } = props;
  const [all, setAll] = useState(false);
  const [order] = useState(() => inOrder(listed)); // the keys stay where they are while one is looked for
  const chosen = answers.metal === 'listed' ? nameOf(answers) : answers.metal;
  const shown = all ? order : order.slice(0, AT_FIRST);
  const far = order.find((metal) => nameOf(metal) === chosen);
  const keys = far && !shown.includes(far) ? [...shown, far] : shown;
  return (
    <>
      <Choices
        legend="Metal"
        name="metal"
        columns={3}
        choices={[
          ...keys.map((metal) => ({ value: nameOf(metal), label: nameOf(metal) })),
          ...(all ? [{ value: 'other', label: 'another' }] : []),
          { value: 'unknown', label: 'not known' },
        ]}
        value={chosen}
        onChange={(value) => onChange(answeredMetal(value, answers, order))}
        problem={problems.metal}
      />
      {!all && (
        <button type="button" class="more-metals" onClick={() => setAll(true)}>
          Other metals
        </button>
      )}
      {answers.metal === 'other' && (
        <div class="side-by-side">
          <Typed
            label="Alloy"
            name="alloy"
            value={answers.alloy}
            onInput={(alloy) => onChange({ alloy })}
          />
          <Typed
            label="Temper"
            hint="empty where not known"
            name="temper"
            value={answers.temper}
            onInput={(temper) => onChange({ temper })}
          />
        </div>
      )}
    </>
  );
}
