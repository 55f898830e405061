// What should come before an operation on a part and is not done yet. Pure.
import type { Choice } from '../parts/choices.ts';
import { keyWords } from '../parts/flags.ts';
import { operation, templateOf } from '../parts/steps.ts';
import { type Mark, OPERATIONS, opOf } from '../twins/marks.ts';
import type { Offered } from './judge.ts';

export interface Missing {
  op: string;
  words: string; // "deburr outside"; "deburr in the line rear spar"
  /** it was done, so many whole hours ago, and its window is over; null where it was not done */
  lapsedH: number | null;
  windowH: number;
}

const HOUR_MS = 3_600_000;

/**
 * What is missing before `op`, and which earlier operations the same scan records: the template of
 * small parts takes cleaning as said by "primed", unless something else is missing before that.
 */
export function before(
  op: string,
  choice: Choice,
  part: Offered,
  now: number,
): { missing: Missing[]; together: string[] } {
  const open = missingBefore(op, choice.sides, part, now);
  const group =
    templateOf(part.steps?.template ?? '')?.together.find((ops) => ops.includes(op)) ?? [];
  const together = [
    ...new Set(
      open.filter((one) => group.includes(one.op) && one.lapsedH === null).map((one) => one.op),
    ),
  ];
  const rest = open.filter((one) => !together.includes(one.op));
  const deeper = together.flatMap((earlier) => missingBefore(earlier, choice.sides, part, now));
  const missing = [...rest, ...deeper.filter((one) => !together.includes(one.op))];
  return {
    missing,
    together: OPERATIONS.map((row) => row.op).filter((one) => together.includes(one)),
  };
}

function missingBefore(op: string, sides: string[] | null, part: Offered, now: number): Missing[] {
  const later = operation(op);
  const planned = part.steps?.final_after_dimple === true && ['deburr', 'dimple'].includes(op);
  return later.after
    .filter((earlier) => !(planned && earlier === 'drill'))
    .flatMap((earlier) => [
      ...onThePart(earlier, later.scope === 'face' ? sides : null, part, now, op),
      // a face is worked on as a whole: the holes of every line in it count
      ...(later.scope === 'face' ? inItsLines(earlier, part) : []),
    ]);
}

function onThePart(
  earlier: string,
  sides: string[] | null,
  part: Offered,
  now: number,
  op: string,
): Missing[] {
  const row = operation(earlier);
  const windowH = part.steps?.window_h ?? 0;
  const found: Missing[] = [];
  for (const [key, mark] of Object.entries(part.ground.marks)) {
    const side = key.split(':')[1] ?? '';
    if (opOf(key) !== earlier || mark.want !== 'do') continue;
    // one face of a part does not wait for the other
    if (row.scope === 'face' && sides && !sides.includes(side)) continue;
    if (mark.is !== 'done')
      found.push({ op: earlier, words: keyWords(key), lapsedH: null, windowH });
    else if (op === 'prime' && earlier === 'clean' && isLapsed(mark, windowH, now))
      found.push({
        op: earlier,
        words: keyWords(key),
        lapsedH: Math.floor((now - (mark.at ?? now)) / HOUR_MS),
        windowH,
      });
  }
  const bothSides = row.sided && found.length > 1 && found.every((one) => one.lapsedH === null);
  return bothSides ? [{ op: earlier, words: row.name, lapsedH: null, windowH }] : found;
}

function isLapsed(mark: Mark, windowH: number, now: number): boolean {
  return windowH > 0 && mark.at !== undefined && now - mark.at > windowH * HOUR_MS;
}

function inItsLines(earlier: string, part: Offered): Missing[] {
  const at = OPERATIONS.findIndex((row) => row.op === earlier);
  return part.lines
    .filter((line) => 'tpal'.includes(line.strip[at] ?? '-'))
    .map((line) => ({
      op: earlier,
      words: `${operation(earlier).name} in the line ${line.name}`,
      lapsedH: null,
      windowH: 0,
    }));
}

/** "It was cleaned 9 hours ago, and its steps give 8: clean it again first." */
export function lapsed({ lapsedH, windowH }: Missing): string {
  const ago =
    lapsedH !== null && lapsedH >= 48 ? `${Math.floor(lapsedH / 24)} days` : `${lapsedH} hours`;
  return `It was cleaned ${ago} ago, and its steps give ${windowH} hours until primer: clean it again first.`;
}
