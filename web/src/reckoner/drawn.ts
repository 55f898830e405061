// Which drawing stands beside an answer, and what it shows: only what was typed, what the answer
// says, and what the rules' own tables hold. Pure.

import type { Unit } from '../twins/lengths.ts';
import { isRational, toNumber } from '../twins/rational.ts';
import { type Answer, type Rulebook, readAll, type Sum } from '../twins/reckon.ts';
import { toValue, type Value } from '../twins/rules.ts';
import type { Typed } from './address.ts';
import { spliceRows, stiffenerRow } from './bentrows.ts';
import type { Flat } from './drawings/flat.ts';
import type { Layout } from './drawings/layout.ts';
import type { Rings } from './drawings/rings.ts';
import type { Stack } from './drawings/stack.ts';
import { flatShape, pieceFlat } from './flats.ts';
import { flushStack, pieceStack, rivetStack } from './joints.ts';
import {
  blankShape,
  edgeShape,
  holeShape,
  layoutShape,
  patchShape,
  upsizeShape,
} from './layouts.ts';

export type Shown =
  | { is: 'stack'; props: Stack }
  | { is: 'layout'; props: Layout }
  | { is: 'flat'; props: Flat }
  | { is: 'hole'; props: Rings };

/** What a drawing is made from. */
export interface Reckoned {
  rules: Rulebook;
  answer: Answer;
  /** the inputs as they were read */
  read: Readonly<Record<string, Value>>;
  unit: Unit;
}

const DRAWN: Readonly<Record<string, (of: Reckoned) => Shown[]>> = {
  rivet: rivetStack,
  flush: flushStack,
  edge: edgeShape,
  hole: holeShape,
  layout: layoutShape,
  upsize: upsizeShape,
  flat: flatShape,
  shim: (of) => [...pieceStack(of, 'between'), ...blankShape(of)],
  patch: patchShape,
  'section-splice': (of) => [...pieceFlat(of), ...spliceRows(of)],
  stiffener: (of) => [...pieceStack(of, 'last'), ...pieceFlat(of), ...stiffenerRow(of)],
};

export function drawingsOf(
  rules: Rulebook,
  sum: Sum,
  answer: Answer,
  inputs: Typed,
  unit: Unit,
): Shown[] {
  const draw = DRAWN[sum.name];
  const values = readAll(rules, sum, inputs, unit);
  if (!draw || answer.verdict === 'not covered' || 'sentence' in values) return [];
  return draw({ rules, answer, read: values.read, unit });
}

/** A length that was read, or one of a table, in nm; null where there is none. */
export function nmOf(value: Value | undefined): number | null {
  return value !== undefined && isRational(value) ? toNumber(value, 0) : null;
}

export function nmList(value: Value | undefined): number[] {
  const all: readonly Value[] = Array.isArray(value) ? value : [];
  return all.flatMap((one) => nmOf(one) ?? []);
}

/** A figure of the answer in millimetres, in nm. */
export function givenNm(answer: Answer, key: string): number | null {
  const value = answer[key];
  return typeof value === 'number' ? Math.round(value * 1e6) : null;
}

/** A cell of the rivet table in nm, in the row of this diameter (nm). */
export function ofRivet(rules: Rulebook, diameter: number, column: string): number | null {
  const table = rules.tables.rivet_sizes;
  const at = (name: string): number => table?.columns.indexOf(name) ?? -1;
  const row = table?.rows.find(
    (cells) => nmOf(toValue(cells[at('diameter_in')] ?? null)) === diameter,
  );
  return nmOf(toValue(row?.[at(column)] ?? null));
}

/** A number of the rules, such as 1.5; in nm where it is a length. */
export function numberOf(rules: Rulebook, name: string): number | null {
  const value = toValue(rules.constants[name] ?? null);
  return isRational(value) ? toNumber(value, 6) : null;
}
