// Which way the grain runs, picked from drawings of this very sheet.
import { readLength } from '../twins/lengths.ts';
import { Choices } from './Choices.tsx';
import type { FormProps } from './OffcutForm.tsx';
import type { Offcut } from './wanted.ts';
import './grain.css';

const [ROOM_X, ROOM_Y] = [96, 64];

export function GrainChoice({ answers, onChange, problems, unit }: FormProps) {
  const [a, b] = [readLength(answers.a, unit), readLength(answers.b, unit)];
  const [x, y] = 'nm' in a && 'nm' in b ? [a.nm, b.nm] : [3, 2];
  // a long strip is drawn a little shorter than it is, so that its lines can be told apart
  const ratio = Math.min(Math.max(x / y, 1 / 3), 3);
  const side = (name: 'a' | 'b', word: string): string =>
    answers[name].trim() ? `along the ${answers[name].trim()} side` : `along the ${word} side`;
  const choice = (value: Offcut['grain'], words: string) => ({
    value,
    words: `grain ${words}`,
    label: (
      <>
        <GrainSketch grain={value} ratio={ratio} />
        {words}
      </>
    ),
  });
  return (
    <Choices
      legend="Grain"
      hint="Which drawing looks like your sheet? The first side lies along the bottom."
      name="grain"
      columns={3}
      choices={[
        choice('a', side('a', 'first')),
        choice('b', side('b', 'second')),
        choice('unknown', 'not known'),
      ]}
      value={answers.grain}
      onChange={(grain) => onChange({ grain })}
      problem={problems.grain}
    />
  );
}

export function GrainSketch({ grain, ratio }: { grain: Offcut['grain']; ratio: number }) {
  const height = Math.min(ROOM_Y - 8, (ROOM_X - 8) / ratio);
  const width = height * ratio;
  const [left, top] = [(ROOM_X - width) / 2, (ROOM_Y - height) / 2];
  const lines: string[] = [];
  const across = grain === 'a' ? height : width;
  for (let at = 6; grain !== 'unknown' && at < across - 3; at += 7)
    lines.push(
      grain === 'a'
        ? `M${left + 4} ${top + at}h${width - 8}`
        : `M${left + at} ${top + 4}v${height - 8}`,
    );
  return (
    <svg class="grain-sketch" viewBox={`0 0 ${ROOM_X} ${ROOM_Y}`} aria-hidden="true">
      <rect x={left} y={top} width={width} height={height} />
      <path d={lines.join('')} />
      {grain === 'unknown' && (
        <text x={ROOM_X / 2} y={ROOM_Y / 2 + 8}>
          ?
        </text>
      )}
    </svg>
  );
}
