// The questions about a length of angle, channel or tube, for entering one and for putting it right.

import { gauges } from '../../generated/gauges.json';
import { section_metals } from '../../generated/materials.json';
import { readLength, readThickness, type Unit } from '../../twins/lengths.ts';
import { type Choice, Choices, Typed } from '../Choices.tsx';
import type { Answers, Problems } from '../draft.ts';
import { KnownBy, MeasuredOn } from '../MaterialQuestions.tsx';
import { MetalChoice } from '../MetalChoice.tsx';
import { Thickness } from '../OffcutForm.tsx';
import { otherUnit } from '../piece.ts';
import { BarDrawing } from './BarDrawing.tsx';
import type { SectionAnswers, SectionProblems } from './draft.ts';
import { type Form, type Hand, sideNames, sidesOf } from './section.ts';

interface Props {
  form: Form;
  answers: Answers;
  onAnswer: (change: Partial<Answers>) => void;
  section: SectionAnswers;
  onSection: (change: Partial<SectionAnswers>) => void;
  problems: Problems & SectionProblems;
  unit: Unit;
}

const ROUND: readonly Choice<'round' | 'square'>[] = [
  { value: 'round', label: 'round' },
  { value: 'square', label: 'square' },
];
const ENDS: readonly Choice<'0' | '1' | '2'>[] = [
  { value: '0', label: 'both sawn' },
  { value: '1', label: 'one square' },
  { value: '2', label: 'both square' },
];
const HANDS: readonly Choice<Hand>[] = [
  { value: 'none', label: 'plain' },
  { value: 'left', label: 'left' },
  { value: 'right', label: 'right' },
];

export function SectionForm(props: Props) {
  const { form, answers, onAnswer, section, onSection, problems, unit } = props;
  const material = { answers, onChange: onAnswer, problems, unit };
  return (
    <>
      <MetalChoice {...material} listed={section_metals} />
      <KnownBy {...material} />
      {form === 'tube' && (
        <Choices
          legend="Round or square"
          name="square"
          choices={ROUND}
          value={section.square ? 'square' : 'round'}
          onChange={(value) => onSection({ square: value === 'square' })}
        />
      )}
      <Sides {...props} />
      <Thickness {...material} what="Wall" />
      <MeasuredOn {...material} />
      <Figure field="length" label="How long it is" hint="24, 18 1/2 or 600 mm" {...props} />
      <Choices
        legend="Its ends"
        name="ends"
        hint="Square is: square to its length, and dressed."
        choices={ENDS}
        columns={3}
        value={section.ends}
        onChange={(ends) => onSection({ ends })}
        problem={problems.ends}
      />
      <Choices
        legend="Hand"
        name="hand"
        hint="Left or right only where an end is worked: mitred, joggled, drilled."
        choices={HANDS}
        columns={3}
        value={section.hand}
        onChange={(hand) => onSection({ hand })}
      />
      <Drawing {...props} />
    </>
  );
}

const MEASURE_AT: Record<Form, string> = {
  angle: 'Each leg from its edge to the outside corner, as 1, 3/4 or 20 mm.',
  channel: 'Over the outside: across the back, and from the back to the edge of a flange.',
  tube: 'Over the outside, as 1/2, .75 or 20 mm.',
};

function Sides(props: Props) {
  const { form, section } = props;
  const [one = '', other] = sideNames(form, section.square);
  return (
    <fieldset class="choices">
      <legend>
        Its section
        <small>{MEASURE_AT[form]}</small>
      </legend>
      <div class="side-by-side">
        <Figure field="first" label={one} {...props} />
        {other && <Figure field="second" label={other} {...props} />}
      </div>
    </fieldset>
  );
}

function Figure(
  props: Props & { field: 'first' | 'second' | 'length'; label: string; hint?: string },
) {
  const { field, label, hint, section, onSection, problems, unit } = props;
  const read = readLength(section[field], unit);
  return (
    <Typed
      label={label}
      {...(hint ? { hint } : {})}
      name={`section-${field}`}
      value={section[field]}
      onInput={(text) => onSection({ [field]: text })}
      problem={problems[field]}
      read={'nm' in read ? otherUnit(read) : ''}
      last={field === 'length'}
    />
  );
}

/** Drawn as soon as there is enough to draw. */
function Drawing({ form, section, answers, unit }: Props) {
  const square = form === 'tube' && section.square;
  const typed = [section.first, section.second].slice(0, sidesOf(form, square));
  const sides = typed.map((text) => readLength(text, unit));
  const [length, wall] = [
    readLength(section.length, unit),
    readThickness(answers.thickness, unit, gauges),
  ];
  const known = sides.flatMap((side) => ('nm' in side ? [side.nm] : []));
  if (known.length < sides.length || !('nm' in length) || !('nm' in wall)) return null;
  return (
    <BarDrawing
      bar={{
        section: { form, square, sides: known, wall: wall.nm },
        length: length.nm,
        laid: null,
        letters: [],
        unit,
      }}
      reminder={false}
      words={`${form} ${typed.join(' by ')}, wall ${wall.text}, ${length.text} long`}
    />
  );
}
