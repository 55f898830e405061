// A sheet to scale on the dye ground, dimensioned, with its grain and the cut to make.

import { useId } from 'preact/hooks';
import type { Placement } from '../twins/fit.ts';
import { type Dimension, kept, type Layout, layOut, textWidth } from './drawing.ts';
import { Hatch } from './Hatch.tsx';
import type { Measure, Offcut } from './wanted.ts';
import { MARKING_OUT } from './words.ts';
import './drawing.css';

export const REMINDER = 'A reminder, not approval: the kit maker’s plans come first.';

export interface Cut {
  placement: Placement;
  show: (nm: number) => string;
  /** the blank in words, "4 × 3 in" */
  blank: string;
  /** what stays in words, "8 × 6 in"; empty where nothing of use does */
  stays: string;
}
interface Props {
  a: Measure;
  b: Measure;
  grain: Offcut['grain'];
  cut?: Cut;
  /** what the drawing says, for those who do not see it */
  words: string;
  /** what stands where the grain is shown and is along neither side */
  unknown?: string;
}

export function SheetDrawing({ a, b, grain, cut, words, unknown = 'grain not known' }: Props) {
  const layout = layOut({ a, b, grain, ...(cut ? { cut } : {}) });
  return (
    <figure class="sheet-drawing">
      <svg viewBox={`0 0 ${layout.width} ${layout.height}`} role="img" aria-label={words}>
        <Sheet layout={layout} cut={cut} />
        {layout.dimensions.map((line) => (
          <DimensionLine key={`${line.side}${line.at}`} line={line} />
        ))}
        <Grain grain={grain} layout={layout} unknown={unknown} />
      </svg>
      <figcaption>
        {MARKING_OUT} (Common practice.) {REMINDER}
      </figcaption>
    </figure>
  );
}

function Sheet({ layout, cut }: { layout: Layout; cut: Cut | undefined }) {
  const hatch = useId();
  const { sheet, left } = layout;
  const points = layout.cut?.map(([x, y]) => `${x},${y}`).join(' ');
  return (
    <>
      <Hatch id={hatch} />
      {points && <rect {...sheet} fill={`url(#${hatch})`} />}
      {left && <rect {...left} class="stays" />}
      {points && <polygon points={points} class="cut" />}
      <rect {...sheet} class="sheet" />
      {cut && left && <Note box={left} text={`stays ${cut.stays}`} />}
      {cut && layout.cut && <CutNote layout={layout} cut={cut} />}
    </>
  );
}

/** A text in a box, along its longer side, where it has room. */
function Note({
  box,
  text,
}: {
  box: { x: number; y: number; width: number; height: number };
  text: string;
}) {
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const wide = textWidth(text) + 8;
  if (box.width >= wide && box.height >= 20)
    return (
      <text x={x} y={y + 5} class="note-text">
        {text}
      </text>
    );
  if (box.height < wide || box.width < 20) return null;
  return (
    <text x={x} y={y} transform={`rotate(-90 ${x} ${y})`} dy="5" class="note-text">
      {text}
    </text>
  );
}

function CutNote({ layout, cut }: { layout: Layout; cut: Cut }) {
  const corners = layout.cut ?? [];
  const [x0, x1] = [Math.min(...corners.map(([x]) => x)), Math.max(...corners.map(([x]) => x))];
  const [y0, y1] = [Math.min(...corners.map(([, y]) => y)), Math.max(...corners.map(([, y]) => y))];
  if (cut.placement.laid !== 'askew')
    return <Note box={{ x: x0, y: y0, width: x1 - x0, height: y1 - y0 }} text="cut" />;
  const [first, second, third] = corners;
  if (!first || !second || !third) return null;
  const long = Math.hypot(second[0] - first[0], second[1] - first[1]);
  const turned = (Math.atan2(second[1] - first[1], second[0] - first[0]) * 180) / Math.PI;
  const [x, y] = [(x0 + x1) / 2, (y0 + y1) / 2];
  const across = Math.hypot(third[0] - second[0], third[1] - second[1]);
  if (long < textWidth(cut.blank) || across < 18) return null;
  return (
    <text x={x} y={y} dy="5" transform={`rotate(${turned} ${x} ${y})`} class="note-text">
      {cut.blank}
    </text>
  );
}

