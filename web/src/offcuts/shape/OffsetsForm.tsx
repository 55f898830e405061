// The corners of a sheet by how far each is from two straight edges, one along its left and one
// along its bottom.
import { Problem, Typed } from '../Choices.tsx';
import { BLANK_POINT, changed, isBlankPoint, MOST_SIDES } from '../outline/answers.ts';
import { useNewRow } from './focus.ts';
import type { ShapeProps } from './ShapeQuestion.tsx';

export function OffsetsForm({ shape, set, asked }: ShapeProps) {
  const { points } = shape;
  const last = points.at(-1) ?? BLANK_POINT;
  const row = useNewRow<HTMLFieldSetElement>('-x');
  const undo = (): void => {
    const left = isBlankPoint(last) ? points.slice(0, -2) : points.slice(0, -1);
    set({ points: [...left, BLANK_POINT] });
  };
  return (
    <fieldset class="choices" ref={row.within}>
      <legend>
        Its corners, one after the other
        <small>
          Lay a straight edge along the left and one along the bottom, square to each other. 0 is a
          corner on the edge.
        </small>
      </legend>
      {points.map((point, at) => (
        <fieldset class="sub-question" key={at}>
          <legend>Corner {at + 1}</legend>
          <div class="side-by-side">
            <Typed
              label="From the left"
              name={`point-${at}-x`}
              value={point.x}
              onInput={(x) => set({ points: changed(points, at, { x }) })}
              problem={asked[`point.${at}.x`]}
            />
            <Typed
              label="From the bottom"
              name={`point-${at}-y`}
              value={point.y}
              onInput={(y) => set({ points: changed(points, at, { y }) })}
              problem={asked[`point.${at}.y`]}
              last={at === points.length - 1}
            />
          </div>
        </fieldset>
      ))}
      <div data-wrong={asked['point.more'] ? '' : undefined}>
        <Problem text={asked['point.more']} />
      </div>
      <div class="beside">
        {points.length < MOST_SIDES && (
          <button
            type="button"
            onClick={() => row.go(() => set({ points: [...points, BLANK_POINT] }))}
            disabled={isBlankPoint(last)}
          >
            Next corner
          </button>
        )}
        <button type="button" onClick={undo} disabled={points.length < 2 && isBlankPoint(last)}>
          Undo the last corner
        </button>
      </div>
    </fieldset>
  );
}
