// Holes on a piece from above, from the sums of edges, rows and pieces; holes in one another. Pure.
import type { Answer } from '../twins/reckon.ts';
import type { HoleRow, Layout, Short } from './drawings/layout.ts';
import type { Ring } from './drawings/rings.ts';
import { givenNm, nmOf, ofRivet, type Reckoned, type Shown } from './drawn.ts';

const CLEAR = 5; // diameters to where a piece that runs on is broken off

/** One hole beside the edge that was measured; the rest of the piece is not known. */
export function edgeShape({ rules, answer, read, unit }: Reckoned): Shown[] {
  const [diameter, edge] = [nmOf(read.diameter), nmOf(read.edge)];
  if (diameter === null || edge === null) return [];
  const hole = ofRivet(rules, diameter, 'hole_in') ?? diameter;
  return [besideEdge(hole, edge, null, shortBy(answer, { side: 'short_mm' }), unit)];
}

/** The hole a size up, with the next of its row where the pitch was given. */
export function upsizeShape({ rules, answer, read, unit }: Reckoned): Shown[] {
  const [diameter, edge] = [givenNm(answer, 'to_diameter_mm'), nmOf(read.edge)];
  if (diameter === null || edge === null) return [];
  const hole = ofRivet(rules, diameter, 'hole_in') ?? diameter;
  const short = shortBy(answer, { side: 'edge_short_mm', pitch: 'pitch_short_mm' });
  return [besideEdge(hole, edge, nmOf(read.pitch), short, unit)];
}

function besideEdge(
  hole: number,
  edge: number,
  pitch: number | null,
  short: Short,
  unit: Layout['unit'],
): Shown {
  const start = CLEAR * hole;
  const row: HoleRow = { across: edge, start, pitch: pitch ?? 0, count: pitch === null ? 1 : 2 };
  return {
    is: 'layout',
    props: { length: null, width: null, open: true, hole, rows: [row], short, unit },
  };
}

/** The rows on a strip as the sum lays them out. */
export function layoutShape({ rules, answer, read, unit }: Reckoned): Shown[] {
  const [diameter, length, width] = [nmOf(read.diameter), nmOf(read.length), nmOf(read.width)];
  const [first, pitch] = [givenNm(answer, 'first_mm'), givenNm(answer, 'pitch_mm')];
  const { per_row, count } = answer;
  const side = givenNm(answer, 'side_mm') ?? nmOf(read.edge) ?? givenNm(answer, 'edge_layout_mm');
  if (diameter === null || length === null || first === null || side === null) return [];
  if (typeof per_row !== 'number' || typeof count !== 'number' || per_row < 1) return [];
  const [all, gap] = [Math.round(count / per_row), givenNm(answer, 'row_gap_mm') ?? 0];
  const rows = Array.from({ length: all }, (_, at) => ({
    across: side + at * gap,
    start: first,
    pitch: pitch ?? 0,
    count: per_row,
  }));
  const props: Layout = {
    length,
    width,
    hole: ofRivet(rules, diameter, 'hole_in') ?? diameter,
    rows,
    short: shortBy(answer, { side: 'width_short_mm', end: 'length_short_mm' }),
    unit,
  };
  const least = givenNm(answer, 'pitch_min_mm');
  if (least !== null && pitch !== null && per_row > 1 && pitch < least)
    props.short = { ...props.short, pitch: least - pitch };
  const bend = nmOf(read.bend);
  if (bend !== null) props.bend = (rows.at(-1)?.across ?? 0) + bend;
  return [{ is: 'layout', props }];
}

/** The blank of a piece with one row of holes along its middle. */
export function blankShape({ rules, answer, read, unit }: Reckoned): Shown[] {
  const [diameter, pitch] = [nmOf(read.diameter), givenNm(answer, 'pitch_mm')];
  const [length, width] = [givenNm(answer, 'blank_a_mm'), givenNm(answer, 'blank_b_mm')];
  const { holes, rows } = answer;
  if (diameter === null || pitch === null || length === null || width === null) return [];
  if (typeof holes !== 'number' || holes < 1 || rows !== 1) return [];
  const start = (length - (holes - 1) * pitch) / 2;
  const needed = givenNm(answer, 'width_needed_mm') ?? 0;
  const props: Layout = {
    length,
    width,
    hole: ofRivet(rules, diameter, 'hole_in') ?? diameter,
    rows: [{ across: width / 2, start, pitch, count: holes }],
    short: needed > width ? { side: (needed - width) / 2 } : {},
    unit,
  };
  return [{ is: 'layout', props }];
}

/** A patch with its rows before and behind the hole; drawn with the load running up the drawing. */
export function patchShape({ rules, answer, read, unit }: Reckoned): Shown[] {
  const nm = (key: string): number | null => givenNm(answer, key);
  const [length, width] = [nm('blank_b_mm'), nm('blank_a_mm')];
  const [diameter, pitch, { count: all, in_row: most }] = [
    nmOf(read.diameter),
    nm('pitch_mm'),
    answer,
  ];
  const at = Array.isArray(answer.rows_at_mm) ? answer.rows_at_mm : [];
  if (length === null || width === null || !at.length) return [];
  if (diameter === null || pitch === null) return [];
  if (typeof all !== 'number' || typeof most !== 'number') return [];
  const near = at.map((mm, row): HoleRow => {
    // the row beside the hole has those that are left over
    const count = Math.min(most, all - row * most);
    const start = Math.round((length - (count - 1) * pitch) / 2);
    return { across: Math.round(Number(mm) * 1e6), start, pitch, count };
  });
  const far = near.map((row) => ({ ...row, across: width - row.across })).reverse();
  const hole = ofRivet(rules, diameter, 'hole_in') ?? diameter;
  return [
    { is: 'layout', props: { length, width, hole, rows: [...near, ...far], short: {}, unit } },
  ];
}

function shortBy(answer: Answer, keys: Partial<Record<keyof Short, string>>): Short {
  const short: Short = {};
  for (const [kind, key] of Object.entries(keys) as [keyof Short, string][]) {
    const by = givenNm(answer, key);
    if (by !== null && by > 0) short[kind] = by;
  }
  return short;
}

/** The rivet, and its holes: drilled first, finished, and grown where it is dimpled. */
export function holeShape({ answer, read, unit }: Reckoned): Shown[] {
  const diameter = nmOf(read.diameter);
  const named = (words: string, key: string, look: Ring['look']): Ring[] => {
    const nm = givenNm(answer, key);
    return nm === null ? [] : [{ words, diameter: nm, look }];
  };
  const drill = (which: string): string => {
    const name = answer[which];
    return typeof name === 'string' ? ` ${name}` : '';
  };
  const rings: Ring[] = [
    ...named('dimpled, past', 'dimpled_hole_mm', 'hole'),
    ...named(`finish${drill('drill')}`, 'hole_mm', 'hole'),
    ...(diameter === null ? [] : [{ words: 'rivet', diameter, look: 'rivet' as const }]),
    ...named(`pilot${drill('pilot_drill')}`, 'pilot_mm', 'pilot'),
  ];
  return rings.length > 1 ? [{ is: 'hole', props: { rings, unit } }] : [];
}
