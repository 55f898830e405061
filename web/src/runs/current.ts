// The run that is under way: kept in this tab, so that a reload goes on with it. What was recorded
// is in the record already; this is only the list of it, to show and to take back.
import { signal } from '@preact/signals';
import { type Move, withdraw } from '../places/moving.ts';
import { openedPhone } from '../shell/state.ts';
import { OPERATIONS } from '../twins/marks.ts';
import type { Plan } from './plan.ts';

export interface Entry {
  thing: string; // its id
  name: string;
  how: string; // "all 38"
  hand: string | null;
  at: number; // UTC ms
  events: Move['entries'];
}
export interface LeftOut {
  thing: string;
  name: string;
  why: string;
}
export interface Run {
  workshop: string;
  plan: Plan;
  entries: Entry[]; // in the order they were scanned
  leftOut: LeftOut[];
  eitherHand: boolean; // "either hand from here on"
  filmTagsSafe: boolean;
  finished: boolean;
}

const KEY = 'bucktail-run';
export const run = signal<Run | null>(null);
let loaded = false;

/** The run of this tab; read once from what the tab kept. */
export function currentRun(): Run | null {
  if (!loaded) {
    loaded = true;
    run.value = kept();
  }
  return run.value;
}

function kept(): Run | null {
  try {
    const read = JSON.parse(sessionStorage.getItem(KEY) ?? 'null') as Run | null;
    if (read?.workshop !== openedPhone().identity.workshop) return null;
    const { plan } = read;
    const known = plan.what === 'put' || OPERATIONS.some((row) => row.op === plan.op);
    return known && Array.isArray(read.entries) ? read : null;
  } catch {
    return null; // written by another version, or not allowed to be read
  }
}

export function setRun(next: Run | null): void {
  loaded = true;
  run.value = next;
  try {
    if (next) sessionStorage.setItem(KEY, JSON.stringify(next));
    else sessionStorage.removeItem(KEY);
  } catch {
    // the run goes on without it; only a reload would lose the list
  }
}

export function startRun(plan: Plan): void {
  setRun({
    workshop: openedPhone().identity.workshop,
    plan,
    entries: [],
    leftOut: [],
    eitherHand: false,
    filmTagsSafe: false,
    finished: false,
  });
}

export function changeRun(more: Partial<Run>): void {
  const now = currentRun();
  if (now) setRun({ ...now, ...more });
}

/** The hand that the run is held to; null while it may be either. */
export function handOf({ plan, entries, eitherHand }: Run): string | null {
  if (plan.what === 'put' || plan.hands === 'both' || eitherHand) return null;
  if (plan.hands !== 'first') return plan.hands;
  return entries.find((entry) => entry.hand)?.hand ?? null;
}

export function addEntry(entry: Entry): void {
  const now = currentRun();
  if (!now) return;
  const leftOut = now.leftOut.filter((one) => one.thing !== entry.thing);
  setRun({ ...now, entries: [...now.entries, entry], leftOut });
}

export function addLeftOut(one: LeftOut): void {
  const now = currentRun();
  if (!now || now.entries.some((entry) => entry.thing === one.thing)) return;
  const others = now.leftOut.filter((each) => each.thing !== one.thing);
  setRun({ ...now, leftOut: [...others, one] });
}

/** Takes the last scan back; what it was, null where there is none. */
export async function undoLast(): Promise<Entry | null> {
  const now = currentRun();
  const last = now?.entries.at(-1);
  if (!now || !last) return null;
  await withdraw(last.events);
  setRun({ ...now, entries: now.entries.slice(0, -1) });
  return last;
}

/** Takes every scan of the run back, in one record. */
export async function undoAll(): Promise<number> {
  const now = currentRun();
  if (!now) return 0;
  await withdraw(now.entries.flatMap((entry) => entry.events));
  setRun({ ...now, entries: [] });
  return now.entries.length;
}
