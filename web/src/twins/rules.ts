// Runs a recorded program of the rulebook. Twin of server/bucktail/rules/evaluate.py, which says
// what the values are: what cannot be worked out is null, and nothing throws.
import type { Unit } from './lengths.ts';
import * as exact from './rational.ts';
import { compare, isRational, type Rational, rational } from './rational.ts';
import { written } from './written.ts';

export type Value = Rational | string | boolean | null | readonly Value[];
// numbers are whole, or [above, below]
export type Plain = number | readonly [number, number] | string | boolean | null;
// biome-ignore lint/suspicious/noExplicitAny: a step's arguments depend on its operation
export type Step = readonly [string, ...any[]];
export interface Table {
  columns: readonly string[];
  rows: readonly (readonly Plain[])[];
}
export interface Book {
  constants: Readonly<Record<string, Plain>>;
  tables: Readonly<Record<string, Table>>;
}
export interface Program {
  steps: readonly Step[];
  outputs: Readonly<Record<string, number>>;
}

export function run(
  program: Program,
  inputs: Readonly<Record<string, Value>>,
  book: Book,
  unit: Unit,
): Record<string, Value> {
  const values: Value[] = [];
  for (const [op, ...args] of program.steps)
    values.push(step(op, args, values, inputs, book, unit));
  return Object.fromEntries(
    Object.entries(program.outputs).map(([name, at]) => [name, values[at] ?? null]),
  );
}

function step(
  op: string,
  // biome-ignore lint/suspicious/noExplicitAny: as in Step
  args: any[],
  values: readonly Value[],
  inputs: Readonly<Record<string, Value>>,
  book: Book,
  unit: Unit,
): Value {
  if (op === 'is') return toValue(args[0]);
  if (op === 'input') return inputs[args[0]] ?? null;
  if (op === 'constant') return toValue(book.constants[args[0]] ?? null);
  if (op === 'lookup') return lookup(book.tables[args[0]] as Table, values, args);
  if (op === 'say') return say(args[0], args[1], values, unit);
  if (op === 'slice') {
    const found = values[args[0]] ?? null;
    return isList(found) ? found.slice(args[1], args[2] ?? undefined) : null;
  }
  const work = OPERATIONS[op];
  if (!work) throw new Error(`the rulebook has a step this version does not know: ${op}`);
  return work(...args.map((at: number) => values[at] ?? null));
}

const isList = (value: Value): value is readonly Value[] => Array.isArray(value);

export function toValue(plain: Plain): Value {
  if (typeof plain === 'number') return exact.whole(plain);
  if (typeof plain === 'object' && plain !== null)
    return rational(BigInt(plain[0]), BigInt(plain[1]));
  return plain;
}

type Work = (...terms: Value[]) => Value;

// work on single numbers, made to go through lists
function each(work: (a: Rational, b: Rational) => Value): Work {
  const through: Work = (...terms) => {
    const lists = terms.filter(isList);
    if (!lists.length)
      return terms.every(isRational) ? work(terms[0] as Rational, terms[1] as Rational) : null;
    const length = lists[0]?.length ?? 0;
    if (lists.some((one) => one.length !== length)) return null;
    return Array.from({ length }, (_, at) =>
      through(...terms.map((term) => (isList(term) ? (term[at] ?? null) : term))),
    );
  };
  return through;
}

const flat = (terms: readonly Value[]): Value[] =>
  terms.flatMap((one) => (isList(one) ? one : [one]));

function same(one: Value, other: Value): boolean {
  if (isRational(one) && isRational(other)) return compare(one, other) === 0;
  return one !== null && !isList(one) && one === other;
}

const best =
  (sign: number): Work =>
  (...terms) => {
    const numbers = flat(terms).filter(isRational);
    const [first = null, ...rest] = numbers;
    return first && rest.reduce((a, b) => (compare(b, a) * sign > 0 ? b : a), first);
  };

const stepped = (round: (a: Rational) => bigint): Work =>
  each((value, by) => {
    const times = exact.div(value, by);
    return times && exact.mul(rational(round(times)), by);
  });

const total: Work = (...terms) => {
  const all = flat(terms);
  return all.every(isRational) ? all.reduce(exact.add, exact.whole(0)) : null;
};

const OPERATIONS: Readonly<Record<string, Work>> = {
  add: each(exact.add),
  sub: each(exact.sub),
  mul: each(exact.mul),
  div: each(exact.div),
  lt: each((a, b) => compare(a, b) < 0),
  le: each((a, b) => compare(a, b) <= 0),
  tan: each(exact.tangent),
  ceil: stepped(exact.ceil),
  floor: stepped(exact.floor),
  round: stepped(exact.roundHalfAway),
  same: (one = null, other = null) => same(one, other),
  all: (...terms) => flat(terms).every((one) => one === true),
  any: (...terms) => flat(terms).some((one) => one === true),
  not: (term) => term !== true,
  given: (term) => term !== null,
  where: (condition, then = null, otherwise = null) => (condition === true ? then : otherwise),
  min: best(-1),
  max: best(1),
  total,
  running: (term = null) =>
    isList(term) ? term.map((_, at) => total(term.slice(0, at + 1))) : null,
  count: (term = null) => (isList(term) ? exact.whole(term.length) : null),
  joined: (...terms) => flat(terms),
  sentences: (...terms) => terms.filter((one) => typeof one === 'string').join(' ') || null,
};

// biome-ignore lint/suspicious/noExplicitAny: as in Step
function lookup(table: Table, values: readonly Value[], args: any[]): Value {
  const [, column, keys, near] = args;
  const cell = (row: readonly Plain[], name: string): Value =>
    toValue(row[table.columns.indexOf(name)] ?? null);
  let rows = table.rows.filter((row) =>
    keys.every(([name, at]: [string, number]) => same(cell(row, name), values[at] ?? null)),
  );
  if (near) {
    const [how, name, at] = near;
    const sought = values[at] ?? null;
    if (!isRational(sought)) return null;
    const sign = how === 'up' ? 1 : -1;
    const gap = (row: readonly Plain[]): number =>
      compare(cell(row, name) as Rational, sought) * sign;
    rows = rows
      .filter((row) => isRational(cell(row, name)) && gap(row) >= 0)
      .sort((a, b) => compare(cell(a, name) as Rational, cell(b, name) as Rational) * sign);
  }
  return rows[0] ? cell(rows[0], column) : null;
}

function say(
  template: string,
  slots: readonly (readonly [string, string, number])[],
  values: readonly Value[],
  unit: Unit,
): Value {
  let words = template;
  for (const [slot, form, at] of slots) {
    const text = written(form, values[at] ?? null, unit);
    if (text === null) return null;
    words = words.split(`{${slot}}`).join(text);
  }
  return words;
}
