// Twin of events/marks.py: how far each operation is. Part of the fold twin.
import operationsTable from '../generated/operations.json';
import { type Body, heads, order, saw, type Told } from './facts.ts';

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
export interface Layer {
  part: string;
  treat: string;
}
type Asked = { ops?: Wants; holes?: { count?: number | null; supplied?: string } };

export const opOf = (key: string): string => key.split(':')[0] ?? '';
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
    const struck =
      (row.on_holes && holes.count === 0) || (row.op === 'drill' && holes.supplied === 'final');
    for (const key of keysOf(row, null, null))
      wants[key] = struck ? 'not' : (asked[key] ?? asked[row.op] ?? 'not');
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
        for (const key of keysOf(row, layer.part, null))
          wants[key] = treated || wants[key] === 'do' ? 'do' : 'not';
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
    if (k === 0) continue;
    if (row.harmful && (change !== 'holes added' || k === null)) word = 'look';
    else if (word !== 'look') word = row.harmful ? 'part' : 'again';
    if (!row.on_holes) continue;
    if (change === 'holes added' && k !== null) of = of === null ? null : of + k;
    else if (change === 'holes enlarged' && k !== null)
      done = done === null ? null : Math.max(0, done - k);
    else if (change === 'holes added' || change === 'holes enlarged') done = 0;
  }
  const { at, by, id } = record;
  return { is: word, want: 'not', done, of, open, at, by, event: id };
}

function markOf(row: Operation, left: Told[], undone: Told[], count: number | null): Mark {
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
  if (row.harmful && left.length > 1 && last.is !== 'todo') [mark.is, mark.doubt] = ['look', true];
  return mark;
}

// The keys a record speaks of. Without a layer, on a rivet line: every layer that asks for it.
export function spokenOf(row: Operation, body: Body, wants: Wants): string[] {
  const layer = (body.layer ?? null) as string | null;
  const sides = (body.sides ?? null) as string[] | null;
  const keys = keysOf(row, layer, sides);
  const plain = keysOf(row, null, sides);
  const fits = (plain[0] ?? '') in wants;
  if (layer !== null && fits) return plain;
  if (layer !== null || fits || !row.scope.startsWith('layer')) return keys;
  const ofSides = Object.keys(wants).filter(
    (key) =>
      key.startsWith(`${row.op}:`) &&
      wants[key] === 'do' &&
      (!row.sided || (sides ?? SIDES).includes(key.split(':').at(-1) ?? '')),
  );
  return ofSides.length ? ofSides : keys;
}

export function makeRecords(facts: Told[], wants: Wants): Map<string, Told[]> {
  const found = new Map<string, Told[]>();
  for (const row of OPERATIONS) {
    const told = new Map<string, Told[]>();
    for (const key of Object.keys(wants)) if (opOf(key) === row.op) told.set(key, []);
    for (const fact of facts) {
      if (fact.kind !== 'step.recorded.v1' || fact.body.op !== row.op) continue;
      for (const key of spokenOf(row, fact.body, wants))
        told.set(key, [...(told.get(key) ?? []), fact]);
    }
    for (const [key, records] of told) found.set(key, heads(records));
  }
  return found;
}

export function makeMarks(
  facts: Told[],
  wants: Wants,
  count: number | null,
  pieces: number,
): Marks {
  const marks: Marks = {};
  const records = makeRecords(facts, wants);
  for (const row of OPERATIONS) {
    const undone = undoings(row, facts);
    const whole = row.on_holes ? count : pieces > 1 ? pieces : null;
    for (const [key, told] of records) {
      if (opOf(key) !== row.op) continue;
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
