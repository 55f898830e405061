// Which way the grain runs, picked from drawings of this very sheet.
import { useId } from 'preact/hooks';
import { readLength } from '../twins/lengths.ts';
import { Choices, Typed } from './Choices.tsx';
import type { Answers } from './draft.ts';
import type { FormProps } from './OffcutForm.tsx';
import { trace } from './outline/reading.ts';
import { boundsOf, type Ring } from './outline/rings.ts';
import type { Offcut } from './wanted.ts';
import './grain.css';

const [ROOM_X, ROOM_Y] = [96, 64];
type Way = Exclude<Answers['grain'], ''>;

export function GrainChoice({ answers, onChange, problems, unit }: FormProps) {
  const { shape } = answers;
  const [a, b] = [readLength(answers.a, unit), readLength(answers.b, unit)];
  const [x, y] = 'nm' in a && 'nm' in b ? [a.nm, b.nm] : [3, 2];
  // a long strip is drawn a little shorter than it is, so that its lines can be told apart
  const ratio = Math.min(Math.max(x / y, 1 / 3), 3);
  const plain = shape.way === 'two sides';
  // told by its corners, it has no first side along the bottom
  const drawn = shape.way === 'offsets' || shape.way === 'dxf';
  const traced = plain ? null : trace(answers, unit);
  const ring = traced && !traced.open && traced.sheet.length > 2 ? traced.sheet : null;
  const side = (name: 'a' | 'b', word: string): string =>
    plain && answers[name].trim()
      ? `along the ${answers[name].trim()} side`
      : `along the ${word} side`;
  const choice = (value: Way, words: string) => ({
    value,
    words: `grain ${words}`,
    label: (
      <>
        <GrainSketch grain={value} ratio={ratio} ring={ring} />
        {words}
      </>
    ),
  });
  return (
    <>
      <Choices
        legend="Grain"
        hint={`Which drawing looks like your sheet?${drawn ? '' : ' The first side lies along the bottom.'}`}
        name="grain"
        columns={2}
        choices={[
          choice('a', drawn ? 'along the bottom' : side('a', 'first')),
          choice('b', plain ? side('b', 'second') : drawn ? 'up' : 'across the first side'),
          choice('angle', 'at an angle'),
          choice('unknown', 'not known'),
        ]}
        value={answers.grain}
        onChange={(grain) => onChange({ grain })}
        problem={problems.grain}
      />
      {answers.grain === 'angle' && (
        <Typed
          label={`Its angle to the ${drawn ? 'bottom' : 'first side'}, degrees`}
          hint="30 leans to the right, 150 to the left: as the drawing above shows"
          name="lean"
          value={shape.lean}
          onInput={(lean) => onChange({ shape: { ...shape, lean } })}
          problem={problems.asked?.lean}
          last
        />
      )}
    </>
  );
}

interface SketchProps {
  grain: Offcut['grain'] | 'angle';
  ratio: number;
  /** the corners of a sheet that is no rectangle */
  ring?: Ring | null;
}

export function GrainSketch({ grain, ratio, ring }: SketchProps) {
  const within = useId();
  const height = Math.min(ROOM_Y - 8, (ROOM_X - 8) / ratio);
  const width = height * ratio;
  const [left, top] = [(ROOM_X - width) / 2, (ROOM_Y - height) / 2];
  const points = ring
    ? fitted(ring)
    : `${left},${top} ${left + width},${top} ${left + width},${top + height} ${left},${top + height}`;
  return (
    <svg class="grain-sketch" viewBox={`0 0 ${ROOM_X} ${ROOM_Y}`} aria-hidden="true">
      <clipPath id={within}>
        <polygon points={points} />
      </clipPath>
      <polygon points={points} />
      <path d={LINES[grain]} clip-path={`url(#${within})`} />
      {grain === 'unknown' && (
        <text x={ROOM_X / 2} y={ROOM_Y / 2 + 8}>
          ?
        </text>
      )}
    </svg>
  );
}

/** The ring as large as the sketch has room for. */
function fitted(ring: Ring): string {
  const { x0, y0, x1, y1 } = boundsOf(ring);
  const scale = Math.min((ROOM_X - 8) / (x1 - x0), (ROOM_Y - 8) / (y1 - y0));
  const [left, low] = [(ROOM_X - (x1 - x0) * scale) / 2, ROOM_Y - (ROOM_Y - (y1 - y0) * scale) / 2];
  return ring
    .map(
      ([x, y]) => `${(left + (x - x0) * scale).toFixed(1)},${(low - (y - y0) * scale).toFixed(1)}`,
    )
    .join(' ');
}

const STEP = 7;
const every = (from: number, to: number, line: (at: number) => string): string => {
  let lines = '';
  for (let at = from; at < to; at += STEP) lines += line(at);
  return lines;
};
const LINES: Record<SketchProps['grain'], string> = {
  a: every(5, ROOM_Y, (at) => `M0 ${at}H${ROOM_X}`),
  b: every(5, ROOM_X, (at) => `M${at} 0V${ROOM_Y}`),
  angle: every(-ROOM_Y, ROOM_X, (at) => `M${at} ${ROOM_Y}l${2 * ROOM_Y} ${-ROOM_Y * 1.2}`),
  unknown: '',
};
