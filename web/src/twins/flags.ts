// Twin of events/flags.py: what a person should look at. Part of the fold twin.
import { heads, type Told } from './facts.ts';
import {
  type Marks,
  makeRecords,
  OPERATIONS,
  type Operation,
  opOf,
  spokenOf,
  type Wants,
} from './marks.ts';

export interface Flag {
  flag: string;
  key: string;
  event: string;
  needs?: string;
}
const HOUR_MS = 3_600_000;
const TABLE = new Map(OPERATIONS.map((row) => [row.op, row]));
const rowOf = (op: string): Operation => TABLE.get(op) as Operation;

export function makeFlags(
  facts: Told[],
  wants: Wants,
  marks: Marks,
  windowH: number | null,
): Flag[] {
  const flags: Flag[] = [];
  const records = makeRecords(facts, wants);
  const first = firstProgress(facts, wants);
  for (const [key, mark] of Object.entries(marks)) {
    if (mark.event === undefined) continue;
    const { event } = mark;
    if (mark.want === 'bare' && records.get(key)?.some(progress))
      flags.push({ flag: 'keep bare', key, event });
    if (mark.doubt) flags.push({ flag: 'two records', key, event });
    if (mark.is !== 'done' && mark.is !== 'part') continue;
    flags.push(...outOfOrder(key, marks, first));
    const cleaned = marks[key.replace('prime', 'clean')] ?? mark;
    const late = (mark.at ?? 0) - (cleaned.at ?? mark.at ?? 0);
    if (opOf(key) === 'prime' && windowH && late > windowH * HOUR_MS)
      flags.push({ flag: 'clean lapsed', key, event });
  }
  return [...flags, ...metalFlags(facts)];
}

// Rivets of a line that wait for someone to confirm their length, and riveting recorded while
// some did. `stated` is the fact in which the segments stand.
export function segmentFlags(
  told: Told[],
  marks: Marks,
  unconfirmed: number,
  stated: Told | undefined,
): Flag[] {
  const flags: Flag[] = [];
  if (unconfirmed && stated)
    flags.push({ flag: 'rivet length not confirmed', key: 'rivet', event: stated.id });
  let segments: { confirmed: boolean }[] = [];
  const { rivet } = marks;
  const riveted = rivet?.is === 'done' || rivet?.is === 'part' ? rivet.event : undefined;
  for (const fact of told) {
    if (fact.kind === 'line.segments.v1') segments = fact.body.segments as typeof segments;
    else if (fact.id === riveted && segments.some((one) => !one.confirmed))
      flags.push({ flag: 'riveted before confirmed', key: 'rivet', event: fact.id });
  }
  return flags;
}

const progress = (fact: Told): boolean =>
  fact.kind === 'step.recorded.v1' && fact.body.result !== 'none';

function firstProgress(facts: Told[], wants: Wants): Map<string, number> {
  const first = new Map<string, number>();
  for (const fact of facts.filter(progress))
    for (const key of spokenOf(rowOf(String(fact.body.op)), fact.body, wants))
      if (!first.has(key)) first.set(key, fact.at);
  return first;
}

function apart(key: string): { layer: string; side: string } {
  const names = key.split(':');
  const { sided, scope } = rowOf(opOf(key));
  const layered = scope.startsWith('layer') && names.length === (sided ? 3 : 2);
  return { layer: layered ? (names[1] ?? '') : '', side: sided ? (names.at(-1) ?? '') : '' };
}

function concerns(key: string, earlier: string): boolean {
  const [one, other] = [apart(key), apart(earlier)];
  if (one.layer && other.layer && one.layer !== other.layer) return false;
  const faces = rowOf(opOf(key)).scope === 'face' && rowOf(opOf(earlier)).scope === 'face';
  return !faces || one.side === other.side;
}

function outOfOrder(key: string, marks: Marks, first: Map<string, number>): Flag[] {
  const flags: Flag[] = [];
  const mark = marks[key];
  for (const needs of rowOf(opOf(key)).after) {
    const asked = Object.entries(marks).filter(
      ([k, m]) => opOf(k) === needs && m.want === 'do' && concerns(key, k),
    );
    if (!mark || !asked.length) continue;
    const begun = Math.min(...asked.map(([k]) => first.get(k) ?? Number.POSITIVE_INFINITY));
    const late = begun > (mark.at ?? 0);
    const unfinished = mark.is === 'done' && asked.some(([, m]) => m.is !== 'done');
    if (late || unfinished)
      flags.push({ flag: 'out of order', key, needs, event: mark.event ?? '' });
  }
  return flags;
}

function metalFlags(facts: Told[]): Flag[] {
  const flags: Flag[] = [];
  let drilled = false;
  let formed: Told | null = null;
  for (const fact of facts.filter(progress)) {
    if (fact.body.op === 'drill') [drilled, formed] = [true, null];
    else if (fact.body.op === 'form' && drilled) formed = fact;
  }
  if (formed) flags.push({ flag: 'check hole match', key: 'form', event: formed.id });
  for (const change of ['trimmed', 'holes enlarged']) {
    const told = heads(
      facts.filter((f) => f.kind === 'metal.changed.v1' && f.body.change === change),
    );
    if (told.length > 1) flags.push({ flag: 'look', key: change, event: told[0]?.id ?? '' });
  }
  return flags;
}
