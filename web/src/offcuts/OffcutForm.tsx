// The questions about an offcut, for entering one and for putting right what stands.

import { gauges } from '../generated/gauges.json';
import { metals } from '../generated/materials.json';
import { gaugeOf, type Length, readThickness, type Unit } from '../twins/lengths.ts';
import { type Choice, Choices, Problem, Typed } from './Choices.tsx';
import type { Answers, Problems } from './draft.ts';
import { GrainChoice } from './GrainChoice.tsx';
import { KnownBy, MeasuredOn } from './MaterialQuestions.tsx';
import { MetalChoice } from './MetalChoice.tsx';
import { otherUnit } from './piece.ts';
import { ShapeQuestion } from './shape/ShapeQuestion.tsx';
import type { Offcut } from './wanted.ts';

export interface FormProps {
  answers: Answers;
  onChange: (change: Partial<Answers>) => void;
  problems: Problems;
  unit: Unit;
}

const CLAD: readonly Choice<Offcut['clad']>[] = [
  { value: 'clad', label: 'clad' },
  { value: 'bare', label: 'bare' },
  { value: 'unknown', label: 'not known' },
];

export function OffcutForm(props: FormProps) {
  const { answers, onChange, problems } = props;
  return (
    <>
      <MetalChoice {...props} />
      {answers.metal !== 'unknown' && !onlyCladding(answers) && (
        <Choices
          legend="Clad or bare"
          name="clad"
          choices={CLAD}
          columns={3}
          value={answers.clad}
          onChange={(clad) => onChange({ clad })}
          problem={problems.clad}
        />
      )}
      <KnownBy {...props} />
      <Thickness {...props} />
      <MeasuredOn {...props} />
      <ShapeQuestion {...props} />
      <GrainChoice {...props} />
    </>
  );
}

/** The one cladding that a metal is rolled in, where it is one only. */
export function onlyCladding({ metal, alloy, temper }: Answers): 'clad' | 'bare' | null {
  if (metal !== 'listed') return null;
  const listed = metals.find((one) => one.alloy === alloy && one.temper === temper);
  const [only, ...others] = listed?.claddings ?? [];
  return only && !others.length ? (only as 'clad' | 'bare') : null;
}

const KEYS_UP_TO_NM = 3_300_000; // thicker sheet is rare at the bench, and can be typed

/** `what` is thick: the sheet, or the wall of a section. */
export function Thickness(props: FormProps & { what?: string }) {
  const { answers, onChange, problems, unit, what = 'Thickness' } = props;
  const keys = gauges
    .filter((gauge) => gauge.text.endsWith(unit) && gauge.nm <= KEYS_UP_TO_NM)
    .map((gauge) => ({ value: gauge.text, label: gauge.text.replace(` ${unit}`, '') }));
  const read = readThickness(answers.thickness, unit, gauges);
  const asks = 'mm' in read ? read : null;
  return (
    <>
      <Choices
        legend={`${what}, ${unit}`}
        name="gauge"
        choices={keys}
        columns={6}
        value={answers.thickness}
        onChange={(thickness) => onChange({ thickness })}
      />
      <Typed
        label="or type it"
        hint=".032, 1/32 or 0.8 mm"
        name="thickness"
        value={answers.thickness}
        onInput={(thickness) => onChange({ thickness })}
        problem={asks ? undefined : problems.thickness}
        read={'nm' in read ? readAs(read) : ''}
      />
      {asks && (
        <div class="field which-unit" data-wrong={problems.thickness ? '' : undefined}>
          <Problem text={asks.sentence} />
          <div class="choice-grid columns-2">
            {[asks.inch, asks.mm].map(({ text }) => (
              <button type="button" key={text} onClick={() => onChange({ thickness: text })}>
                {text}
              </button>
            ))}
          </div>
        </div>
      )}
    </>
  );
}

function readAs(read: Length): string {
  const gauge = gaugeOf(read.nm, gauges);
  const same = `That is ${otherUnit(read)}`;
  if (!gauge) return `${same}, not a listed sheet thickness. Measure again to be sure.`;
  return gauge.nm === read.nm ? `${same}.` : `${same}, near ${gauge.text}.`;
}
