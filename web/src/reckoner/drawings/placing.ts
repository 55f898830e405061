// How large a piece is drawn, and which of its holes: whole where that can be read, else with the
// repeated holes and the empty stretches left out between break lines.
import { axis } from './axis.ts';
import type { Layout } from './layout.ts';

/** The piece as it is placed on the drawing, px; `x` and `y` take nm. */
export interface Placed {
  left: number;
  right: number;
  top: number;
  bottom: number;
  x: (nm: number) => number;
  y: (nm: number) => number;
  /** where it is broken, along it (x) and across it (y) */
  along: number[];
  across: number[];
  /** the middles of the holes that are drawn, row by row */
  holes: number[][];
  radius: number;
}
export interface Room {
  left: number;
  top: number;
  across: number;
}

const LEAST_HOLE = 9; // px across; a piece drawn whole may not make them smaller
const MOST_HOLE = 36;
const TALLEST = 230;
const LEFT_OUT = 34; // px for the holes that are left out
const STRETCH = 66; // the longest stretch across the piece in which nothing stands

export function place(layout: Layout, room: Room): Placed {
  const { rows, hole, bend } = layout;
  const length = layout.length ?? runsOn(layout);
  const far = Math.max(...rows.map(({ across }) => across), bend ?? 0);
  const width = layout.width ?? far + 4 * hole;
  const marks = [
    0,
    width,
    ...rows.map(({ across }) => across),
    ...(bend === undefined ? [] : [bend]),
  ];
  const whole = Math.min(room.across / length, TALLEST / width, MOST_HOLE / hole);
  let scale = whole;
  let along = axis([0, length], scale);
  let across = axis(marks, scale);
  if (whole * hole < LEAST_HOLE) {
    scale = LEAST_HOLE / hole;
    const fits = (): boolean => across.size <= TALLEST && along.size <= room.across;
    for (let tries = 0; tries < 300; tries += 1) {
      across = axis(marks, scale, STRETCH);
      along = axis(shown(layout, length, scale, room.across), scale, cutTo(layout, scale));
      if (fits()) break;
      scale *= 0.98;
    }
  }
  const left = room.left + (room.across - along.size) / 2;
  const bottom = room.top + across.size;
  const seen = (nm: number): boolean => !along.hidden.some(([from, to]) => nm > from && nm < to);
  return {
    left,
    right: left + along.size,
    top: room.top,
    bottom,
    x: (nm) => left + along.to(nm),
    y: (nm) => bottom - across.to(nm),
    along: along.breaks.map((at) => left + at),
    across: across.breaks.map((at) => bottom - at).reverse(),
    holes: rows.map(({ start, pitch, count }) =>
      Array.from({ length: count }, (_, at) => start + at * pitch)
        .filter((nm) => seen(nm))
        .map((nm) => left + along.to(nm)),
    ),
    radius: Math.max((hole * scale) / 2, 2),
  };
}

/** Where a piece that runs on is broken off: beyond its last hole. */
function runsOn({ rows, hole }: Layout): number {
  const ends = rows.map(({ start, pitch, count }) => start + (count - 1) * pitch);
  const beyond = rows.map(({ pitch, count }) => (count > 1 ? pitch : 0));
  return Math.max(...ends) + Math.max(5 * hole, ...beyond);
}

/** The marks along the piece: its ends, and as many holes at each end of a row as there is room for. */
function shown({ rows }: Layout, length: number, scale: number, room: number): number[] {
  const row = rows.reduce((most, one) => (one.count > most.count ? one : most));
  const last = row.start + (row.count - 1) * row.pitch;
  const ends = Math.min(row.start * scale, STRETCH) + Math.min((length - last) * scale, STRETCH);
  const steps = Math.floor((room - ends - cutTo({ rows }, scale)) / (row.pitch * scale));
  const all = Array.from({ length: row.count }, (_, at) => row.start + at * row.pitch);
  if (steps + 2 >= row.count) return [0, ...all, length];
  const [before, after] = [
    Math.max(2, Math.ceil(steps / 2) + 1),
    Math.max(1, Math.floor(steps / 2) + 1),
  ];
  return [0, ...all.slice(0, before), ...all.slice(-after), length];
}

/** The longest stretch along the piece: a pitch is never cut. */
function cutTo({ rows }: Pick<Layout, 'rows'>, scale: number): number {
  const pitches = rows.flatMap(({ pitch, count }) => (count > 1 ? [pitch * scale] : []));
  return Math.max(STRETCH, ...pitches.map((pitch) => pitch + LEFT_OUT));
}
