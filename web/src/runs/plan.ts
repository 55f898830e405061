// What a run does with every part that is scanned. Pure.
import { operation } from '../parts/steps.ts';
import { OPERATIONS } from '../twins/marks.ts';

export type Hands = 'first' | 'left' | 'right' | 'both';

export interface StepPlan {
  what: 'step';
  op: string;
  sides: string[] | null; // null: those that the steps of each part ask for
  die: string;
  lot: string;
  coats: number | null;
  hands: Hands; // 'first': the hand of the first part that has one
  assembly: string | null; // only for this assembly
  station: string; // only for this station; '' for any
}
export interface PutPlan {
  what: 'put';
  to: string; // a place
}
export type Plan = StepPlan | PutPlan;

export function stepPlan(op: string): StepPlan {
  return {
    what: 'step',
    op,
    sides: null,
    die: '',
    lot: '',
    coats: null,
    hands: 'first',
    assembly: null,
    station: '',
  };
}

/** The run that an address asks for: ?op=deburr or ?place=ID; null where it asks for none. */
export function planAsked(search: string): Plan | null {
  const asked = new URLSearchParams(search);
  const op = asked.get('op');
  if (op && OPERATIONS.some((row) => row.op === op)) return stepPlan(op);
  const to = asked.get('place');
  return to ? { what: 'put', to } : null;
}

export function samePlan(one: Plan, other: Plan): boolean {
  if (one.what === 'put' || other.what === 'put')
    return one.what === 'put' && other.what === 'put' && one.to === other.to;
  return one.op === other.op;
}

/** "Dimple", or "Put in Shelf 2". */
export function planTitle(plan: Plan, placeName: (id: string) => string): string {
  if (plan.what === 'put') return `Put in ${placeName(plan.to)}`;
  const { name } = operation(plan.op);
  return name.charAt(0).toUpperCase() + name.slice(1);
}

/** What the run asks besides its operation, as one sentence: "Left hand only, inside, die 3/32." */
export function planWords(plan: StepPlan, hand: string | null, assemblyName: string): string {
  const row = operation(plan.op);
  const said = [
    handWords(plan.hands, hand),
    row.sided ? sideWords(plan.sides) : '',
    plan.die ? `die ${plan.die}` : '',
    plan.lot ? `lot ${plan.lot}` : '',
    plan.coats === null ? '' : plan.coats === 1 ? '1 coat' : `${plan.coats} coats`,
    assemblyName ? `for ${assemblyName}` : '',
    plan.station ? `for station ${plan.station}` : '',
  ].filter(Boolean);
  const words = said.join(', ');
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

function handWords(hands: Hands, hand: string | null): string {
  if (hands === 'both') return 'either hand';
  if (hand) return `${hand} hand only`;
  return 'one hand only, that of the first part';
}

function sideWords(sides: string[] | null): string {
  if (!sides) return 'the sides that its steps ask for';
  return sides.length > 1 ? 'both sides' : `${sides[0]} only`;
}
