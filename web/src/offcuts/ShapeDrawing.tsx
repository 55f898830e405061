// An outline drawn as on a shop drawing: scribed lines on dye, figures at its sides, keep-outs
// hatched, and what is wrong with it marked at its place.

import { useId } from 'preact/hooks';
import { Hatch } from './Hatch.tsx';
import type { Point } from './outline/exact.ts';
import { LABEL, type Picture, picture, type ToDraw } from './outline/layout.ts';
import { arrow, DimensionLine, Grain, REMINDER } from './SheetDrawing.tsx';
import { MARKING_OUT } from './words.ts';
import './drawing.css';
import './outline.css';

interface Props extends ToDraw {
  /** what the drawing says, for those who do not see it */
  words: string;
  /** what stands where the grain is shown while it is not known */
  unknown?: string;
  /** a place on the sheet was tapped, nm from the corner of the frame */
  onPlace?: ((place: Point) => void) | undefined;
}

export function ShapeDrawing({ words, unknown = 'grain not known', onPlace, ...draw }: Props) {
  if (draw.sheet.length < 2) return null;
  const made = picture(draw);
  const place = (event: PointerEvent): void => {
    const svg = event.currentTarget as SVGSVGElement;
    const { left, top, width } = svg.getBoundingClientRect();
    const scale = made.width / width;
    onPlace?.(made.placeAt((event.clientX - left) * scale, (event.clientY - top) * scale));
  };
  return (
    <figure class="sheet-drawing outline-drawing">
      {/* a place can be typed as well: tapping is a short cut for those who see the drawing */}
      <svg
        viewBox={`0 0 ${made.width} ${made.height}`}
        role="img"
        aria-label={words}
        class={onPlace ? 'placing' : undefined}
        onPointerUp={onPlace ? place : undefined}
      >
        <Lines made={made} />
        {made.dimensions.map((line) => (
          <DimensionLine key={`${line.side}${line.at}`} line={line} />
        ))}
        {made.labels.map(({ x, y, turned, text }) => (
          <text
            key={`${x} ${y}`}
            x={x}
            y={y + LABEL * 0.36}
            transform={`rotate(${turned} ${x} ${y})`}
            class="side-text"
          >
            {text}
          </text>
        ))}
        <GrainMark made={made} unknown={unknown} />
        {made.marks.map(([x, y]) => (
          <g key={`${x} ${y}`} class="fault-mark">
            <circle cx={x} cy={y} r="13" />
            <path
              d={`M${x - 20} ${y}H${x - 8}M${x + 8} ${y}H${x + 20}M${x} ${y - 20}V${y - 8}M${x} ${y + 8}V${y + 20}`}
            />
          </g>
        ))}
      </svg>
      <figcaption>
        {MARKING_OUT} (Common practice.) {REMINDER}
      </figcaption>
    </figure>
  );
}

function Lines({ made }: { made: Picture }) {
  const hatch = useId();
  return (
    <>
      <Hatch id={hatch} />
      <path d={made.sheet} class="sheet" />
      {made.keeps.map((points) => (
        <polygon key={points} points={points} class="keep-out" fill={`url(#${hatch})`} />
      ))}
      {made.wrong && <path d={made.wrong} class="wrong" />}
    </>
  );
}

function GrainMark({ made, unknown }: { made: Picture; unknown: string }) {
  const { grain, box, width } = made;
  if (grain.sort !== 'leaning')
    return <Grain grain={grain.sort} layout={{ sheet: box, width }} unknown={unknown} />;
  const [from, to] = [grain.from, grain.to];
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const turned = (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
  return (
    <g class="grain">
      <g transform={`translate(${from[0]} ${from[1]}) rotate(${turned})`}>
        <path d={`M0 0H${long}`} />
        <path class="head" d={arrow(0, 0, 1, 0) + arrow(long, 0, -1, 0)} />
      </g>
      <text x={100} y={(from[1] + to[1]) / 2 + 5} class="beside">
        {grain.words}
      </text>
    </g>
  );
}
