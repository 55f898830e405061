// The step strip: one small rivet in side section per operation, on a line of two sheets.
import { OPERATIONS } from '../twins/marks.ts';
import { CELL, type Drawn, drawMark, drawStrip } from './drawing.ts';
import './strip.css';
import { stripWords, type View } from './words.ts';

function Drawing({ drawn }: { drawn: Drawn }) {
  return (
    <>
      <path class="sheets" d={drawn.sheets} />
      {drawn.centre && <path class="centre" d={drawn.centre} />}
      {drawn.thin && <path class="thin" d={drawn.thin} />}
      {drawn.heavy && <path class="heavy" d={drawn.heavy} />}
      {drawn.solid && <path class="solid" d={drawn.solid} />}
    </>
  );
}

// Compact, for lists: one picture, with what it shows as its name.
export function SmallStrip({ strip, about }: { strip: string; about?: string }) {
  if (!strip) return null;
  const name = [about, stripWords(strip)].filter(Boolean).join('. ');
  const at = (index: number): number => index * CELL + CELL / 2;
  const asked = [...strip].map((letter, index) => (letter === 'l' ? at(index) : -1));
  return (
    <svg class="small-strip" viewBox={`0 0 ${strip.length * CELL} 96`} role="img" aria-label={name}>
      <Drawing drawn={drawStrip(strip)} />
      {asked.map((x) =>
        x < 0 ? null : <text class="asked" x={x + 20} y={22} key={x} children="?" />,
      )}
      {OPERATIONS.map((row, index) => (
        <text x={at(index)} y={90} key={row.op}>
          {row.letter}
        </text>
      ))}
    </svg>
  );
}

interface LargeProps {
  views: View[];
  chosen: string[]; // the operations that the main button speaks of
  onChoose: (op: string) => void;
  about?: string;
}

// Large, for the screen of a part: every rivet can be tapped to choose its operation.
export function StepStrip({ views, chosen, onChoose, about }: LargeProps) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset draws a border that is not wanted here
    <div
      class={`strip${views.length < 6 ? ' few' : ''}`}
      role="group"
      aria-label={about ? `Steps, ${about}` : 'Steps'}
    >
      {views.map(({ row, letter, beneath, words }) => (
        <button
          type="button"
          key={row.op}
          aria-pressed={chosen.includes(row.op)}
          title={row.name}
          onClick={() => onChoose(row.op)}
        >
          <span class="out-of-sight">{words}</span>
          <svg viewBox={`0 0 ${CELL} 104`} aria-hidden="true">
            <Drawing drawn={drawMark(letter)} />
            {beneath && beneath !== '–' && (
              <text class="count-beneath" x={CELL / 2} y={74}>
                {beneath}
              </text>
            )}
            <text class="letter" x={CELL / 2} y={98}>
              {row.letter}
            </text>
          </svg>
        </button>
      ))}
    </div>
  );
}
