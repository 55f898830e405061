// Twin of events/marks.py and events/strip.py: how far each operation is. Part of the fold twin.
import operationsTable from '../generated/operations.json';
import { type Body, before, heads, order, saw, type Told } from './facts.ts';

export interface Operation {
  op: string;
  name: string;
  done_word: string;
  letter: string;
  scope: string;
  after: string[];
  undone_by: string[];
  harmful: boolean;
  sided: boolean;
  on_holes: boolean;
}
export const OPERATIONS: Operation[] = operationsTable;
export const SIDES = ['inside', 'outside'];
const HOUR_MS = 3_600_000;
const RANK: Record<string, number> = { look: 0, todo: 1, again: 2, part: 3, done: 4 };

export interface Mark {
  is: string;
  want: string;
  done: number | null;
  of: number | null;
  open: number;
  at?: number;
  by?: string;
  event?: string;
  doubt?: boolean;
}
export type Marks = Record<string, Mark>;
export type Wants = Record<string, string>;
export interface Flag {
  flag: string;
  key: string;
  event: string;
  needs?: string;
}
export interface Layer {
  part: string;
  treat: string;
}
type Asked = { ops?: Wants; holes?: { count?: number | null; supplied?: string } };

const opOf = (key: string): string => key.split(':')[0] ?? '';
const nullable = (value: unknown): number | null => (typeof value === 'number' ? value : null);

export function keysOf(row: Operation, layer: string | null, sides: string[] | null): string[] {
  const stem = layer && row.scope.startsWith('layer') ? `${row.op}:${layer}` : row.op;
  return row.sided ? (sides ?? SIDES).map((side) => `${stem}:${side}`) : [stem];
}

export function partWants(steps: Asked | null): Wants {
  const asked = steps?.ops ?? {};
  const holes = steps?.holes ?? {};
  const wants: Wants = {};
  for (const row of OPERATIONS) {
    let word = asked[row.op] ?? 'not';
    if (row.on_holes && holes.count === 0) word = 'not';
    if (row.op === 'drill' && holes.supplied === 'final') word = 'not';
    for (const key of keysOf(row, null, null)) wants[key] = asked[key] ?? word;
  }
  return wants;
}

export function lineWants(line: { supplied?: string; layers?: Layer[] }): Wants {
  const wants: Wants = {};
  for (const row of OPERATIONS) {
    if (row.scope === 'line') {
      const struck = line.supplied === 'final' && (row.op === 'fit' || row.op === 'drill');
      wants[row.op] = struck ? 'not' : 'do';
    } else if (row.scope.startsWith('layer')) {
      for (const layer of line.layers ?? []) {
        const treated = row.op === 'deburr' || row.op === layer.treat;
        for (const key of keysOf(row, layer.part, null)) wants[key] = treated ? 'do' : 'not';
      }
    }
  }
  return wants;
}

function undoings(row: Operation, facts: Told[]): Told[] {
  return facts.filter(({ kind, body }) => {
    if (kind === 'metal.changed.v1') return row.undone_by.includes(String(body.change));
    return (
      kind === 'step.recorded.v1' &&
      body.result !== 'none' &&
      row.undone_by.includes(String(body.op))
    );
  });
}

function worth(record: Told, row: Operation, undone: Told[], count: number | null): Mark {
  const { body } = record;
  let of = nullable(body.of) ?? count;
  const open = ((body.open ?? []) as { n: number }[]).reduce((sum, hole) => sum + hole.n, 0);
  let done = nullable(body.done);
  let word = 'part';
  if (body.result === 'all') [done, word] = [of === null ? null : Math.max(0, of - open), 'done'];
  else if (body.result === 'none') [done, word] = [0, 'todo'];
  for (const fact of undone) {
    if (word === 'todo' || saw(record, fact)) continue;
    const { change } = fact.body;
    const k = nullable(fact.body.holes);
    word = word === 'look' ? 'look' : 'again';
    if (row.harmful && (change === 'holes enlarged' || k === null)) word = 'look';
    else if (change === 'holes added' && k !== null && of !== null) of += k;
    else if (change === 'holes enlarged' && k !== null && done !== null)
      done = Math.max(0, done - k);
    else if (change === 'holes added' || change === 'holes enlarged') done = 0;
  }
  const { at, by, id } = record;
  return { is: word, want: 'not', done, of, open, at, by, event: id };
}

