// What sawing takes in this workshop: what it said itself, or else what is common practice. Pure.
import { sawing as LISTED } from '../../generated/sawing.json';
import type { Sawing } from '../../store/database.ts';
import type { Unit } from '../../twins/lengths.ts';
import type { Measure } from '../wanted.ts';

export const ALLOWANCES = ['kerf', 'dress_off', 'shortest', 'narrowest'] as const;
export type Allowance = (typeof ALLOWANCES)[number];

/** The width of a saw cut, what is dressed off each sawn end, the smallest pieces worth keeping. */
export type Allowances = Record<Allowance, Measure & { said: boolean; note: string }>;

/** All of them; `said` is false where the workshop has said nothing and common practice stands. */
export function allowancesIn(unit: Unit, own: Sawing = {}): Allowances {
  const all = ALLOWANCES.map((name) => {
    const listed = LISTED.find((one) => one.name === name && one.unit === unit);
    const length = own[name] ?? listed?.length;
    if (!listed || !length) throw new Error(`no ${name} in ${unit} is listed`);
    return [name, { ...length, said: own[name] !== undefined, note: listed.note }] as const;
  });
  return Object.fromEntries(all) as Allowances;
}
