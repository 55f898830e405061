// Twin of events/findings.py: what was decided about a finding, and whether it is closed. Part of
// the fold twin.
import type { Told } from './facts.ts';

export type Decision = 'use as is' | 'repair' | 'replace' | 'ask the maker';
export type ClosedAs = 'repaired' | 'used as is' | 'replaced' | 'no fault';
export type Lack = 'decision' | 'name' | 'evidence';

interface Deciding {
  decision: Decision;
  who: string | null;
  what?: string | null; // what is to be done
}
interface Closing {
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

export const CARRIES_OUT: Partial<Record<ClosedAs, Decision>> = {
  repaired: 'repair',
  'used as is': 'use as is',
  replaced: 'replace',
};

export function decisionOn(told: Told[], photos: number) {
  const last = told.filter(({ kind }) => kind === 'finding.decided.v1').at(-1);
  const found: { decided?: Decided; closed?: Closed; lacks: Lack[] } = { lacks: [] };
  if (last) {
    const { id: event, at, by: written_by } = last;
    found.decided = { ...(last.body as unknown as Deciding), event, at, written_by };
  }
  const closings = told.filter(({ kind }) => kind === 'finding.closed.v1');
  const bodyOf = ({ body }: Told): Closing => body as unknown as Closing;
  const one = closings.filter((fact) => !lacking(bodyOf(fact), last, photos).length).at(-1);
  if (one) {
    const { id: event, at, by } = one;
    found.closed = { ...bodyOf(one), event, at, by };
    return found;
  }
  const asked = closings.at(-1);
  const nothing = { outcome: null, decision: last?.id ?? null, evidence: null };
  found.lacks = lacking(asked ? bodyOf(asked) : nothing, last, photos);
  return found;
}

/** What a closing wants before it counts, given the standing decision and the number of photos. */
export function lacking(closing: Closing, decision: Told | undefined, photos: number): Lack[] {
  if (closing.outcome === 'no fault') return [];
  const named = decision && decision.id === closing.decision ? decision : undefined;
  const made = named?.body as unknown as Deciding | undefined;
  const carried = closing.outcome ? CARRIES_OUT[closing.outcome] : undefined;
  const decided = made !== undefined && Object.values(CARRIES_OUT).includes(made.decision);
  const lacks: Lack[] = [];
  if (!decided || (carried && made.decision !== carried)) lacks.push('decision');
  if (!made?.who) lacks.push('name');
  if (!closing.evidence && !photos) lacks.push('evidence');
  return lacks;
}
