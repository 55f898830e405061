// Which way the grain runs against the first side, as an angle. Pure.
import type { Answers } from '../draft.ts';
import { leanOf } from '../outline/reading.ts';

const QUARTER = 90_000_000;

/** Millionths of a degree from the first side; null where it is not known, or not said yet. */
export function grainAngle(grain: Answers['grain'], lean: string): number | null {
  if (grain === 'a') return 0;
  if (grain === 'b') return QUARTER;
  if (grain !== 'angle') return null;
  const read = leanOf(lean);
  return 'udeg' in read ? read.udeg : null;
}
