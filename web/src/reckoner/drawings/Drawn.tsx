// One drawing on the screen: scribed lines on layout dye. It is laid out anew for the room it has,
// so that its figures keep their size.
import { useId, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { type Picture, type Point, USUAL_WIDTH } from './picture.ts';
import './drawings.css';

const NARROWEST = 288;
const WIDEST = 520;

interface Props {
  /** lays the drawing out for this width, px */
  draw: (width: number) => Picture;
  /** what it shows, in words with every figure */
  words: string;
}

export function Drawn({ draw, words }: Props) {
  const frame = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(USUAL_WIDTH);
  const hatch = useId();
  useLayoutEffect(() => {
    const measure = (): void => {
      const room = frame.current?.clientWidth ?? 0;
      if (room > 0) setWidth(Math.min(Math.max(Math.floor(room), NARROWEST), WIDEST));
    };
    measure();
    if (!frame.current || typeof ResizeObserver === 'undefined') return;
    const watch = new ResizeObserver(measure);
    watch.observe(frame.current);
    return () => watch.disconnect();
  }, []);
  const picture = draw(width);
  return (
    <div class="drawn" ref={frame}>
      <svg viewBox={`0 0 ${picture.width} ${picture.height}`} role="img" aria-label={words}>
        <pattern
          id={hatch}
          width="6"
          height="6"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <line x1="0" y1="0" x2="0" y2="6" class="hatching" />
        </pattern>
        <Marks picture={picture} hatch={`url(#${hatch})`} />
      </svg>
    </div>
  );
}

function Marks({ picture, hatch }: { picture: Picture; hatch: string }) {
  const { solids, strokes, circles, figures } = picture;
  return (
    <>
      {solids.map(({ look, points }, at) => (
        <path
          key={at}
          class={look}
          d={pathOf(points, true)}
          {...(look === 'new' ? { fill: hatch } : {})}
        />
      ))}
      {strokes.map(({ look, points }, at) => (
        <path key={at} class={`line ${look}`} d={pathOf(points, false)} />
      ))}
      {circles.map(({ x, y, radius, look }, at) => (
        <circle
          key={at}
          class={`ring ${look}`}
          cx={x}
          cy={y}
          r={radius}
          {...(look === 'rivet' ? { fill: hatch } : {})}
        />
      ))}
      {figures.map(({ x, y, text, hold, turned, bold }, at) => (
        <text
          key={at}
          class={`${hold}${bold ? ' bold' : ''}`}
          x={x}
          y={y}
          dy="6"
          {...(turned ? { transform: `rotate(-90 ${x} ${y})` } : {})}
        >
          {text}
        </text>
      ))}
    </>
  );
}

function pathOf(points: readonly Point[], closed: boolean): string {
  const at = (nm: number): string => `${Math.round(nm * 100) / 100}`;
  return `M${points.map(([x, y]) => `${at(x)} ${at(y)}`).join('L')}${closed ? 'Z' : ''}`;
}
