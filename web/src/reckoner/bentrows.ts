// The holes of a bent piece while it is flat, from above, from the sums of pieces. Pure.
import type { HoleRow, Layout } from './drawings/layout.ts';
import { givenNm, nmOf, ofRivet, type Reckoned, type Shown } from './drawn.ts';
import { listNm } from './flats.ts';

/** A stiffener with its one row, and the bend beside it. */
export function stiffenerRow(of: Reckoned): Shown[] {
  const { answer } = of;
  const [across] = listNm(answer, 'rows_at_mm');
  const [start, pitch] = [givenNm(answer, 'first_mm'), givenNm(answer, 'pitch_mm')];
  const [bend] = listNm(answer, 'bend_lines_mm');
  const { holes: count } = answer;
  if (across === undefined || start === null || pitch === null) return [];
  if (typeof count !== 'number' || count < 1) return [];
  const rows = [{ across, start, pitch, count }];
  return flat(of, rows, givenNm(answer, 'blank_a_mm'), bend);
}

/** The rows of a splice on one side of its joint, leg by leg; there it runs on. */
export function spliceRows(of: Reckoned): Shown[] {
  const { answer } = of;
  const [start, pitch] = [givenNm(answer, 'first_mm'), givenNm(answer, 'pitch_mm')];
  const first = listNm(answer, 'first_rows_mm');
  const [counts, many, most] = [answer.counts, answer.rows, answer.in_row].map(whole);
  const gap = givenNm(answer, 'row_gap_mm') ?? 0;
  if (start === null || pitch === null || !counts || !many || !most) return [];
  const rows = first.flatMap((nearest, leg): HoleRow[] =>
    Array.from({ length: many[leg] ?? 0 }, (_, row) => ({
      across: nearest + row * gap,
      start,
      pitch,
      // the last row of a leg has those that are left over
      count: Math.min(most[leg] ?? 0, (counts[leg] ?? 0) - row * (most[leg] ?? 0)),
    })),
  );
  const [bend, ...others] = listNm(answer, 'bend_lines_mm');
  return flat(of, rows, null, others.length ? undefined : bend);
}

function flat(
  { rules, answer, read, unit }: Reckoned,
  rows: HoleRow[],
  length: number | null,
  bend: number | undefined,
): Shown[] {
  const [diameter, width] = [nmOf(read.diameter), givenNm(answer, 'blank_b_mm')];
  const shown = rows.filter(({ count }) => count > 0);
  if (diameter === null || width === null || !shown.length) return [];
  const hole = ofRivet(rules, diameter, 'hole_in') ?? diameter;
  const props: Layout = { length, width, hole, rows: shown, unit };
  if (bend !== undefined) props.bend = bend;
  return [{ is: 'layout', props }];
}

const whole = (value: unknown): number[] => (Array.isArray(value) ? value : [value]).map(Number);
