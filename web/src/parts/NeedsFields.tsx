// What a part needs, operation by operation, and what is known of its holes.
import { Choices } from '../offcuts/Choices.tsx';
import { OPERATIONS, type Operation } from '../twins/marks.ts';
import { TextField } from './DescriptionFields.tsx';
import { NumberField, OpenFields } from './Fields.tsx';
import {
  askOf,
  CHOICES,
  changeTemplate,
  SIDE_CHOICES,
  type Steps,
  SUPPLIED_WORDS,
  type Supplied,
  sidesAsked,
  TEMPLATES,
  type Want,
} from './steps.ts';
import { capital } from './words.ts';

interface Props {
  steps: Steps;
  onChange: (steps: Steps) => void;
}

export function TemplateField({ steps, onChange }: Props) {
  const found = TEMPLATES.find((one) => one.template === steps.template);
  return (
    <label>
      What sort of part is it?
      <small>{found ? `${found.text}.` : 'Sets what it needs to common practice.'}</small>
      <select
        value={steps.template}
        onChange={(event) => {
          const next = TEMPLATES.find((one) => one.template === event.currentTarget.value);
          if (next) onChange(changeTemplate(steps, next));
        }}
      >
        {!found && <option value={steps.template}>{steps.template}</option>}
        {TEMPLATES.map((one) => (
          <option value={one.template} key={one.template}>
            {one.name}
          </option>
        ))}
      </select>
    </label>
  );
}

export function HoleFields({ steps, onChange }: Props) {
  const { count, supplied } = steps.holes;
  const holes = (more: Partial<Steps['holes']>): void =>
    onChange({ ...steps, holes: { ...steps.holes, ...more } });
  return (
    <>
      <NumberField
        label="Holes"
        hint="0 where it has none. Leave it empty if they are not counted."
        value={count}
        onChange={(next) => holes({ count: next })}
      />
      <Choices
        legend="As it came"
        name="supplied"
        columns={3}
        value={supplied}
        onChange={(next) => holes({ supplied: next })}
        choices={(Object.keys(SUPPLIED_WORDS) as Supplied[]).map((value) => ({
          value,
          label: SUPPLIED_WORDS[value],
        }))}
      />
    </>
  );
}

export function OperationFields({ steps, onChange }: Props) {
  return (
    <fieldset class="needs">
      <legend>Operations</legend>
      {OPERATIONS.map((row) => (
        <OperationField key={row.op} row={row} steps={steps} onChange={onChange} />
      ))}
    </fieldset>
  );
}

function OperationField({ row, steps, onChange }: Props & { row: Operation }) {
  const [inside, outside] = sidesAsked(steps, row.op);
  const choices = row.sided ? SIDE_CHOICES : CHOICES;
  const value = row.sided ? `${inside}/${outside}` : inside;
  return (
    <label class="need">
      {capital(row.name)}
      <select
        value={value}
        onChange={(event) => {
          const [first, second] = event.currentTarget.value.split('/') as [Want, Want?];
          onChange(askOf(steps, row.op, first, second ?? first));
        }}
      >
        {choices.map(([word, label]) => (
          <option value={word} key={word}>
            {label}
          </option>
        ))}
      </select>
    </label>
  );
}

export function OtherFields({ steps, onChange }: Props) {
  const tick = (label: string, key: 'along_lines' | 'final_after_dimple') => (
    <label class="tick">
      <input
        type="checkbox"
        checked={steps[key]}
        onChange={(event) => onChange({ ...steps, [key]: event.currentTarget.checked })}
      />
      {label}
    </label>
  );
  return (
    <>
      {tick('Film comes off along the rivet lines only', 'along_lines')}
      {tick('Holes get their final size after dimpling', 'final_after_dimple')}
      <TextField
        label="Dimple die"
        hint="Written with every dimple recorded."
        value={steps.die ?? ''}
        onInput={(die) => onChange({ ...steps, die: die.trim() ? die : null })}
      />
      <NumberField
        label="Hours in which a cleaned face is to be primed"
        hint="8 is common practice. The primer maker’s data comes first."
        value={steps.window_h}
        onChange={(window_h) => onChange({ ...steps, window_h })}
      />
      <OpenFields open={steps.open} onChange={(open) => onChange({ ...steps, open })} />
    </>
  );
}
