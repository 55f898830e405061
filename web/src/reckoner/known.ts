// What is on record of the thing that a sum is about, filled in where the sum asks for it. Pure.
import { withUnit } from '../offcuts/name.ts';
import type { Line } from '../parts/lines.ts';
import type { Row } from '../store/rows.ts';
import type { Length } from '../twins/lengths.ts';
import type { Sum } from '../twins/reckon.ts';
import { rivetSize, type Typed } from './address.ts';

export function knownOf(
  sum: Sum,
  { sort, fields }: Pick<Row, 'sort' | 'fields'>,
  metals: readonly string[],
): Typed {
  const known: Record<string, string> = {};
  const fill = (key: string, text: string): void => {
    if (text && sum.takes.some((take) => take.key === key)) known[key] = text;
  };
  if (sort === 'line') {
    const { fastener, head } = fields.line as Line;
    fill('diameter', rivetSize(fastener.text));
    fill('head', head);
    return known;
  }
  const { material, thickness } = fields as { material?: string; thickness?: Length | null };
  if (thickness) fill('thickness', withUnit(thickness));
  const named = (material ?? '').trim().toUpperCase().split(/\s/)[0] ?? '';
  if (metals.includes(named)) fill('alloy', named);
  return known;
}
