// What is wanted, asked on a drawing of it: the figures stand where its dimensions would.

import type { ComponentChildren } from 'preact';
import { metals } from '../generated/materials.json';
import type { Unit } from '../twins/lengths.ts';
import { MetalAsked, Ticked } from './AskedFields.tsx';
import type { Asked, AskedField } from './asked.ts';
import { Problem } from './Choices.tsx';
import { isSectionForm } from './sections/section.ts';
import type { Want } from './wanted.ts';
import './asked.css';

interface Props {
  asked: Asked;
  problems: Partial<Record<AskedField, string>>;
  unit: Unit;
  onChange: (change: Partial<Asked>) => void;
}

/** `children` stand under the drawing: how many serve, as it is typed. */
export function AskedForm(props: Props & { children: ComponentChildren }) {
  const { asked, problems, unit, onChange, children } = props;
  return (
    <form
      class="asked"
      aria-label="The piece wanted"
      onSubmit={(event) => event.preventDefault()}
      noValidate
    >
      <div>
        <Blank asked={asked} problems={problems} unit={unit} onChange={onChange} />
        {(['width', 'height'] as const).map((field) => (
          <Problem key={field} text={problems[field]} id={`${field}-problem`} />
        ))}
        {children}
      </div>
      <OfTheMetal asked={asked} problems={problems} unit={unit} onChange={onChange} />
    </form>
  );
}

function OfTheMetal({ asked, problems, unit, onChange }: Props) {
  return (
    <div>
      <div class="side-by-side">
        <MetalAsked
          value={asked.metal}
          listed={metals}
          forms={(form) => !isSectionForm(form)}
          onChange={(metal) => onChange({ metal })}
        />
        <label>
          Clad or bare
          <select
            value={asked.clad}
            onChange={(event) => onChange({ clad: event.currentTarget.value as Asked['clad'] })}
          >
            <option value="any">either</option>
            <option value="clad">clad</option>
            <option value="bare">bare</option>
          </select>
        </label>
      </div>
      <Thickness asked={asked} problems={problems} unit={unit} onChange={onChange} />
      <div class="side-by-side">
        <Figure field="clear" label="Clear of the edges" {...{ asked, problems, onChange }} />
        <Ticked
          label="For structure"
          checked={asked.structure}
          onChange={(structure) => onChange({ structure })}
        />
      </div>
    </div>
  );
}

const GRAINS: readonly (readonly [Want['grain'], string])[] = [
  ['any', 'grain any way'],
  ['along width', 'grain along the width'],
  ['along height', 'grain along the height'],
];
// a double arrow, lying; it is turned for the height
const ARROW = 'M2 12L10 7V10.8H38V7L46 12L38 17V13.2H10V17Z';

function Blank({ asked, problems, unit, onChange }: Props) {
  const figure = (field: 'width' | 'height', label: string) => (
    <label class={`blank-${field}`}>
      {label}, {unit}
      <input
        value={asked[field]}
        onInput={(event) => onChange({ [field]: event.currentTarget.value })}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        enterkeyhint="next"
        maxLength={40}
        aria-invalid={problems[field] ? true : undefined}
        aria-describedby={problems[field] ? `${field}-problem` : undefined}
      />
    </label>
  );
  return (
    <div class="blank">
      {figure('width', 'Width')}
      <div class="blank-run" aria-hidden="true" />
      <fieldset class="blank-sheet">
        <legend>Grain</legend>
        {GRAINS.map(([value, words]) => (
          <label key={value}>
            <input
              type="radio"
              name="wanted-grain"
              aria-label={words}
              checked={asked.grain === value}
              onChange={() => onChange({ grain: value })}
            />
            {value === 'any' ? (
              <span>any way</span>
            ) : (
              <svg
                viewBox={value === 'along width' ? '0 0 48 24' : '12 -12 24 48'}
                aria-hidden="true"
              >
                <path d={ARROW} transform={value === 'along width' ? '' : 'rotate(90 24 12)'} />
              </svg>
            )}
          </label>
        ))}
      </fieldset>
      <div class="blank-rise" aria-hidden="true" />
      {figure('height', 'Height')}
    </div>
  );
}

function Figure(props: {
  field: 'thickness' | 'to' | 'clear';
  label: string;
  asked: Asked;
  problems: Props['problems'];
  onChange: Props['onChange'];
}) {
  const { field, label, asked, problems, onChange } = props;
  return (
    <div class="field">
      <label>
        {label}
        <input
          value={asked[field]}
          onInput={(event) => onChange({ [field]: event.currentTarget.value })}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          maxLength={40}
          placeholder={field === 'clear' ? '0' : undefined}
          aria-invalid={problems[field] ? true : undefined}
          aria-describedby={problems[field] ? `${field}-problem` : undefined}
        />
      </label>
      <Problem text={problems[field]} id={`${field}-problem`} />
    </div>
  );
}

function Thickness({ asked, problems, unit, onChange }: Props) {
  return (
    <div class="side-by-side">
      <Figure field="thickness" label={`Thickness, ${unit}`} {...{ asked, problems, onChange }} />
      <label>
        How thick
        <select
          value={asked.how}
          onChange={(event) => onChange({ how: event.currentTarget.value as Asked['how'] })}
        >
          <option value="gauge">this one</option>
          <option value="at least">this or thicker</option>
          <option value="range">from this to</option>
        </select>
      </label>
      {asked.how === 'range' && (
        <Figure field="to" label="up to" {...{ asked, problems, onChange }} />
      )}
    </div>
  );
}
