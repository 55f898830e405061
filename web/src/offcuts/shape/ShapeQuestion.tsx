// What shape the piece has: two sides in most cases, and every other shape from what can be measured
// at the bench. The outline is drawn as it is typed.
import { useRef, useState } from 'preact/hooks';
import { syncState } from '../../shell/state.ts';
import { readLength, showLength, type Unit } from '../../twins/lengths.ts';
import { type Choice, Choices, Problem, Typed } from '../Choices.tsx';
import type { FormProps } from '../OffcutForm.tsx';
import { changed, type ShapeAnswers, type ShapeWay } from '../outline/answers.ts';
import type { Point } from '../outline/exact.ts';
import { type Traced, trace } from '../outline/reading.ts';
import { areaUm2, boundsOf } from '../outline/rings.ts';
import { otherUnit } from '../piece.ts';
import { ShapeDrawing } from '../ShapeDrawing.tsx';
import { SheetDrawing } from '../SheetDrawing.tsx';
import { areaText } from '../words.ts';
import { CornersForm } from './CornersForm.tsx';
import { FileForm } from './FileForm.tsx';
import { grainAngle } from './grain.ts';
import { KeepOutsForm } from './KeepOutsForm.tsx';
import { OffsetsForm } from './OffsetsForm.tsx';
import { ShapeSketch } from './ShapeSketch.tsx';
import { WalkForm } from './WalkForm.tsx';
import './shape.css';

export interface ShapeProps extends FormProps {
  shape: ShapeAnswers;
  set: (change: Partial<ShapeAnswers>) => void;
  /** the sentences that are shown by now, by the name of the answer */
  asked: Record<string, string>;
}

const WAYS: readonly (readonly [ShapeWay, string])[] = [
  ['two sides', 'two sides'],
  ['corner off', 'a corner off'],
  ['ell', 'L'],
  ['triangle', 'triangle'],
  ['walked', 'walk its sides'],
  ['offsets', 'corners from two edges'],
];

export function ShapeQuestion(props: FormProps) {
  const { answers, onChange, problems, unit } = props;
  const { shape } = answers;
  const [placing, setPlacing] = useState<number | null>(null);
  const drawing = useRef<HTMLDivElement>(null);
  const set = (change: Partial<ShapeAnswers>): void => onChange({ shape: { ...shape, ...change } });
  const traced = trace(answers, unit);
  const asked = problems.asked ?? {};
  const more = { ...props, shape, set, asked };
  const place = (at: Point): void => {
    if (placing === null) return;
    set({ keeps: changed(shape.keeps, placing, placeText(at, traced, unit)) });
    setPlacing(null);
  };
  const startPlacing = (at: number | null): void => {
    setPlacing(at);
    if (at !== null) drawing.current?.scrollIntoView({ block: 'center' });
  };
  return (
    <>
      <Choices
        legend="Shape"
        name="shape"
        columns={3}
        choices={choices(shape)}
        value={shape.way}
        onChange={(way) => set({ way })}
      />
      <Fields {...more} />
      <div ref={drawing}>
        {placing !== null && <p class="note">Tap the place on the drawing.</p>}
        <Drawn {...props} traced={traced} onPlace={placing === null ? undefined : place} />
        <Standing
          traced={traced}
          unit={unit}
          tried={Boolean(problems.faults || problems.asked)}
          plain={shape.way === 'two sides' && !shape.keeps.length}
        />
      </div>
      <KeepOutsForm {...more} placing={placing} onPlacing={startPlacing} open={traced.open} />
    </>
  );
}

function choices({ way, given }: ShapeAnswers): Choice<ShapeWay>[] {
  const all = WAYS.map(([value, words]) => choice(value, words));
  const words =
    given && given.entered.way !== 'dxf' ? 'left over from a cut' : 'a drawing file (DXF)';
  const online = navigator.onLine && syncState.value !== 'out of reach';
  return way === 'dxf' || given || online ? [...all, choice('dxf', words)] : all;
}

function choice(value: ShapeWay, words: string): Choice<ShapeWay> {
  const label = (
    <>
      <ShapeSketch way={value} />
      {words}
    </>
  );
  return { value, words, label };
}

function Fields(props: ShapeProps) {
  const { way } = props.shape;
  if (way === 'walked') return <WalkForm {...props} />;
  if (way === 'offsets') return <OffsetsForm {...props} />;
  if (way === 'dxf') return <FileForm {...props} />;
  return (
    <>
      <Sides {...props} />
      {(way === 'corner off' || way === 'ell') && <CornersForm {...props} />}
    </>
  );
}

