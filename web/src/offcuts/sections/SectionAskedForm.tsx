// What is wanted of a section, asked on a drawing of it: its legs and wall where it is drawn, its
// length where the dimension of the bar stands.

import type { ComponentChildren } from 'preact';
import { section_metals } from '../../generated/materials.json';
import type { Unit } from '../../twins/lengths.ts';
import { MetalAsked, Ticked } from '../AskedFields.tsx';
import { Problem } from '../Choices.tsx';
import type { SectionAsked, SectionQuestion } from './asked.ts';
import { isSectionForm, sideNames } from './section.ts';

interface Props {
  asked: SectionAsked;
  problems: Partial<Record<SectionQuestion, string>>;
  unit: Unit;
  onChange: (change: Partial<SectionAsked>) => void;
}

/** `children` stand under the drawing: how many serve, as it is typed. */
export function SectionAskedForm(props: Props & { children: ComponentChildren }) {
  const { asked, onChange, problems, children } = props;
  const fields = ['first', 'second', 'wall', 'length'] as const;
  return (
    <form
      class="asked section-asked"
      aria-label="The length wanted"
      onSubmit={(event) => event.preventDefault()}
      noValidate
    >
      <div>
        <Wanted {...props} />
        {fields.map((field) => (
          <Problem key={field} text={problems[field]} id={`${field}-problem`} />
        ))}
        {children}
      </div>
      <div>
        <div class="side-by-side">
          <MetalAsked
            value={asked.metal}
            listed={section_metals}
            forms={isSectionForm}
            onChange={(metal) => onChange({ metal })}
          />
          <label>
            Hand
            <select
              value={asked.hand}
              onChange={(event) =>
                onChange({ hand: event.currentTarget.value as SectionAsked['hand'] })
              }
            >
              <option value="any">either</option>
              <option value="left">left</option>
              <option value="right">right</option>
            </select>
          </label>
        </div>
        <div class="side-by-side">
          <Ticked
            label="For structure"
            checked={asked.structure}
            onChange={(structure) => onChange({ structure })}
          />
          {asked.form === 'tube' && (
            <Ticked
              label="Square tube"
              checked={asked.square}
              onChange={(square) => onChange({ square })}
            />
          )}
        </div>
      </div>
    </form>
  );
}

function Wanted({ asked, problems, unit, onChange }: Props) {
  const square = asked.form === 'tube' && asked.square;
  const [one = '', other] = sideNames(asked.form, square);
  const figure = (field: SectionQuestion, label: string) => (
    <label class={`wanted-${field}`}>
      {label}
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
    <div class="blank-section">
      <Sketch form={asked.form} square={square} />
      <div class="section-sides">
        {figure('first', one)}
        {other && figure('second', other)}
        {figure('wall', `Wall, ${unit}`)}
      </div>
      {figure('length', `Length, ${unit}`)}
      <div class="length-run" aria-hidden="true" />
      <div class="length-bar" aria-hidden="true" />
    </div>
  );
}

const SKETCHES = {
  angle: 'M10 6V90H94V78H22V6Z',
  channel: 'M6 24V84H98V24H86V72H18V24Z',
  square: 'M10 8H92V90H10ZM22 20V78H80V20Z',
};

function Sketch({ form, square }: { form: SectionAsked['form']; square: boolean }) {
  return (
    <svg viewBox="0 0 104 98" aria-hidden="true">
      {form === 'tube' && !square ? (
        <>
          <circle cx="52" cy="49" r="42" />
          <circle cx="52" cy="49" r="32" />
        </>
      ) : (
        <path d={SKETCHES[form === 'tube' ? 'square' : form]} />
      )}
    </svg>
  );
}
