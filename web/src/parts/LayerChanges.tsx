// What a new layer does to the rivets of every stretch it touches, and the first of these drawn with
// the stack before. Loads the rules.
import { StackDrawing } from '../reckoner/drawings/StackDrawing.tsx';
import { flushSaid } from '../reckoner/lineflush.ts';
import { segmentStack } from '../reckoner/segmentstack.ts';
import { openedPhone } from '../shell/state.ts';
import { FlushSaidOf } from './FlushSaidOf.tsx';
import { nameOf as known } from './JointDrawing.tsx';
import { changesOf, changeWords } from './layering.ts';
import type { LineLayer } from './lines.ts';
import type { Segment } from './segments.ts';

interface Props {
  after: readonly Segment[];
  before: readonly Segment[];
  layer: LineLayer;
  head: 'protruding' | 'flush';
  nameOf?: (part: string) => string;
  onlyLook?: boolean; // nothing will be recorded
}

export function LayerChanges({ after, before, layer, head, nameOf = known, onlyLook }: Props) {
  const changed = after.filter((one) => one.layers.some((each) => each.part === layer.part));
  const [first] = changed;
  const { unit } = openedPhone().identity;
  const source = first && before.find((one) => first.layers.length === one.layers.length + 1);
  const stack =
    first &&
    segmentStack({ head }, first, unit, nameOf, {
      layers: source?.layers ?? [],
      dash: first.was_dash,
    });
  return (
    <section aria-live="polite">
      <h3>What it does to the rivets</h3>
      <ul class="plain segments">
        {changesOf(changed).map((one) => (
          <li key={one.name}>
            <b>{changeWords(one)}</b>
          </li>
        ))}
      </ul>
      {changed.some((one) => one.dash === null) && (
        <p class="problem">
          Its rivets cannot be worked out: the thickness of a layer or the size of the rivet is not
          known. They have no length until it is.
        </p>
      )}
      {first && <FlushSaidOf said={flushSaid({ head }, first, unit)} nameOf={nameOf} />}
      {stack && <StackDrawing {...stack} />}
      <p>
        {!onlyLook &&
          'They wait until somebody confirms them: look at a rivet in the stack first. '}
        The kit maker’s plans and approved data come first.
      </p>
    </section>
  );
}
