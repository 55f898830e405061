// Which parts and rivet lines are offered: those with all the words, touched last first. Pure.
import type { Row } from '../store/rows.ts';

export function thingsWith(
  things: readonly Row[],
  words: string,
  under: (row: Row) => string,
): Row[] {
  const asked = words.toLowerCase().split(/\s+/).filter(Boolean);
  const hay = (row: Row): string =>
    [row.name, row.fields.number ?? '', under(row)].join('\n').toLowerCase();
  const found = asked.length
    ? things.filter((row) => asked.every((word) => hay(row).includes(word)))
    : things;
  return [...found].sort((a, b) => b.touched - a.touched || (a.id < b.id ? -1 : 1));
}
