// Walking round a sheet: one side after the other, each with its length and the corner at its end.
import { useState } from 'preact/hooks';
import { readLength, type Unit } from '../../twins/lengths.ts';
import { type Choice, Choices, Problem, Typed } from '../Choices.tsx';
import {
  BLANK_SIDE,
  changed,
  isBlankSide,
  MOST_SIDES,
  type TypedSide,
} from '../outline/answers.ts';
import { distance, type Point } from '../outline/exact.ts';
import { trace } from '../outline/reading.ts';
import { otherUnit } from '../piece.ts';
import { measuredText } from '../words.ts';
import { useNewRow } from './focus.ts';
import type { ShapeProps } from './ShapeQuestion.tsx';

const CORNER_WORDS: Record<TypedSide['corner'], string> = {
  square: 'a square corner',
  inward: 'a square notch',
  out: 'a corner',
  in: 'a notch',
};
const CORNERS: readonly Choice<TypedSide['corner']>[] = [
  { value: 'square', label: 'square' },
  { value: 'inward', label: 'square, into the sheet' },
  { value: 'out', label: 'another angle' },
  { value: 'in', label: 'another angle, into the sheet' },
];
const CURVES: readonly Choice<'straight' | 'out' | 'in'>[] = [
  { value: 'straight', label: 'straight' },
  { value: 'out', label: 'bulges out' },
  { value: 'in', label: 'curves in' },
];

export function WalkForm(props: ShapeProps) {
  const { shape, set, asked } = props;
  const { sides, back } = shape;
  const [opened, setOpened] = useState<number | null>(null);
  const shown = opened ?? sides.length - 1;
  const change = (at: number, part: Partial<TypedSide>): void =>
    set({ sides: changed(sides, at, part) });
  const last = sides.at(-1) ?? BLANK_SIDE;
  const row = useNewRow<HTMLFieldSetElement>('-length');
  const next = (): void => {
    if (!isBlankSide(last)) set({ sides: [...sides, BLANK_SIDE], back: false });
    setOpened(null);
  };
  const undo = (): void => {
    // an empty row is not a side: the one before it is taken back with it
    const walked = isBlankSide(last) ? sides.slice(0, -2) : sides.slice(0, -1);
    set({ sides: [...walked, BLANK_SIDE], back: false });
    setOpened(null);
  };
  return (
    <fieldset class="choices walk" ref={row.within}>
      <legend>
        Walk its sides
        <small>
          Start with the side along the bottom, to the right, and go on round with the metal on your
          left. The last side ends where the first began.
        </small>
      </legend>
      {sides.map((side, at) =>
        at === shown ? (
          <OneSide
            key={at}
            at={at}
            side={side}
            unit={props.unit}
            asked={asked}
            onChange={(part) => change(at, part)}
          />
        ) : (
          <SideLine
            key={at}
            at={at}
            side={side}
            wrong={hasProblem(asked, at)}
            onOpen={() => row.go(() => setOpened(at))}
          />
        ),
      )}
      <div class="beside">
        {sides.length < MOST_SIDES && (
          <button
            type="button"
            onClick={() => row.go(next)}
            disabled={opened === null && isBlankSide(last)}
          >
            Next side
          </button>
        )}
        <button type="button" onClick={undo} disabled={sides.length < 2 && isBlankSide(last)}>
          Undo the last side
        </button>
      </div>
      <Back {...props} back={back} />
      <Problem text={asked['side.more']} />
    </fieldset>
  );
}

const hasProblem = (asked: Record<string, string>, at: number): boolean =>
  Object.keys(asked).some((name) => name.startsWith(`side.${at}.`));

/** A side that was walked, in one line; a tap opens it again. */
function SideLine(props: { at: number; side: TypedSide; wrong: boolean; onOpen: () => void }) {
  const { at, side, wrong, onOpen } = props;
  const angle = side.corner === 'out' || side.corner === 'in' ? ` of ${side.angle || '?'}°` : '';
  const curve = side.curve
    ? `, ${side.curve === 'out' ? 'bulges out' : 'curves in'} ${side.rise}`
    : '';
  return (
    <button type="button" class="side-line" onClick={onOpen} data-wrong={wrong ? '' : undefined}>
      <b>Side {at + 1}</b>
      <span>
        {side.length || 'no length yet'}
        {curve}, then {CORNER_WORDS[side.corner]}
        {angle}
      </span>
      <span class="change">{wrong ? 'look again' : 'change'}</span>
    </button>
  );
}

function OneSide(props: {
  at: number;
  side: TypedSide;
  unit: Unit;
  asked: Record<string, string>;
  onChange: (part: Partial<TypedSide>) => void;
}) {
  const { at, side, unit, asked, onChange } = props;
  const read = readLength(side.length, unit);
  const angled = side.corner === 'out' || side.corner === 'in';
  return (
    <fieldset class="sub-question">
      <legend>Side {at + 1}</legend>
      <Typed
        label="Length"
        hint={side.curve ? 'straight from end to end' : ''}
        name={`side-${at}-length`}
        value={side.length}
        onInput={(length) => onChange({ length })}
        problem={asked[`side.${at}.length`]}
        read={'nm' in read ? otherUnit(read) : ''}
        last
      />
      <Choices
        legend="The corner at its end"
        name={`corner-${at}`}
        choices={CORNERS}
        value={side.corner}
        onChange={(corner) => onChange({ corner })}
      />
      {angled && (
        <Typed
          label="Angle, degrees"
          hint={
            side.corner === 'out'
              ? 'of the metal at the corner: under 90 is a point, over 90 is blunt'
              : 'of the notch: what is cut into the metal'
          }
          name={`side-${at}-angle`}
          value={side.angle}
          onInput={(text) => onChange({ angle: text })}
          problem={asked[`side.${at}.angle`]}
          last
        />
      )}
      <details class="more" open={side.curve !== '' || undefined}>
        <summary>This side is curved</summary>
        <Choices
          legend="Between its ends it is"
          name={`curve-${at}`}
          columns={3}
          choices={CURVES}
          value={side.curve || 'straight'}
          onChange={(way) => onChange({ curve: way === 'straight' ? '' : way })}
        />
        {side.curve && (
          <Typed
            label="How far its middle stands off the straight"
            name={`side-${at}-rise`}
            value={side.rise}
            onInput={(rise) => onChange({ rise })}
            problem={asked[`side.${at}.rise`]}
            last
          />
        )}
      </details>
    </fieldset>
  );
}

/** The last side need not be measured: it runs back to where the first began. */
function Back({ answers, unit, shape, set, back }: ShapeProps & { back: boolean }) {
  const { sheet, open } = trace({ ...answers, shape: { ...shape, back: false } }, unit);
  const walked = shape.sides.filter((side) => !isBlankSide(side)).length;
  if (back)
    return (
      <button type="button" aria-pressed={true} onClick={() => set({ back: false })}>
        Straight back to the start. Tap to go on walking
      </button>
    );
  if (!open || walked < 2 || sheet.length <= walked) return null;
  const gap = Math.round(distance(sheet[0] as Point, sheet.at(-1) as Point));
  const blank = isBlankSide(shape.sides.at(-1) ?? BLANK_SIDE);
  const close = (): void =>
    set({ back: true, sides: blank ? shape.sides.slice(0, -1) : shape.sides });
  return (
    <button type="button" onClick={close}>
      Straight back to the start: {measuredText(gap, unit).replaceAll(' ', '\u00a0')}
    </button>
  );
}
