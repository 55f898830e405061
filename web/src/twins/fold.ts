// Twin of events/fold.py: from the facts about one thing to its state. The same vectors run
// through both, so what a phone shows before it has sent is what the workshop will hold.
import { type Cut, offcutCuts } from './cuts.ts';
import {
  arrived,
  type Body,
  canonical,
  type Fact,
  heads,
  type Json,
  order,
  saw,
  standing,
  type Told,
} from './facts.ts';
import { addDecision, type Closed, type Decided, type Lack } from './findings.ts';
import { type Flag, makeFlags, segmentFlags } from './flags.ts';
import { type KeptSum, keptSums } from './kept.ts';
import { FIELD_KINDS, SORTS } from './kinds.ts';
import { type Layer, lineWants, type Marks, makeMarks, partWants, type Wants } from './marks.ts';
import { layersAlong, makeStrip, nextOperation } from './strip.ts';
import { tags } from './tagged.ts';

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
  unconfirmed?: number; // segments of a rivet line whose rivets wait
  cut?: Cut[]; // of an offcut that is used up
  decided?: Decided; // of a finding
  closed?: Closed;
  lacks?: Lack[]; // what its closing still wants
  shape_from?: string; // the fact whose outline is shown
  sums?: KeptSum[]; // the latest, newest last
  // the plain fields: name, number, alloy ... as described
  [field: string]: unknown;
}

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
  const stated = fields(told, state);
  happenings(told, state);
  const shape = state.shape as { kind?: string } | null | undefined;
  if (shape?.kind === 'outline') state.shape_from = stated.get('shape')?.id ?? '';
  const overdrawn = pieces(told, state, stated.get('pieces'));
  tags(told, state);
  const sums = keptSums(told);
  if (sums.length) state.sums = sums;
  if (state.sort === 'offcut') Object.assign(state, offcutCuts(told));
  else if (state.sort === 'finding') addDecision(told, state);
  else if (state.sort === 'part') {
    const steps = (state.steps ?? {}) as {
      holes?: { count: number | null };
      window_h?: number | null;
    };
    const wants = partWants(steps);
    progress(told, state, wants, steps.holes?.count ?? null, steps.window_h ?? null);
    state.strip = makeStrip(state.marks ?? {});
    state.next = nextOperation(state.strip);
    state.flags?.push(...overdrawn);
  } else if (state.sort === 'line') {
    const line = state.line as { count: number | null; layers: Layer[] };
    const segments = (state.segments ?? []) as { confirmed: boolean; layers: Layer[] }[];
    const layers = layersAlong(line.layers, segments);
    progress(told, state, lineWants({ ...line, layers }), line.count, null);
    state.strips = Object.fromEntries(
      layers.map(({ part }) => [part, makeStrip(state.marks ?? {}, part)]),
    );
    const waiting = segments.filter((one) => !one.confirmed).length;
    state.unconfirmed = waiting;
    const flags = segmentFlags(told, state.marks ?? {}, waiting, stated.get('segments'));
    state.flags?.push(...flags);
  }
  return state;
}

function fields(told: Told[], state: State): Map<string, Told> {
  const claims = new Map<string, { fact: Told; value: Json }[]>();
  for (const fact of told) {
    const kind = FIELD_KINDS[fact.kind];
    if (kind === undefined) continue;
    const [whole = '', key] = kind?.split('=') ?? [];
    const said = whole ? { [whole]: key ? (fact.body[key] ?? null) : fact.body } : fact.body;
    for (const [name, value] of Object.entries(said))
      claims.set(name, [...(claims.get(name) ?? []), { fact, value }]);
  }
  const stated = new Map<string, Told>();
  for (const name of [...claims.keys()].sort(order)) {
    const made = claims.get(name) ?? [];
    const standing = new Set(heads(made.map(({ fact }) => fact)));
    const ranked = made.filter(({ fact }) => standing.has(fact));
    ranked.sort((a, b) => arrived(a.fact, b.fact));
    const shown = ranked[0];
    if (!shown) continue;
    stated.set(name, shown.fact);
    state[name] = shown.value;
    const same = canonical(shown.value);
    if (ranked.every(({ value }) => canonical(value) === same)) continue;
    const values = ranked.map(({ fact, value }) => ({ event: fact.id, by: fact.by, value }));
    state.answers.push({ about: name, values });
  }
  return stated;
}

function happenings(told: Told[], state: State): void {
  for (const { kind, body, at, by } of told) {
    if (kind === 'thing.moved.v1') {
      state.place = body.to as string | null;
      state.moved = { at, by };
    } else if (kind === 'thing.retired.v1') {
      state.retired = { ...body, at, by };
    } else if (kind === 'photo.attached.v1') {
      if (!state.photos.some((photo) => photo.photo === body.photo))
        state.photos.push({ ...(body as Body & { photo: string }), at });
    } else if (kind === 'photo.removed.v1') {
      state.photos = state.photos.filter((photo) => photo.photo !== body.photo);
    }
    state.touched = at;
  }
}

// What is left in a bag: the number stated, less what was taken out unknown to its writer.
function pieces(told: Told[], state: State, stated: Told | undefined): Flag[] {
  const splits = told.filter(
    (fact) => fact.kind === 'part.split.v1' && !(stated && saw(stated, fact)),
  );
  const last = splits.at(-1);
  if (!last) return [];
  let left = (state.pieces as number | undefined) ?? 1;
  for (const { body } of splits)
    for (const part of body.into as { pieces: number }[]) left -= part.pieces;
  state.pieces = Math.max(0, left);
  return left < 0 ? [{ flag: 'more taken out', key: 'pieces', event: last.id }] : [];
}

function progress(
  told: Told[],
  state: State,
  wants: Wants,
  count: number | null,
  windowH: number | null,
): void {
  const bag = (state.pieces as number | undefined) || 1;
  state.marks = makeMarks(told, wants, count, bag);
  state.flags = makeFlags(told, wants, state.marks, windowH);
}
