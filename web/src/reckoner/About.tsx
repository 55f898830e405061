// What a sum is reckoned for: the part or rivet line that it was opened from.
import { pathOf } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';

export function About({ thing }: { thing: Row }) {
  return (
    <p class="note about">
      For <a href={pathOf(thing)}>{thing.name}</a>.
    </p>
  );
}