const SIDE_HINTS: Partial<Record<ShapeWay, string>> = {
  'two sides': 'Of the sheet, or of the largest rectangle in it, as 12, 8 1/2 or 300 mm.',
  'corner off': 'Of the whole sheet, as if no corner were off.',
  ell: 'Of the whole sheet, as if nothing were taken out.',
  triangle: 'The first lies along the bottom, the second goes up from its right end.',
};

function Sides({ answers, onChange, problems, unit, shape, set, asked }: ShapeProps) {
  const side = (name: 'a' | 'b', label: string) => {
    const read = readLength(answers[name], unit);
    return (
      <Typed
        label={label}
        name={`side-${name}`}
        value={answers[name]}
        onInput={(text) => onChange({ [name]: text })}
        problem={problems[name]}
        read={'nm' in read ? otherUnit(read) : ''}
        last={name === 'b' && shape.way === 'two sides'}
      />
    );
  };
  const third = readLength(shape.c, unit);
  return (
    <fieldset class="choices">
      <legend>
        Its {shape.way === 'triangle' ? 'three' : 'two'} sides
        <small>{SIDE_HINTS[shape.way]}</small>
      </legend>
      <div class="side-by-side">
        {side('a', 'First side')}
        {side('b', 'Second side')}
        {shape.way === 'triangle' && (
          <Typed
            label="Third side"
            name="side-c"
            value={shape.c}
            onInput={(c) => set({ c })}
            problem={asked.c}
            read={'nm' in third ? otherUnit(third) : ''}
            last
          />
        )}
      </div>
    </fieldset>
  );
}

type DrawnProps = FormProps & {
  traced: Traced;
  onPlace: ((place: Point) => void) | undefined;
};

function Drawn({ answers, unit, traced, onPlace }: DrawnProps) {
  const { shape, grain } = answers;
  const [a, b] = [readLength(answers.a, unit), readLength(answers.b, unit)];
  if (shape.way === 'two sides' && !shape.keeps.length && grain !== 'angle') {
    if (!('nm' in a) || !('nm' in b)) return null;
    const words = `A sheet of ${a.text} by ${b.text}`;
    return <SheetDrawing a={a} b={b} grain={grain || 'unknown'} words={words} />;
  }
  const { sheet, open, keeps, texts, whole, faults } = traced;
  const words = `${open ? 'As far as it goes: ' : 'An outline of '}${sheet.length} corners, ${keeps.length} keep-outs`;
  return (
    <ShapeDrawing
      {...{ sheet, open, keeps, texts, whole, faults, words, onPlace }}
      unit={unitOfFile(shape) ?? unit}
      grain={grainAngle(grain, shape.lean)}
    />
  );
}

/** The unit of the file that it was read from. */
function unitOfFile({ way, given }: ShapeAnswers): Unit | null {
  const unit = way === 'dxf' ? given?.entered.texts.unit : null;
  return unit === 'mm' || unit === 'in' ? unit : null;
}

/** What is wrong with the outline, or how large it is. */
function Standing(props: { traced: Traced; unit: Unit; tried: boolean; plain: boolean }) {
  const { traced, unit, tried, plain } = props;
  const { faults, remarks, region } = traced;
  const unclosed = faults.some(({ code }) => code === 'open');
  return (
    <div aria-live="polite" data-wrong={tried && faults.length ? '' : undefined}>
      {faults.map(({ sentence }) =>
        unclosed && !tried ? (
          <p class="note" key={sentence}>
            {sentence}
          </p>
        ) : (
          <Problem key={sentence} text={sentence} />
        ),
      )}
      {remarks.map((remark) => (
        <p class="note" key={remark}>
          {remark}
        </p>
      ))}
      {region && !plain && <p class="metal-left">{areaText(areaUm2(region), unit)} of metal.</p>}
    </div>
  );
}

/** A place on the drawing as it is typed: from the left and the bottom, to what can be measured. */
function placeText([x, y]: Point, { sheet }: Traced, unit: Unit) {
  const { x0, y0 } = boundsOf(sheet);
  const step = unit === 'in' ? 3_175_000 : 1_000_000;
  const text = (nm: number): string => {
    const whole = Math.max(Math.round(nm / step) * step, 0);
    return whole ? showLength(whole, unit) : '0';
  };
  return { x: text(x - x0), fromX: 'left', y: text(y - y0), fromY: 'bottom' } as const;
}
