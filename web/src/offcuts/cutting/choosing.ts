// What is decided about each piece that stays: kept or recycled, measured otherwise, its tag. Pure.
import type { On } from '../../tags/attaching.ts';
import { readLength, type Unit } from '../../twins/lengths.ts';
import type { Measure } from '../wanted.ts';
import { type Remnant, type Shape, shapeOf } from './leaves.ts';
import { boundsOf, type Region } from './rings.ts';

export type TagWay = 'same' | 'new' | 'none';
export interface Chosen {
  stays: boolean;
  /** typed where it measures otherwise; empty where the drawing holds */
  a: string;
  b: string;
  tag: TagWay;
  code: string;
  on: On | null;
}
export type Choosing = Record<string, Chosen>;
export interface Tagged {
  code: string;
  on: On;
}

/** Narrow ones are offered for recycling; the tag that was on it goes on with the largest kept. */
export function firstChoice(remnants: readonly Remnant[], tag: Tagged | null): Choosing {
  const kept = remnants.filter(({ narrow }) => !narrow);
  const largest = [...kept].sort((one, other) => other.area - one.area)[0];
  return Object.fromEntries(
    remnants.map((one) => [
      one.key,
      {
        stays: !one.narrow,
        a: '',
        b: '',
        tag: tag && one === largest ? 'same' : 'none',
        code: '',
        on: null,
      } satisfies Chosen,
    ]),
  );
}

/** A change to one of them; the tag that was on the offcut can be on one piece only. */
export function chose(all: Choosing, key: string, change: Partial<Chosen>): Choosing {
  const changed = Object.entries(all).map(([other, chosen]): [string, Chosen] => {
    if (other === key) return [other, { ...chosen, ...change }];
    return [
      other,
      change.tag === 'same' && chosen.tag === 'same' ? { ...chosen, tag: 'none' } : chosen,
    ];
  });
  return Object.fromEntries(changed);
}

export interface ReadRemnant {
  shape: Shape;
  /** um2 that was cut off but is neither kept nor dust */
  lost: number;
  problem: string;
  tag: Tagged | null;
}

/** One piece as it will be recorded. `sheet` bounds what it can measure. */
export function readRemnant(
  remnant: Remnant,
  chosen: Chosen,
  tag: Tagged | null,
  sheet: Region,
  unit: Unit,
): ReadRemnant {
  const shape = shapeOf(remnant.region, unit);
  const taken = tagOf(chosen, tag);
  const read: ReadRemnant = { shape, lost: 0, problem: taken.problem, tag: taken.tag };
  if (!chosen.stays) return { ...read, lost: remnant.area, problem: '', tag: null };
  if (shape.kind !== 'rectangle') return read;
  const [a, b] = [measured(chosen.a, shape.a, unit), measured(chosen.b, shape.b, unit)];
  if ('sentence' in a) return { ...read, problem: a.sentence };
  if ('sentence' in b) return { ...read, problem: b.sentence };
  const { x1, y1 } = boundsOf(sheet.outer);
  if (Math.max(a.nm, b.nm) > Math.max(x1, y1) || Math.min(a.nm, b.nm) > Math.min(x1, y1))
    return { ...read, problem: 'That is more than the offcut that was cut. Measure it again.' };
  const lost = Math.max(0, remnant.area - Math.round((a.nm / 1000) * (b.nm / 1000)));
  return { ...read, shape: { kind: 'rectangle', a, b }, lost };
}

function measured(text: string, drawn: Measure, unit: Unit): Measure | { sentence: string } {
  if (!text.trim()) return drawn;
  const read = readLength(text, unit);
  return 'nm' in read ? read : { sentence: read.sentence };
}

function tagOf(chosen: Chosen, tag: Tagged | null): { tag: Tagged | null; problem: string } {
  if (chosen.tag === 'none') return { tag: null, problem: '' };
  if (chosen.tag === 'same') return { tag, problem: '' };
  if (!chosen.code) return { tag: null, problem: 'Scan the new tag, or say that it has none yet.' };
  if (!chosen.on) return { tag: null, problem: 'Say how the tag is fixed.' };
  return { tag: { code: chosen.code, on: chosen.on }, problem: '' };
}
