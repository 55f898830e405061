// What a run recorded, numbered as it was scanned: the order in which parts were laid out.
import { pathOf, row } from '../shell/things.ts';
import type { Run } from './current.ts';

export function RunList({ run, newestFirst = false }: { run: Run; newestFirst?: boolean }) {
  const numbered = run.entries.map((entry, at) => ({ entry, number: at + 1 }));
  if (newestFirst) numbered.reverse();
  if (!numbered.length) return null;
  return (
    <ol class="run-list" reversed={newestFirst} aria-label="Recorded in this run">
      {numbered.map(({ entry, number }) => {
        const thing = row(entry.thing);
        return (
          <li key={number} value={number}>
            {thing ? <a href={pathOf(thing)}>{entry.name}</a> : entry.name}
            {entry.how && <span class="faint">, {entry.how}</span>}
          </li>
        );
      })}
    </ol>
  );
}
