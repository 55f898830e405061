// What a run asks besides its operation. It holds from the next scan on.
import { useState } from 'preact/hooks';
import { Choices, Typed } from '../offcuts/Choices.tsx';
import { NumberField } from '../parts/Fields.tsx';
import { operation } from '../parts/steps.ts';
import { branches } from '../places/tree.ts';
import { rows } from '../shell/things.ts';
import { SIDES } from '../twins/marks.ts';
import { changeRun, type Run } from './current.ts';
import type { Hands, StepPlan } from './plan.ts';

interface Props {
  run: Run;
  plan: StepPlan;
  onDone: () => void;
}

export function RunOptions({ run, plan, onDone }: Props) {
  const [asked, setAsked] = useState<StepPlan>(run.eitherHand ? { ...plan, hands: 'both' } : plan);
  const change = (more: Partial<StepPlan>): void => setAsked({ ...asked, ...more });
  const submit = (event: SubmitEvent): void => {
    event.preventDefault();
    const told = { die: asked.die.trim(), lot: asked.lot.trim(), station: asked.station.trim() };
    changeRun({ plan: { ...asked, ...told }, eitherHand: false });
    onDone();
  };
  return (
    <form class="run-options" onSubmit={submit}>
      {operation(plan.op).sided && <SideChoices plan={asked} onChange={change} />}
      {plan.op === 'dimple' && (
        <Typed
          label="Die"
          hint="empty: the one that the steps of each part name"
          name="die"
          value={asked.die}
          onInput={(die) => change({ die })}
        />
      )}
      {plan.op === 'prime' && (
        <div class="side-by-side">
          <Typed label="Lot" name="lot" value={asked.lot} onInput={(lot) => change({ lot })} />
          <NumberField
            label="Coats"
            value={asked.coats}
            onChange={(coats) => change({ coats: coats || null })}
          />
        </div>
      )}
      <Choices
        legend="Hand"
        name="hands"
        columns={2}
        value={asked.hands}
        onChange={(hands: Hands) => change({ hands })}
        choices={[
          { value: 'first', label: 'as the first part' },
          { value: 'both', label: 'either' },
          { value: 'left', label: 'left only' },
          { value: 'right', label: 'right only' },
        ]}
      />
      <For plan={asked} onChange={change} />
      <button type="submit" class="main">
        Go on scanning
      </button>
    </form>
  );
}

interface PartProps {
  plan: StepPlan;
  onChange: (more: Partial<StepPlan>) => void;
}

function SideChoices({ plan, onChange }: PartProps) {
  const value = !plan.sides ? 'steps' : plan.sides.length > 1 ? 'both' : (plan.sides[0] ?? '');
  const sides = (word: string): string[] | null =>
    word === 'steps' ? null : word === 'both' ? [...SIDES] : [word];
  return (
    <Choices
      legend="Which side?"
      name="sides"
      columns={2}
      value={value}
      onChange={(word) => onChange({ sides: sides(word) })}
      choices={[
        { value: 'steps', label: 'as its steps ask' },
        { value: 'both', label: 'both' },
        { value: 'inside', label: 'inside' },
        { value: 'outside', label: 'outside' },
      ]}
    />
  );
}

/** A part that was drilled at another station, or for another assembly, stops the run. */
function For({ plan, onChange }: PartProps) {
  const assemblies = branches(rows('place')).filter(
    ({ place }) => place.fields.form === 'assembly',
  );
  return (
    <>
      {assemblies.length > 0 && (
        <label>
          Only for the assembly
          <select
            value={plan.assembly ?? ''}
            onChange={(event) => onChange({ assembly: event.currentTarget.value || null })}
          >
            <option value="">any</option>
            {assemblies.map(({ place }) => (
              <option key={place.id} value={place.id}>
                {place.name}
              </option>
            ))}
          </select>
        </label>
      )}
      <Typed
        label="Only for the station"
        hint="empty: any; a part drilled at another one stops the run"
        name="station"
        value={plan.station}
        onInput={(station) => onChange({ station })}
        last
      />
    </>
  );
}
