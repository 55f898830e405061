// What is off at the corners of a sheet: cut straight across, or a square taken out.
import { Choices, Typed } from '../Choices.tsx';
import { changed, type TypedOff } from '../outline/answers.ts';
import { CORNERS, type Corner } from '../outline/plain.ts';
import type { ShapeProps } from './ShapeQuestion.tsx';

/** As they lie on the sheet. */
const LAID: readonly Corner[] = ['top left', 'top right', 'bottom left', 'bottom right'];

export function CornersForm({ shape, set, asked }: ShapeProps) {
  const { offs, way } = shape;
  const free = CORNERS.find((corner) => !offs.some((off) => off.corner === corner));
  const another = (): void => {
    if (free) set({ offs: [...offs, { corner: free, a: '', b: '' }] });
  };
  return (
    <>
      {offs.map((off, at) => (
        <fieldset class="sub-question" key={off.corner}>
          <legend>{way === 'ell' ? 'Taken out' : 'Off'} at a corner</legend>
          <OneCorner
            at={at}
            off={off}
            asked={asked}
            taken={offs.filter((other) => other !== off).map(({ corner }) => corner)}
            onChange={(change) => set({ offs: changed(offs, at, change) })}
          />
        </fieldset>
      ))}
      <div class="beside">
        {free && (
          <button type="button" onClick={another}>
            Another corner
          </button>
        )}
        {offs.length > 1 && (
          <button type="button" onClick={() => set({ offs: offs.slice(0, -1) })}>
            Undo the last corner
          </button>
        )}
      </div>
    </>
  );
}

function OneCorner(props: {
  at: number;
  off: TypedOff;
  asked: Record<string, string>;
  taken: Corner[];
  onChange: (change: Partial<TypedOff>) => void;
}) {
  const { at, off, asked, taken, onChange } = props;
  return (
    <>
      <Choices
        legend="Which corner, as it lies on the drawing"
        name={`off-${at}`}
        choices={LAID.filter((corner) => !taken.includes(corner)).map((corner) => ({
          value: corner,
          label: corner,
        }))}
        value={off.corner}
        onChange={(corner) => onChange({ corner })}
      />
      <div class="side-by-side">
        <Typed
          label="Along the first side"
          name={`off-${at}-a`}
          value={off.a}
          onInput={(a) => onChange({ a })}
          problem={asked[`off.${at}.a`]}
        />
        <Typed
          label="Along the second side"
          name={`off-${at}-b`}
          value={off.b}
          onInput={(b) => onChange({ b })}
          problem={asked[`off.${at}.b`]}
          last
        />
      </div>
    </>
  );
}
