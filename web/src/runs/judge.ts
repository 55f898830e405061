// Whether a part that is scanned in a run may be recorded at once. Pure: nothing is recorded here.
// The order of the looks, and what is recorded, stand here; each look is in looks.ts.
import { allOf, type Choice, type Ground } from '../parts/choices.ts';
import { operation, type Steps } from '../parts/steps.ts';
import { LOOKS, outOfOrder } from './looks.ts';
import { before } from './order.ts';
import type { StepPlan } from './plan.ts';

/** A part as a run sees it. */
export interface Offered {
  id: string;
  name: string; // with its hand: "Rib 4 left"
  hand: string | null;
  station: string | null;
  /** its assembly and those that this one lies in, by id */
  assemblies: string[];
  ground: Ground;
  steps: Steps | null;
  /** the rivet lines it is in, with its own strip in each */
  lines: { id: string; name: string; strip: string }[];
  /** its tags that go when the film goes, in words; '' where there is none */
  tagOnFilm: string;
}

export interface SoFar {
  parts: ReadonlySet<string>; // recorded in this run
  hand: string | null; // the hand that the run is held to
  filmTagsSafe: boolean;
  assemblyName: string; // that the run is for; '' for any
  now: number; // UTC ms
}

export type Why =
  | 'wrong hand'
  | 'elsewhere'
  | 'bare'
  | 'look'
  | 'harmful'
  | 'order'
  | 'tag on film'
  | 'done'
  | 'not needed';

/** What a person has said about this part in this run already. */
export interface Said {
  passed: Why[];
  sides?: string[];
  looked?: boolean;
  finding?: boolean;
}

export interface Way {
  label: string;
  said: Said;
  lifts?: 'hand' | 'film'; // from now on, for the whole run
}

export type Verdict =
  /** the choices go into the record at once; `finding`: with a finding about keeping bare */
  | { is: 'record'; choices: Choice[]; finding: boolean }
  /** nothing is recorded; `again` records all the same */
  | {
      is: 'say';
      why: Why | 'in this run' | 'in lines';
      sentence: string;
      again: Said | null;
      label: string;
    }
  /** a full stop before anything is recorded */
  | { is: 'stop'; why: Why; title: string; text: string; leave: string; ways: Way[] };

const NOTHING_SAID: Said = { passed: [] };

export function judge(
  plan: StepPlan,
  part: Offered,
  soFar: SoFar,
  said: Said = NOTHING_SAID,
): Verdict {
  const asked = { plan, part, soFar, said, choice: choiceOf(plan, part, said) };
  if (soFar.parts.has(part.id) && !said.passed.includes('done'))
    return {
      is: 'say',
      why: 'in this run',
      sentence: `${part.name} is recorded in this run already. Nothing is recorded again.`,
      again: null,
      label: '',
    };
  for (const look of LOOKS) {
    const found = look(asked);
    if (found) return found;
  }
  const { missing, together } = before(plan.op, asked.choice, part, soFar.now);
  if (missing.length && !said.passed.includes('order')) return outOfOrder(asked, missing);
  const earlier = missing.length ? [] : together.map((op) => allOf(part.ground, op));
  return { is: 'record', choices: [...earlier, asked.choice], finding: said.finding ?? false };
}

export interface Asked {
  plan: StepPlan;
  part: Offered;
  soFar: SoFar;
  said: Said;
  choice: Choice;
}

/** What the run records of this part: all of it, on the sides asked for. */
function choiceOf(plan: StepPlan, part: Offered, said: Said): Choice {
  const choice = allOf(part.ground, plan.op);
  const sides = said.sides ?? (operation(plan.op).sided ? plan.sides : null);
  if (sides) choice.sides = sides;
  if (plan.die) choice.die = plan.die;
  if (plan.op === 'prime' && plan.lot) choice.lot = plan.lot;
  if (plan.op === 'prime' && plan.coats) choice.coats = plan.coats;
  if (said.looked) choice.looked = true;
  return choice;
}
