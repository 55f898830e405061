// Some of it: how many, which sides, what stays open, and what was used. It says what it will
// record on its button, as the main button does.
import { useState } from 'preact/hooks';
import { Choices } from '../offcuts/Choices.tsx';
import { SIDES } from '../twins/marks.ts';
import { type Choice, type Ground, marksOf, settle, wrongWithChoice } from './choices.ts';
import { NumberField, OpenFields } from './Fields.tsx';
import { operation, saidOpen } from './steps.ts';
import { capital, sayChoice } from './words.ts';

interface Props {
  ground: Ground;
  start: Choice;
  about: string; // added to what the button says: the layer of a line
  onKeep: (choice: Choice, label: string) => void;
  onClose: () => void;
}

export function SomeForm({ ground, start, about, onKeep, onClose }: Props) {
  const row = operation(start.op);
  const before = marksOf(ground, start.op, start.layer).map(([, mark]) => mark.done);
  const [choice, setChoice] = useState<Choice>({
    ...start,
    result: 'some',
    done: before.find((done) => done) ?? null,
  });
  const change = (more: Partial<Choice>): void => setChoice({ ...choice, ...more });
  const whole = settle({ ...choice, open: saidOpen(choice.open) });
  const wrong = wrongWithChoice(choice);
  const label = sayChoice(ground, whole) + about;
  const submit = (event: SubmitEvent): void => {
    event.preventDefault();
    if (!wrong) onKeep(whole, label);
  };
  return (
    <form class="some" onSubmit={submit}>
      <Choices
        legend={`${capital(row.name)}${about}: how far?`}
        name="result"
        columns={3}
        value={choice.result}
        onChange={(result) => change({ result })}
        choices={[
          { value: 'all', label: 'all' },
          { value: 'some', label: 'some' },
          { value: 'none', label: 'none' },
        ]}
      />
      {choice.result === 'some' && (row.on_holes || ground.pieces > 1) && (
        <div class="two-beside">
          <NumberField
            label="Done"
            value={choice.done}
            first
            onChange={(done) => change({ done })}
          />
          <NumberField label="of" value={choice.of} onChange={(of) => change({ of })} />
        </div>
      )}
      {row.sided && <Sides choice={choice} onChange={change} />}
      {row.op === 'rivet' && choice.result === 'all' && (
        <OpenFields open={choice.open} onChange={(open) => change({ open })} />
      )}
      <Used choice={choice} onChange={change} />
      {wrong && (
        <p class="problem" role="alert">
          {wrong}
        </p>
      )}
      <button type="submit" class="main" disabled={Boolean(wrong)}>
        {label}
      </button>
      <button type="button" class="aside" onClick={onClose}>
        Record nothing
      </button>
    </form>
  );
}

interface PartProps {
  choice: Choice;
  onChange: (more: Partial<Choice>) => void;
}

function Sides({ choice, onChange }: PartProps) {
  const sides = choice.sides ?? [];
  const value = sides.length === 2 ? 'both' : (sides[0] ?? '');
  return (
    <Choices
      legend="Which side?"
      name="sides"
      columns={3}
      value={value}
      onChange={(side) => onChange({ sides: side === 'both' ? [...SIDES] : [side] })}
      choices={[
        { value: 'both', label: 'both' },
        { value: 'inside', label: 'inside' },
        { value: 'outside', label: 'outside' },
      ]}
    />
  );
}

// What was used, and a note: asked only where it says something about the operation.
function Used({ choice, onChange }: PartProps) {
  if (choice.result === 'none') return null;
  const text = (label: string, key: 'die' | 'lot' | 'note', longest = 200) => (
    <label>
      {label}
      <input
        value={choice[key] ?? ''}
        maxLength={longest}
        autocomplete="off"
        onInput={(event) => onChange({ [key]: event.currentTarget.value })}
      />
    </label>
  );
  return (
    <>
      {choice.op === 'dimple' && text('Die', 'die')}
      {choice.op === 'prime' && (
        <div class="two-beside">
          {text('Lot', 'lot')}
          <NumberField
            label="Coats"
            value={choice.coats ?? null}
            onChange={(coats) => onChange({ coats })}
          />
        </div>
      )}
      {text('Note', 'note', 1000)}
    </>
  );
}
