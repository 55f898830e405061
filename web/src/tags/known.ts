// The tags that exist on this phone, with what each is on, for typing.
import { openedPhone, version } from '../shell/state.ts';
import type { Row } from '../store/rows.ts';

/** Every code on this phone with the thing it is on; null for one that is on nothing yet. */
export function knownTags(): Map<string, Row | null> {
  version.value;
  return tagsIn(openedPhone().rows.values());
}

export function tagsIn(rows: Iterable<Row>): Map<string, Row | null> {
  const known = new Map<string, Row | null>();
  for (const row of rows) {
    if (row.sort === 'tags') {
      for (const code of row.fields.codes as string[]) if (!known.has(code)) known.set(code, null);
    } else
      for (const code of row.codes) {
        const before = known.get(code);
        if (!before || before.retired) known.set(code, row);
      }
  }
  return known;
}
