// What the first screen says, worked out from the rows alone: what was under way, what a person
// must look at, what is ready by operation, and whose film has been on longest.
import { nextOf } from '../parts/grounds.ts';
import { letterOf } from '../parts/headlines.ts';
import type { Listed } from '../parts/listing.ts';
import type { Row } from '../store/rows.ts';
import { OPERATIONS, type Operation } from '../twins/marks.ts';

const DAY_MS = 86_400_000;
// a break this long between two touches begins another visit to the bench
export const VISIT_GAP_MS = 8 * 3_600_000;
const MOST_UNDER_WAY = 5;

export interface Ready {
  row: Operation;
  parts: Listed[];
}
export interface Bench {
  last: Listed | null; // the part touched last
  underWay: Listed[]; // begun on the last visit and not finished, newest first
  look: Listed[]; // undecided, or two different answers
  ready: Ready[]; // in working order
  film: Listed[]; // protective film still to come off, longest on first
}

// The operation that is next; none where its rivets wait until someone confirms their length.
export function nextFor({ row, strip, waits }: Listed): string {
  const steps = row.fields.steps as { final_after_dimple?: boolean } | undefined;
  const next = nextOf(strip, steps?.final_after_dimple ?? false);
  return waits && next === 'rivet' ? '' : next;
}

export function finished({ strip }: Listed): boolean {
  return !/[tpal]/.test(strip);
}

function begun({ strip }: Listed): boolean {
  return /[dpal]/.test(strip);
}

export function benchOf(parts: Listed[]): Bench {
  const touched = [...parts].sort((a, b) => b.row.touched - a.row.touched || later(a, b));
  const open = touched.filter((one) => !finished(one));
  const look = open.filter((one) => one.strip.includes('l'));
  const answers = touched.filter((one) => one.row.answers > 0 && !look.includes(one));
  return {
    last: touched[0] ?? null,
    underWay: lastVisit(touched)
      .filter((one) => begun(one) && !finished(one))
      .slice(0, MOST_UNDER_WAY),
    look: [...look, ...answers],
    ready: readyOf(open),
    film: open
      .filter(({ strip }) => 'tpa'.includes(letterOf(strip, 'film')))
      .sort((a, b) => enteredAt(a) - enteredAt(b) || later(b, a)),
  };
}

const later = (a: Listed, b: Listed): number => (a.row.id < b.row.id ? 1 : -1);

// What was touched since the last long break, newest first.
export function lastVisit(touched: Listed[]): Listed[] {
  const end = touched.findIndex((one, at) => {
    const newer = touched[at - 1];
    return newer !== undefined && newer.row.touched - one.row.touched > VISIT_GAP_MS;
  });
  return end < 0 ? touched : touched.slice(0, end);
}

function readyOf(open: Listed[]): Ready[] {
  const next = new Map<string, Listed[]>();
  for (const one of open) {
    const op = nextFor(one);
    if (!op || letterOf(one.strip, op) === 'l') continue;
    next.set(op, [...(next.get(op) ?? []), one]);
  }
  return OPERATIONS.flatMap((row) => {
    const parts = next.get(row.op);
    return parts ? [{ row, parts }] : [];
  });
}

// Things of one place together, the place with most of them first.
export function byPlace(things: Row[]): Row[] {
  const found = new Map<string, Row[]>();
  for (const thing of things)
    found.set(thing.place ?? '', [...(found.get(thing.place ?? '') ?? []), thing]);
  return [...found.values()].sort((a, b) => b.length - a.length).flat();
}

// When a thing was entered: its id begins with that moment (RFC 9562, 5.7).
export function enteredAt({ row }: Listed): number {
  return Number.parseInt(row.id.replaceAll('-', '').slice(0, 12), 16);
}

export function filmDays(one: Listed, now: number): number {
  return Math.max(0, Math.floor((now - enteredAt(one)) / DAY_MS));
}
