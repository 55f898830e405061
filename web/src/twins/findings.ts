// Twin of events/findings.py: what was decided about a finding, and whether it is closed. Part of
// the fold twin.
import { arrived, canonical, heads, saw, type Told } from './facts.ts';
import type { State } from './fold.ts';

export type Decision = 'use as is' | 'repair' | 'replace' | 'ask the maker';
export type ClosedAs = 'repaired' | 'used as is' | 'replaced' | 'no fault';
export type Lack = 'decision' | 'name' | 'evidence';

interface Deciding {
  decision: Decision;
  who: string | null;
  what?: string | null; // what is to be done
}
export interface Closing {
  outcome: ClosedAs | null;
  decision: string | null; // the event of the decision that was carried out
  evidence: string | null;
}
export interface Decided extends Deciding {
  event: string;
  at: number;
  written_by: string;
}
export interface Closed extends Closing {
  event: string;
  at: number;
  by: string;
}
// What a closing stands on: the decisions that stand, in order of arrival, and what shows.
export interface Ground {
  decisions: Told[];
  differ: boolean; // two decisions by people who had not met, and not the same
  photo: boolean;
}

export const CARRIES_OUT: Partial<Record<ClosedAs, Decision>> = {
  repaired: 'repair',
  'used as is': 'use as is',
  replaced: 'replace',
};
const ENDING = Object.values(CARRIES_OUT);

export function addDecision(told: Told[], state: State): void {
  const ground = groundOf(told, state.photos);
  const [last] = ground.decisions;
  if (last) {
    const { id: event, at, by: written_by } = last;
    state.decided = { ...decidingOf(last), event, at, written_by };
  }
  if (ground.differ) {
    const values = ground.decisions.map(({ id, by, body }) => ({ event: id, by, value: body }));
    state.answers.push({ about: 'decision', values });
  }
  state.lacks = lacking({ outcome: null, decision: last?.id ?? null, evidence: null }, ground);
  for (const fact of told) {
    if (fact.kind !== 'finding.closed.v1') continue;
    const body = fact.body as unknown as Closing;
    state.lacks = lacking(body, ground, fact);
    if (state.lacks.length) continue;
    const { id: event, at, by } = fact;
    state.closed = { ...body, event, at, by };
  }
  if (state.closed) state.lacks = [];
}

// What a closing wants before it counts: one written as `by`, or one that would be written now.
export function lacking(closing: Closing, ground: Ground, by?: Told): Lack[] {
  const unseen = by !== undefined && !ground.decisions.every((fact) => saw(by, fact));
  if (ground.differ || unseen) return ['decision'];
  if (closing.outcome === 'no fault') return [];
  const named = ground.decisions.find(({ id }) => id === closing.decision);
  const made = named && decidingOf(named);
  const carried = closing.outcome ? CARRIES_OUT[closing.outcome] : undefined;
  const lacks: Lack[] = [];
  if (!made || !(carried ? [carried] : ENDING).includes(made.decision)) lacks.push('decision');
  if (!written(made?.who)) lacks.push('name');
  if (!written(closing.evidence) && !ground.photo) lacks.push('evidence');
  return lacks;
}

// `photos` are those that are still shown.
export function groundOf(told: Told[], photos: readonly { photo: string }[]): Ground {
  const decisions = heads(told.filter((fact) => fact.kind === 'finding.decided.v1')).sort(arrived);
  const [first] = decisions;
  const since = ({ kind, body }: Told): boolean =>
    kind === 'photo.attached.v1' && photos.some(({ photo }) => photo === body.photo);
  return {
    decisions,
    differ: decisions.some((fact) => canonical(fact.body) !== canonical(first?.body)),
    photo:
      first !== undefined &&
      told.some((fact) => since(fact) && decisions.every((one) => saw(fact, one))),
  };
}

const decidingOf = ({ body }: Told): Deciding => body as unknown as Deciding;

// any sign above a space: both languages agree on it, whatever they call a blank
function written(text: string | null | undefined): boolean {
  return /[^\0- ]/.test(text ?? '');
}
