// What must not be cut into: holes, marks and damage, each by its size and by where it lies.
import { type Choice, Choices, Typed } from '../Choices.tsx';
import { BLANK_KEEP, changed, MOST_KEEPS, type TypedKeep } from '../outline/answers.ts';
import type { ShapeProps } from './ShapeQuestion.tsx';

const SORTS: readonly Choice<TypedKeep['sort']>[] = [
  { value: 'round', label: 'round hole' },
  { value: 'square', label: 'square-sided' },
  { value: 'mark', label: 'mark or damage' },
];

interface Props extends ShapeProps {
  /** the one that is being placed by a tap on the drawing */
  placing: number | null;
  onPlacing: (at: number | null) => void;
  /** the outline is not closed yet, so that nothing can lie in it */
  open: boolean;
}

export function KeepOutsForm(props: Props) {
  const { shape, set } = props;
  const { keeps } = shape;
  return (
    <section class="keep-outs" aria-label="Keep-outs">
      {keeps.map((keep, at) => (
        <OneKeep key={at} {...props} at={at} keep={keep} />
      ))}
      {keeps.length < MOST_KEEPS && (
        <button type="button" onClick={() => set({ keeps: [...keeps, BLANK_KEEP] })}>
          {keeps.length ? 'Another keep-out' : 'A hole, mark or damage in it'}
        </button>
      )}
    </section>
  );
}

function OneKeep(props: Props & { at: number; keep: TypedKeep }) {
  const { shape, set, asked, at, keep, placing, onPlacing, open } = props;
  const { keeps } = shape;
  const change = (part: Partial<TypedKeep>): void => set({ keeps: changed(keeps, at, part) });
  const square = keep.sort === 'square';
  const typed = (what: 'x' | 'y' | 'width' | 'height', label: string, last = false) => (
    <Typed
      label={label}
      name={`keep-${at}-${what}`}
      value={keep[what]}
      onInput={(text) => change({ [what]: text })}
      problem={asked[`keep.${at}.${what}`]}
      last={last}
    />
  );
  const otherX = keep.fromX === 'left' ? 'right' : 'left';
  const otherY = keep.fromY === 'bottom' ? 'top' : 'bottom';
  return (
    <fieldset class="sub-question">
      <legend>Keep-out {at + 1}</legend>
      <Choices
        legend="What it is"
        name={`keep-${at}`}
        columns={3}
        choices={SORTS}
        value={keep.sort}
        onChange={(sort) => change({ sort })}
      />
      <div class="side-by-side">
        {typed('width', square ? 'Its width' : 'How wide across')}
        {square && typed('height', 'Its height')}
      </div>
      <p class="where-words">
        {square ? 'To its nearest sides' : 'To its middle'}, as it lies on the drawing:
      </p>
      <div class="side-by-side">
        <div>
          {typed('x', `From the ${keep.fromX} edge`)}
          <button type="button" onClick={() => change({ fromX: otherX })}>
            From the {otherX} instead
          </button>
        </div>
        <div>
          {typed('y', `From the ${keep.fromY} edge`, true)}
          <button type="button" onClick={() => change({ fromY: otherY })}>
            From the {otherY} instead
          </button>
        </div>
      </div>
      <div class="beside">
        {keep.sort === 'mark' && !open && (
          <button
            type="button"
            aria-pressed={placing === at}
            onClick={() => onPlacing(placing === at ? null : at)}
          >
            {placing === at ? 'Leave it where it is' : 'Show the place on the drawing'}
          </button>
        )}
        <button
          type="button"
          onClick={() => {
            onPlacing(null);
            set({ keeps: keeps.filter((_, number) => number !== at) });
          }}
        >
          Take keep-out {at + 1} away
        </button>
      </div>
    </fieldset>
  );
}