function markOf(row: Operation, records: Told[], undone: Told[], count: number | null): Mark {
  const left = heads(records);
  const worths = left.map((record) => worth(record, row, undone, count));
  worths.sort(
    (a, b) =>
      (RANK[a.is] ?? 0) - (RANK[b.is] ?? 0) ||
      (a.done ?? -1) - (b.done ?? -1) ||
      order(a.event ?? '', b.event ?? ''),
  );
  const mark = worths[0] as Mark;
  const last = worths[worths.length - 1] as Mark;
  mark.doubt = worths.some((w) => w.is !== mark.is || w.done !== mark.done);
  if (row.harmful && left.length > 1 && last.is !== 'todo') mark.is = 'look';
  return mark;
}

export function makeMarks(
  facts: Told[],
  wants: Wants,
  count: number | null,
  pieces: number,
): Marks {
  const marks: Marks = {};
  for (const row of OPERATIONS) {
    const records = new Map<string, Told[]>();
    for (const key of Object.keys(wants)) if (opOf(key) === row.op) records.set(key, []);
    for (const fact of facts) {
      if (fact.kind !== 'step.recorded.v1' || fact.body.op !== row.op) continue;
      const layer = (fact.body.layer ?? null) as string | null;
      for (const key of keysOf(row, layer, (fact.body.sides ?? null) as string[] | null))
        records.set(key, [...(records.get(key) ?? []), fact]);
    }
    const undone = undoings(row, facts);
    const whole = row.on_holes ? count : pieces > 1 ? pieces : null;
    for (const [key, told] of records) {
      const want = wants[key] ?? 'not';
      const mark: Mark = told.length
        ? { ...markOf(row, told, undone, whole), want }
        : { want, is: 'todo', done: null, of: whole, open: 0 };
      if (want !== 'do' && mark.is === 'todo') mark.is = want;
      else if (want === 'bare') mark.is = 'bare';
      marks[key] = mark;
    }
  }
  return marks;
}

export function makeFlags(facts: Told[], marks: Marks, windowH: number | null): Flag[] {
  const flags: Flag[] = [];
  const first = firstProgress(facts);
  for (const row of OPERATIONS) {
    for (const [key, mark] of Object.entries(marks)) {
      if (opOf(key) !== row.op || mark.event === undefined) continue;
      const { event } = mark;
      if (mark.want === 'bare') flags.push({ flag: 'keep bare', key, event });
      if (mark.doubt) flags.push({ flag: 'two records', key, event });
      if (mark.is !== 'done' && mark.is !== 'part') continue;
      flags.push(...outOfOrder(row, key, mark, marks, first));
      const cleaned = marks[key.replace('prime', 'clean')] ?? mark;
      const late = (mark.at ?? 0) - (cleaned.at ?? Number.POSITIVE_INFINITY);
      if (row.op === 'prime' && windowH && late > windowH * HOUR_MS)
        flags.push({ flag: 'clean lapsed', key, event });
    }
  }
  return [...flags, ...metalFlags(facts)];
}

const progress = (fact: Told): boolean =>
  fact.kind === 'step.recorded.v1' && fact.body.result !== 'none';

function firstProgress(facts: Told[]): Map<string, Told> {
  const first = new Map<string, Told>();
  for (const fact of facts) {
    const op = String(fact.body.op);
    if (progress(fact) && !first.has(op)) first.set(op, fact);
  }
  return first;
}

function outOfOrder(
  row: Operation,
  key: string,
  mark: Mark,
  marks: Marks,
  first: Map<string, Told>,
): Flag[] {
  const flags: Flag[] = [];
  for (const needs of row.after) {
    const asked = Object.entries(marks).filter(([k, m]) => opOf(k) === needs && m.want === 'do');
    if (!asked.length) continue;
    const begun = first.get(needs);
    const late = begun === undefined || begun.at > (mark.at ?? 0);
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
  for (const fact of facts) {
    if (!progress(fact)) continue;
    if (fact.body.op === 'drill') [drilled, formed] = [true, null];
    else if (fact.body.op === 'form' && drilled) formed = fact;
  }
  if (formed) flags.push({ flag: 'check hole match', key: 'form', event: formed.id });
  for (const change of ['trimmed', 'holes enlarged']) {
    const told = heads(
      facts.filter((f) => f.kind === 'metal.changed.v1' && f.body.change === change),
    ).sort(before);
    if (told.length > 1) flags.push({ flag: 'look', key: change, event: told[0]?.id ?? '' });
  }
  return flags;
}

export type { Body };
