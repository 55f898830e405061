// Finding a thing by what is remembered of its name or number. Pure.
import type { Row } from '../store/rows.ts';

export const MOST_FOUND = 30;

/** Things in use whose name or number has every word typed, last touched first. */
export function matching(rows: Iterable<Row>, sorts: string[], typed: string): Row[] {
  const words = typed.toLocaleLowerCase().split(/\s+/).filter(Boolean);
  const found = [...rows].filter((row) => {
    if (row.retired || !sorts.includes(row.sort)) return false;
    const text = `${row.name} ${row.fields.number ?? ''}`.toLocaleLowerCase();
    return words.every((word) => text.includes(word));
  });
  return found.sort((a, b) => b.touched - a.touched || (a.id < b.id ? -1 : 1));
}
