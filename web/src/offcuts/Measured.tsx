// Whether it is known what fits in an odd outline: the workshop's computer measures it.
import { openedPhone, toMeasure, version } from '../shell/state.ts';
import { NOT_MEASURED } from './words.ts';

/** How many outlines are on their way; nothing where none is. */
export function StillToMeasure() {
  const left = toMeasure.value;
  if (!left) return null;
  const many = left === 1 ? 'One outline is' : `${left} outlines are`;
  return (
    <p class="faint" role="status">
      {many} still to be measured by the workshop computer.
    </p>
  );
}

/** Of one outline, by the entry that brought it: what stands against searching it. */
export function MeasuredWords({ from }: { from: unknown }) {
  version.value;
  const measured = openedPhone().curves.of(from);
  if (measured && 'any' in measured) return null;
  const words = measured
    ? `What fits in it cannot be said: ${measured.why}`
    : `What fits in it is not known yet: it is ${NOT_MEASURED}.`;
  return <p class="note">{words}</p>;
}
