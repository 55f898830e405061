// What a part needs: the steps as they are recorded, and the templates they start from.
import templatesTable from '../generated/templates.json';
import type { State } from '../twins/fold.ts';
import { OPERATIONS, type Operation, SIDES } from '../twins/marks.ts';

export type Want = 'do' | 'not' | 'bare';
export type Supplied = 'none' | 'pilot' | 'final';
export type LeftOpen = { n: number; fills: string };
// the body of steps.set.v1; keys of ops are an operation, or operation:side where the sides differ
export type Steps = {
  template: string;
  ops: { [key: string]: Want };
  holes: { count: number | null; supplied: Supplied };
  open: LeftOpen[];
  along_lines: boolean;
  final_after_dimple: boolean;
  die: string | null;
  window_h: number | null;
};
export interface Template {
  template: string;
  name: string;
  text: string;
  ops: { [key: string]: Want };
  supplied: Supplied;
  along_lines: boolean;
  window_h: number;
  together: string[][];
}
export const TEMPLATES = templatesTable as unknown as Template[];

export const SUPPLIED_WORDS: Record<Supplied, string> = {
  none: 'no holes in it yet',
  pilot: 'pilot holes',
  final: 'holes at final size',
};

export function operation(op: string): Operation {
  const row = OPERATIONS.find((one) => one.op === op);
  if (!row) throw new Error(`no operation is called ${op}`);
  return row;
}

export function templateOf(name: string): Template | undefined {
  return TEMPLATES.find((one) => one.template === name);
}

export function stepsFrom(template: Template, count: number | null): Steps {
  return {
    template: template.template,
    ops: { ...template.ops },
    holes: { count, supplied: template.supplied },
    open: [],
    along_lines: template.along_lines,
    final_after_dimple: false,
    die: null,
    window_h: template.window_h,
  };
}

// Another template for a part that is known already: how many holes it has does not change.
export function changeTemplate(steps: Steps, template: Template): Steps {
  const { open, die, final_after_dimple } = steps;
  return { ...stepsFrom(template, steps.holes.count), open, die, final_after_dimple };
}

export function stepsOf(state: State): Steps | null {
  return (state.steps as Steps | undefined) ?? null;
}

// What is asked of the two sides of a sided operation, inside first.
export function sidesAsked(steps: Steps, op: string): [Want, Want] {
  const asked = (side: string): Want => steps.ops[`${op}:${side}`] ?? steps.ops[op] ?? 'not';
  return [asked('inside'), asked('outside')];
}

// Asks something else of an operation: one word, or two where the sides differ.
export function askOf(steps: Steps, op: string, inside: Want, outside = inside): Steps {
  const ops = { ...steps.ops };
  for (const key of [op, ...SIDES.map((side) => `${op}:${side}`)]) delete ops[key];
  if (inside === outside) ops[op] = inside;
  else Object.assign(ops, { [`${op}:inside`]: inside, [`${op}:outside`]: outside });
  return { ...steps, ops };
}

// The choices for both sides of an operation, in words, by the two wants joined with a slash.
export const SIDE_CHOICES: [string, string][] = [
  ['do/do', 'both sides'],
  ['do/not', 'inside only'],
  ['not/do', 'outside only'],
  ['do/bare', 'inside; keep outside bare'],
  ['bare/do', 'outside; keep inside bare'],
  ['not/not', 'not needed'],
  ['bare/bare', 'keep bare'],
  ['bare/not', 'not needed; keep inside bare'],
  ['not/bare', 'not needed; keep outside bare'],
];
export const CHOICES: [Want, string][] = [
  ['do', 'do'],
  ['not', 'not needed'],
  ['bare', 'keep bare'],
];

export function leftOpen(open: LeftOpen[]): number {
  return open.reduce((sum, hole) => sum + hole.n, 0);
}

// A sentence where the steps cannot be recorded as they stand; empty when they can.
export function wrongWith(steps: Steps): string {
  const { count } = steps.holes;
  if (count !== null && leftOpen(steps.open) > count)
    return `${leftOpen(steps.open)} holes are to stay open, but the part has ${count}. Change one of the two.`;
  if (steps.open.some((hole) => hole.n > 0 && !hole.fills.trim()))
    return 'Say what will fill the holes that stay open, for example nut plates.';
  return '';
}

// Holes to stay open as they are recorded: rows that say nothing are left out.
export function saidOpen(open: LeftOpen[]): LeftOpen[] {
  return open.filter((hole) => hole.n > 0).map(({ n, fills }) => ({ n, fills: fills.trim() }));
}
