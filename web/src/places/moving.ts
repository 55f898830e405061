// Moving things: one record for all that go at once, and the way back from the last of them.
import { signal } from '@preact/signals';
import { takeBack } from '../parts/recording.ts';
import { counted } from '../parts/words.ts';
import { record } from '../shell/state.ts';
import { type Draft, NoRoom } from '../store/outbox.ts';
import type { Row } from '../store/rows.ts';
import { named } from './words.ts';

/** More than this at once would not go to the workshop's computer in one piece. */
const MOST_AT_ONCE = 400;

export interface Move {
  label: string; // "Rib 4: in Shelf 2"
  entries: { event: string; subject: string }[];
}
/** What was moved last in this sitting, so that it can be taken back where it was done. */
export const lastMove = signal<Move | null>(null);
/** Where the last things went: the next ones often go there too. */
export const lastPlace = signal<string | null>(null);

export function moveDrafts(things: Row[], to: string | null, via: string | null): Draft[] {
  return things.map((thing) => ({
    kind: 'thing.moved.v1',
    subject: thing.id,
    via,
    body: { to },
  }));
}

/** "Rib 4 left: in Shelf 2", "12 things: in Shelf 2", "Rib 4: nowhere known". */
export function moveLabel(things: Row[], to: Row | null): string {
  const [first] = things;
  const what = things.length === 1 && first ? named(first) : counted(things.length, 'thing');
  return to ? `${what}: in ${to.name}` : `${what}: nowhere known`;
}

/** Moves the things as one record. The label of what was kept; throws NoRoom where it was not. */
export async function move(
  things: Row[],
  to: Row | null,
  via: string | null = null,
): Promise<string> {
  const entries: Move['entries'] = [];
  for (let from = 0; from < things.length; from += MOST_AT_ONCE) {
    const some = things.slice(from, from + MOST_AT_ONCE);
    const ids = await record(moveDrafts(some, to?.id ?? null, via));
    entries.push(...some.map((thing, at) => ({ event: ids[at] ?? '', subject: thing.id })));
  }
  const label = moveLabel(things, to);
  lastMove.value = { label, entries };
  if (to) lastPlace.value = to.id;
  return label;
}

export async function undoMove(): Promise<string> {
  const last = lastMove.value;
  if (!last) return '';
  await withdraw(last.entries);
  lastMove.value = null;
  return `Taken back: ${last.label}`;
}

/** Takes entries back as one record. */
export async function withdraw(entries: Move['entries']): Promise<void> {
  for (let from = 0; from < entries.length; from += MOST_AT_ONCE)
    await record(takeBack(entries.slice(from, from + MOST_AT_ONCE)));
}

/** '' where it worked, else the sentence for the screen. */
export async function whyItFailed(work: () => Promise<unknown>): Promise<string> {
  try {
    await work();
    return '';
  } catch (problem) {
    if (problem instanceof NoRoom) return problem.message;
    throw problem;
  }
}
