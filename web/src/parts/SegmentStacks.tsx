// The stacks of a line's segments in section: what joins where, and what came in since. Loads the
// rules, so it is fetched when a line with segments is opened.
import { StackDrawing } from '../reckoner/drawings/StackDrawing.tsx';
import { segmentStack } from '../reckoner/segmentstack.ts';
import { openedPhone } from '../shell/state.ts';
import { row } from '../shell/things.ts';
import type { State } from '../twins/fold.ts';
import { stackBefore } from './layering.ts';
import { lineOf } from './lines.ts';
import { dashWords, segmentsOf } from './segments.ts';

const nameOf = (id: string): string => row(id)?.name ?? 'a part not on this phone';

export function SegmentStacks({ state }: { state: State }) {
  const segments = segmentsOf(state);
  const { unit } = openedPhone().identity;
  const line = lineOf(state);
  return (
    <>
      {segments.map((segment) => {
        const before = segment.confirmed ? null : stackBefore(segments, segment);
        const was = before ? { layers: before, dash: segment.was_dash } : undefined;
        const stack = segmentStack(line, segment, unit, nameOf, was);
        if (!stack) return null;
        return (
          <section key={segment.name}>
            <h3>
              {segment.name}, {dashWords(segment.dash)}
            </h3>
            <StackDrawing {...stack} />
          </section>
        );
      })}
    </>
  );
}
