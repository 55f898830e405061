// The cut to make in an odd outline: to scale on the dye ground, dimensioned, with its grain.

import { useId } from 'preact/hooks';
import type { Point } from '../twins/fit.ts';
import { textWidth } from './drawing.ts';
import { Hatch } from './Hatch.tsx';
import { type CutShape, layOutOutline, type OutlineLayout } from './outlining.ts';
import { DimensionLine, Grain, REMINDER } from './SheetDrawing.tsx';
import type { Offcut, Outline } from './wanted.ts';
import { MARKING_OUT } from './words.ts';
import './drawing.css';

interface Props {
  shape: Outline;
  grain: Offcut['grain'];
  cut: CutShape & { blank: string; staysText: string };
  show: (nm: number) => string;
  whole: (nm: number) => string;
  /** what the drawing says, for those who do not see it */
  words: string;
}

export function OddCutDrawing({ shape, grain, cut, show, whole, words }: Props) {
  const { outer, holes } = shape;
  const layout = layOutOutline({ outer, holes, grain, show, whole, cut });
  const { x, y, width, height } = layout.sheet;
  const low = y + height;
  return (
    <figure class="sheet-drawing">
      <svg viewBox={`0 0 ${layout.width} ${layout.height}`} role="img" aria-label={words}>
        <path class="datum" d={`M${x} ${y}V${low}M${x} ${low}H${x + width}`} />
        <Metal layout={layout} />
        {layout.dimensions.map((line) => (
          <DimensionLine key={`${line.side}${line.at}${line.from}`} line={line} />
        ))}
        <Grain grain={grain} layout={layout} unknown="grain not known" />
        <Notes layout={layout} cut={cut} />
      </svg>
      <figcaption>
        Measured from the left and the lower end of the metal. {MARKING_OUT} (Common practice.){' '}
        {REMINDER}
      </figcaption>
    </figure>
  );
}

function Metal({ layout }: { layout: OutlineLayout }) {
  const [hatch, within] = [useId(), useId()];
  const { path, stays } = layout;
  return (
    <>
      <Hatch id={hatch} />
      <clipPath id={within}>
        <path d={path} clip-rule="evenodd" />
      </clipPath>
      <rect {...layout.sheet} fill={`url(#${hatch})`} clip-path={`url(#${within})`} />
      {stays && <polygon points={stays.join(' ')} class="stays" />}
      {layout.cut && <polygon points={layout.cut.join(' ')} class="cut" />}
      <path class="sheet" d={path} />
    </>
  );
}

/** What is written on the metal, over the lines that lead to the figures. */
function Notes({ layout, cut }: { layout: OutlineLayout; cut: Props['cut'] }) {
  const { stays } = layout;
  return (
    <>
      {stays && <Along ring={stays} text={`stays ${cut.staysText}`} />}
      {layout.cut && <Along ring={layout.cut} text={cut.upright ? 'cut' : cut.blank} />}
      {layout.marks.map(({ at: [x, y], letter }) => (
        <text key={letter} x={x} y={y} dy="5" class="note-text clear">
          {letter}
        </text>
      ))}
    </>
  );
}

/** A text in a drawn rectangle, along its longer side, where it has room. */
function Along({ ring, text }: { ring: readonly Point[]; text: string }) {
  const [a, b, c] = ring;
  if (!a || !b || !c) return null;
  const one = [b[0] - a[0], b[1] - a[1]] as const;
  const other = [c[0] - b[0], c[1] - b[1]] as const;
  const sides = [Math.hypot(...one), Math.hypot(...other)] as const;
  const [long, across] = sides[0] >= sides[1] ? sides : [sides[1], sides[0]];
  if (long < textWidth(text) + 8 || across < 20) return null;
  const [dx, dy] = sides[0] >= sides[1] ? one : other;
  let turned = (Math.atan2(dy, dx) * 180) / Math.PI;
  // never upside down
  if (turned > 89) turned -= 180;
  else if (turned < -91) turned += 180;
  const [x, y] = [(a[0] + c[0]) / 2, (a[1] + c[1]) / 2];
  return (
    <text x={x} y={y} dy="5" transform={`rotate(${turned} ${x} ${y})`} class="note-text clear">
      {text}
    </text>
  );
}