export function DimensionLine({ line }: { line: Dimension }) {
  const { from, to, at, starts, text, middle } = line;
  const [low, high] = [Math.min(from, to), Math.max(from, to)];
  const flat = line.side === 'below';
  const over = flat ? 3 : -3;
  const witness = flat
    ? `M${from} ${starts[0] + over}V${at + over}M${to} ${starts[1] + over}V${at + over}`
    : `M${starts[0] + over} ${from}H${at + over}M${starts[1] + over} ${to}H${at + over}`;
  // a line too short for its figure is drawn on to it, and its arrowheads stand outside
  const short = middle < low || middle > high;
  const ends = short ? [Math.min(low - 12, middle), Math.max(high + 12, middle)] : [low, high];
  const run = flat ? `M${ends[0]} ${at}H${ends[1]}` : `M${at} ${ends[0]}V${ends[1]}`;
  const [tip, tail] = short ? [-1, 1] : [1, -1];
  const heads = flat
    ? arrow(low, at, tip, 0) + arrow(high, at, tail, 0)
    : arrow(at, low, 0, tip) + arrow(at, high, 0, tail);
  return (
    <g class="dimension">
      <path d={witness + run} />
      <path d={heads} class="head" />
      <FigureText text={text} flat={flat} at={at} middle={middle} />
    </g>
  );
}

export function FigureText(props: { text: string; flat: boolean; at: number; middle: number }) {
  const { text, flat, at, middle } = props;
  const half = textWidth(text) / 2 + 2;
  // the figure stands in the line, which gives way to it
  return flat ? (
    <>
      <rect x={middle - half} y={at - 9} width={half * 2} height="18" class="gap" />
      <text x={middle} y={at + 5}>
        {text}
      </text>
    </>
  ) : (
    <g transform={`rotate(-90 ${at} ${middle})`}>
      <rect x={at - half} y={middle - 9} width={half * 2} height="18" class="gap" />
      <text x={at} y={middle + 5}>
        {text}
      </text>
    </g>
  );
}

/** A closed arrowhead with its tip at (x, y), its tail towards (dx, dy). */
export function arrow(x: number, y: number, dx: number, dy: number): string {
  const [length, half] = [9, 2.6];
  const [bx, by] = [x + dx * length, y + dy * length];
  return `M${x} ${y}L${bx + dy * half} ${by + dx * half}L${bx - dy * half} ${by - dx * half}Z`;
}

interface GrainProps {
  grain: Offcut['grain'];
  layout: Pick<Layout, 'sheet' | 'width'>;
  unknown: string;
}

export function Grain({ grain, layout, unknown }: GrainProps) {
  const { x, y, width, height } = layout.sheet;
  if (grain === 'b') {
    const [at, middle] = [x + width + 15, y + height / 2];
    const half = Math.max(Math.min(height / 2 - 4, 60), 34);
    return (
      <g class="grain">
        <path d={`M${at} ${middle - half}V${middle + half}`} />
        <path class="head" d={arrow(at, middle - half, 0, 1) + arrow(at, middle + half, 0, -1)} />
        <FigureText text="grain" flat={false} at={at} middle={middle} />
      </g>
    );
  }
  const [at, middle] = [y - 13, x + width / 2];
  const half = Math.max(Math.min(width / 2 - 4, 60), 34);
  return (
    <g class="grain">
      {grain === 'a' && (
        <>
          <path d={`M${middle - half} ${at}H${middle + half}`} />
          <path class="head" d={arrow(middle - half, at, 1, 0) + arrow(middle + half, at, -1, 0)} />
        </>
      )}
      <FigureText
        text={grain === 'a' ? 'grain' : unknown}
        flat={true}
        at={at}
        middle={kept(middle, textWidth(unknown), layout.width)}
      />
    </g>
  );
}
