// What is written when a part is entered, described anew, split, changed in its metal or retired.
import type { Draft } from '../store/outbox.ts';
import { type Body, canonical, type Json } from '../twins/facts.ts';
import type { State } from '../twins/fold.ts';
import type { Length } from '../twins/lengths.ts';
import { OPERATIONS } from '../twins/marks.ts';
import { type Steps, stepsOf } from './steps.ts';

// What a person writes about a part; empty text means that nothing is known.
export interface Described {
  name: string;
  number: string;
  hand: '' | 'left' | 'right';
  pieces: number;
  assembly: string; // id of an assembly, or empty
  twin: string; // id of the mirrored part, or empty
  station: string;
  material: string;
  thickness: Length | null;
  note: string;
}

export const NOTHING_KNOWN: Described = {
  name: '',
  number: '',
  hand: '',
  pieces: 1,
  assembly: '',
  twin: '',
  station: '',
  material: '',
  thickness: null,
  note: '',
};

export function describedIn(state: State): Described {
  const text = (name: string): string => (state[name] as string | null | undefined) ?? '';
  return {
    name: text('name'),
    number: text('number'),
    hand: text('hand') as Described['hand'],
    pieces: (state.pieces as number | undefined) ?? 1,
    assembly: text('assembly'),
    twin: text('twin'),
    station: text('station'),
    material: text('material'),
    thickness: (state.thickness as Length | null | undefined) ?? null,
    note: text('note'),
  };
}

function said(described: Described, key: keyof Described): Json {
  const value = described[key];
  return typeof value === 'string' ? value.trim() || null : (value as Json);
}

// Only what differs, so that two people who write about different things do not collide.
export function changedKeys(was: Described, is: Described): Body {
  const body: Body = {};
  for (const key of Object.keys(is) as (keyof Described)[]) {
    const [before, after] = [said(was, key), said(is, key)];
    if (canonical(before) !== canonical(after)) body[key] = after;
  }
  return body;
}

export function wrongWithDescription(described: Described): string {
  if (!described.name.trim()) return 'Give the part a name, for example “Rib 4”.';
  if (!Number.isInteger(described.pieces) || described.pieces < 1)
    return 'The number of pieces must be 1 or more.';
  return '';
}

// A new part, what it needs, and its tag where one was scanned: one entry, all or nothing.
export function added(
  id: string,
  described: Described,
  steps: Steps,
  tag: { code: string; on: string } | null,
): Draft[] {
  const via = tag?.code ?? null;
  const body = { ...changedKeys(NOTHING_KNOWN, described), name: described.name.trim() };
  const drafts: Draft[] = [
    { kind: 'part.added.v1', subject: id, via, body },
    { kind: 'steps.set.v1', subject: id, via, body: steps },
  ];
  if (tag) drafts.push({ kind: 'tag.attached.v1', subject: id, via, body: { ...tag } });
  return drafts;
}

// Some pieces leave a bag as a part of their own. What was done to all of the bag was done to
// them; what was done to some is left open, for nobody knows which those were.
export function splitOff(
  bag: { id: string; state: State },
  id: string,
  pieces: number,
  name: string,
): Draft[] {
  const { state } = bag;
  const described = { ...describedIn(state), pieces, name };
  const drafts: Draft[] = [
    { kind: 'part.split.v1', subject: bag.id, body: { into: [{ id, pieces }] } },
    { kind: 'part.added.v1', subject: id, body: changedKeys(NOTHING_KNOWN, described) },
  ];
  const steps = stepsOf(state);
  if (steps) drafts.push({ kind: 'steps.set.v1', subject: id, body: steps });
  return [...drafts, ...carriedOver(id, state, pieces)];
}

function carriedOver(id: string, state: State, pieces: number): Draft[] {
  return OPERATIONS.flatMap((row): Draft[] => {
    const marks = Object.entries(state.marks ?? {}).filter(
      ([key, mark]) => key.split(':')[0] === row.op && mark.event !== undefined,
    );
    const done = marks.filter(([, mark]) => mark.is === 'done');
    const unsure = row.harmful && marks.some(([, mark]) => ['part', 'look'].includes(mark.is));
    if (!done.length && !unsure) return [];
    const of = row.on_holes ? (done[0]?.[1].of ?? null) : pieces > 1 ? pieces : null;
    const body: Body = {
      op: row.op,
      result: unsure ? 'some' : 'all',
      done: unsure ? null : of,
      of,
      note: unsure
        ? 'came out of a bag where this was done to some'
        : 'came out of a bag like this',
    };
    if (row.sided) body.sides = done.map(([key]) => key.split(':').pop() ?? '');
    return [{ kind: 'step.recorded.v1', subject: id, body }];
  });
}

export type MetalChange = 'trimmed' | 'holes added' | 'holes enlarged' | 'touched';

// A change of the metal. Holes added change how many there are: what the part needs, or the rivet
// line, says so from then on.
export function metalChanged(
  id: string,
  change: MetalChange,
  holes: number | null,
  note: string,
  state: State,
): Draft[] {
  const body: Body = { change };
  if (change.startsWith('holes')) body.holes = holes;
  if (note.trim()) body.note = note.trim();
  const drafts: Draft[] = [{ kind: 'metal.changed.v1', subject: id, body }];
  return change === 'holes added' ? [...drafts, ...recounted(id, holes, state)] : drafts;
}

function recounted(id: string, holes: number | null, state: State): Draft[] {
  const more = (count: number): number | null => (holes === null ? null : count + holes);
  const line = state.line as (Body & { count: number | null }) | undefined;
  if (line && line.count !== null) {
    const body = { ...line, count: more(line.count) };
    return [{ kind: 'line.set.v1', subject: id, body }];
  }
  const steps = stepsOf(state);
  if (!steps || steps.holes.count === null) return [];
  const body = { ...steps, holes: { ...steps.holes, count: more(steps.holes.count) } };
  return [{ kind: 'steps.set.v1', subject: id, body }];
}
