// Where is it: everything with a name, a number or a tag, from one field. Pure.
import type { Row } from '../store/rows.ts';
import { foldTyped } from '../twins/tagcode.ts';

const SORTS = ['part', 'offcut', 'place', 'wanted'];
/** Fewer symbols of a code than this would find half the workshop. */
const LEAST_OF_A_CODE = 3;

export interface Hit {
  row: Row;
  /** the code that was meant, where it was found by its tag */
  code: string;
}

/** Best first: the number or name itself, then how they begin, then the rest; what is gone last. */
export function whereIs(rows: Iterable<Row>, typed: string): Hit[] {
  const words = typed.toLocaleLowerCase().split(/\s+/).filter(Boolean);
  if (!words.length) return [];
  const code = foldTyped(typed);
  const ranked: { hit: Hit; rank: number }[] = [];
  for (const row of rows) {
    if (!SORTS.includes(row.sort)) continue;
    const rank = rankOf(row, words, code);
    if (rank === null) continue;
    ranked.push({ hit: { row, code: codeIn(row, code) }, rank: row.retired ? rank + 10 : rank });
  }
  ranked.sort(
    (a, b) =>
      a.rank - b.rank ||
      b.hit.row.touched - a.hit.row.touched ||
      (a.hit.row.id < b.hit.row.id ? -1 : 1),
  );
  return ranked.map(({ hit }) => hit);
}

function codeIn(row: Row, code: string): string {
  if (code.length < LEAST_OF_A_CODE) return '';
  return row.codes.find((one) => one.endsWith(code) || one.startsWith(code)) ?? '';
}

function rankOf(row: Row, words: string[], code: string): number | null {
  const text = (field: string): string => {
    const value = row.fields[field];
    return typeof value === 'string' ? value.toLocaleLowerCase() : '';
  };
  const name = row.name.toLocaleLowerCase();
  const whole = words.join(' ');
  if (name === whole || text('number') === whole || row.codes.includes(code)) return 0;
  if (name.startsWith(whole) || text('number').startsWith(whole)) return 1;
  const said = [name, ...['number', 'hand', 'alloy', 'station', 'what'].map(text)].join(' ');
  if (words.every((word) => said.includes(word))) return 2;
  return codeIn(row, code) ? 3 : null;
}
