// Twin of events/fold.py: from the facts about one thing to its state. The same vectors run
// through both, so what a phone shows before it has sent is what the workshop will hold.
import { type Body, type Fact, type Json, order, saw, standing, type Told } from './facts.ts';
import {
  type Flag,
  type Layer,
  lineWants,
  type Marks,
  makeFlags,
  makeMarks,
  partWants,
} from './marks.ts';
import { makeStrip, nextOperation } from './strip.ts';

export interface Claim {
  event: string;
  by: string;
  value: Json;
}
export interface Answer {
  about: string;
  code?: string;
  values: Claim[];
}
export interface Tag {
  code: string;
  on: string;
  old: boolean;
}
export interface State {
  sort: string;
  answers: Answer[];
  tags: Tag[];
  place: string | null;
  retired: { [key: string]: Json } | null;
  photos: { photo: string; at: number; caption?: string | null }[];
  touched?: number;
  moved?: { at: number; by: string };
  marks?: Marks;
  flags?: Flag[];
  strip?: string;
  strips?: Record<string, string>;
  next?: string;
  // the plain fields: name, number, alloy ... as described
  [field: string]: unknown;
}

const FIELD_KINDS: Record<string, string | null> = {
  'part.added.v1': null,
  'part.described.v1': null,
  'place.added.v1': null,
  'place.described.v1': null,
  'offcut.added.v1': null,
  'offcut.described.v1': null,
  'finding.opened.v1': null,
  'tag.printed.v1': null,
  'steps.set.v1': 'steps',
  'line.set.v1': 'line',
  'offcut.reserved.v1': 'reserved',
};
const SORTS: Record<string, string> = {
  'part.added.v1': 'part',
  'line.set.v1': 'line',
  'place.added.v1': 'place',
  'offcut.added.v1': 'offcut',
  'tag.printed.v1': 'tags',
  'finding.opened.v1': 'finding',
};

export function fold(facts: Iterable<Fact>): State {
  const told = standing(facts);
  const sort = told.map((fact) => SORTS[fact.kind]).find((word) => word !== undefined);
  const state: State = {
    sort: sort ?? 'unknown',
    answers: [],
    tags: [],
    place: null,
    retired: null,
    photos: [],
  };
  fields(told, state);
  happenings(told, state);
  tags(told, state);
  if (state.sort === 'part') {
    const steps = (state.steps ?? {}) as {
      holes?: { count: number | null };
      window_h?: number | null;
    };
    const wants = partWants(steps);
    progress(told, state, wants, steps.holes?.count ?? null, steps.window_h ?? null);
    state.strip = makeStrip(state.marks ?? {});
    state.next = nextOperation(state.strip);
  } else if (state.sort === 'line') {
    const line = state.line as { count: number | null; layers: Layer[] };
    progress(told, state, lineWants(line), line.count, null);
    state.strips = Object.fromEntries(
      line.layers.map(({ part }) => [part, makeStrip(state.marks ?? {}, part)]),
    );
  }
  return state;
}

function fields(told: Told[], state: State): void {
  const claims = new Map<string, [Told, Json][]>();
  for (const fact of told) {
    const whole = FIELD_KINDS[fact.kind];
    if (whole === undefined) continue;
    for (const [name, value] of Object.entries(whole ? { [whole]: fact.body } : fact.body)) {
      const older = (claims.get(name) ?? []).filter(([claim]) => !saw(fact, claim));
      claims.set(name, [...older, [fact, value]]);
    }
  }
  for (const name of [...claims.keys()].sort(order)) {
    const ranked = (claims.get(name) ?? []).sort(([a], [b]) => reached(a) - reached(b) || 0);
    const shown = ranked[0]?.[1] ?? null;
    state[name] = shown;
    const same = JSON.stringify(sorted(shown));
    if (ranked.every(([, value]) => JSON.stringify(sorted(value)) === same)) continue;
    const values = ranked.map(([f, value]) => ({ event: f.id, by: f.by, value }));
    state.answers.push({ about: name, values });
  }
}

// what the workshop's computer received first; the phone's own unsent last, in its own order
function reached(fact: Told): number {
  return fact.pos ?? Number.MAX_SAFE_INTEGER / 2 + fact.seq;
}

function sorted(value: Json): Json {
  if (value === null || typeof value !== 'object') return value;
  if (Array.isArray(value)) return value.map(sorted);
  const keys = Object.keys(value).sort(order);
  return keys.map((key) => [key, sorted(value[key] ?? null)]);
}

function happenings(told: Told[], state: State): void {
  for (const { kind, body, at, by } of told) {
    if (kind === 'thing.moved.v1') {
      state.place = body.to as string | null;
      state.moved = { at, by };
    } else if (kind === 'thing.retired.v1') {
      state.retired = { ...body, at, by };
    } else if (kind === 'part.split.v1') {
      const into = body.into as { pieces: number }[];
      const out = into.reduce((sum, part) => sum + part.pieces, 0);
      state.pieces = ((state.pieces as number | undefined) ?? 1) - out;
    } else if (kind === 'photo.attached.v1') {
      if (!state.photos.some((photo) => photo.photo === body.photo))
        state.photos.push({ ...(body as Body & { photo: string }), at });
    } else if (kind === 'photo.removed.v1') {
      state.photos = state.photos.filter((photo) => photo.photo !== body.photo);
    }
    state.touched = at;
  }
}

function tags(told: Told[], state: State): void {
  const held = new Map<string, Tag>();
  const lost = new Map<string, Answer>();
  const fixed = new Map<string, string>();
  for (const fact of told) {
    const { kind, body } = fact;
    const code = String(body.code);
    if (kind === 'tag.attached.v1') fixed.set(code, String(body.on));
    if (kind === 'tag.attached.v1' && fact.lost !== undefined) {
      const values = [{ event: fact.id, by: fact.by, value: fact.lost }];
      lost.set(code, { about: 'tag', code, values });
    } else if (kind === 'tag.attached.v1') {
      held.set(code, { code, on: String(body.on), old: false });
    } else if (kind === 'tag.replaced.v1') {
      const old = held.get(String(body.old));
      if (old) held.set(old.code, { ...old, old: true });
    } else if (kind === 'answer.settled.v1') {
      lost.delete(code);
      if (body.holds) held.set(code, { code, on: fixed.get(code) ?? 'metal', old: false });
      else held.delete(code);
    }
  }
  state.tags = [...held.keys()].sort(order).map((code) => held.get(code) as Tag);
  for (const code of [...lost.keys()].sort(order)) state.answers.push(lost.get(code) as Answer);
}

function progress(
  told: Told[],
  state: State,
  wants: Record<string, string>,
  count: number | null,
  windowH: number | null,
): void {
  const pieces = (state.pieces as number | undefined) || 1;
  state.marks = makeMarks(told, wants, count, pieces);
  state.flags = makeFlags(told, state.marks, windowH);
}
