// A joint in section, from the sums of the rivet's length and of flush heads. Pure.
import { isUnreckoned, type Rulebook, reckon } from '../twins/reckon.ts';
import type { RivetHead, StackLayer } from './drawings/section.ts';
import type { Stack } from './drawings/stack.ts';
import { givenNm, nmList, nmOf, numberOf, ofRivet, type Reckoned, type Shown } from './drawn.ts';

type Treat = StackLayer['treat'];

/** The stack with its rivet before driving and driven, and the stack before where it was given. */
export function rivetStack({ rules, answer, read, unit }: Reckoned): Shown[] {
  const [diameter, out] = [nmOf(read.diameter), givenNm(answer, 'protrusion_mm')];
  if (diameter === null || out === null) return [];
  const [stack, was] = [nmList(read.stack), nmList(read.was)];
  const joint = { diameter, flush: read.head === 'flush', stack, out, added: addedTo(stack, was) };
  return drawn(rules, joint, { was, dash: answer.was_dash }, unit);
}

/** The line's stack with the new piece in it, and as it was without. */
export function pieceStack(
  { rules, answer, read, unit }: Reckoned,
  where: 'between' | 'last',
): Shown[] {
  const [diameter, piece] = [nmOf(read.diameter), givenNm(answer, 'thickness_mm')];
  const [was, step] = [nmList(read.stack), numberOf(rules, 'rivet length unit')];
  if (diameter === null || piece === null || step === null) return [];
  if (typeof answer.dash !== 'number' || !was.length) return [];
  const at = where === 'between' ? 1 : was.length;
  const stack = [...was.slice(0, at), piece, ...was.slice(at)];
  const out = Math.round(answer.dash * step) - total(stack);
  const added = stack.map((_, index) => index === at);
  const joint = { diameter, flush: read.head === 'flush', stack, out, added };
  return drawn(rules, joint, { was, dash: answer.was_dash }, unit);
}

interface Joint {
  diameter: number;
  flush: boolean;
  stack: readonly number[];
  added: readonly boolean[];
  /** how much of the shank stands out */
  out: number;
}

function drawn(
  rules: Rulebook,
  { diameter, flush, stack, added, out }: Joint,
  before: { was: readonly number[]; dash: unknown },
  unit: Stack['unit'],
): Shown[] {
  const head = headOf(rules, diameter, flush);
  if (!head) return [];
  const treats = treatsOf(rules, stack, diameter, head);
  const layers = stack.map((thickness, at): StackLayer => {
    const layer: StackLayer = { thickness, treat: treats[at] ?? 'plain' };
    return added[at] ? { ...layer, added: true } : layer;
  });
  const props: Stack = { layers, rivet: { diameter, head }, out, unit, ...driven(rules, diameter) };
  const was = asItWas(rules, before.dash, before.was, diameter, head);
  if (was) props.was = was;
  return [{ is: 'stack', props }];
}

const total = (all: readonly number[]): number => all.reduce((sum, one) => sum + one, 0);

/** The sheet with its flush rivet, and the dimpled skin that lies above it. */
export function flushStack({ rules, answer, read, unit }: Reckoned): Shown[] {
  const [diameter, thickness, under] = [
    nmOf(read.diameter),
    nmOf(read.thickness),
    nmOf(read.under),
  ];
  const head = diameter === null ? null : headOf(rules, diameter, true);
  const nominal = numberOf(rules, 'protrusion nominal');
  if (diameter === null || thickness === null || !head || nominal === null) return [];
  // what fails is drawn as it would be: countersunk through
  const treat: Treat = answer.treatment === 'dimple' && under === null ? 'dimple' : 'countersink';
  const layers: StackLayer[] = [{ thickness, treat }];
  if (under !== null) layers.unshift({ thickness: under, treat: 'dimple' });
  const rivet = { diameter, head };
  const out = Math.round(nominal * diameter);
  return [{ is: 'stack', props: { layers, rivet, out, unit, ...driven(rules, diameter) } }];
}

export function headOf(rules: Rulebook, diameter: number, flush: boolean): RivetHead | null {
  const size = (column: string): number | null => ofRivet(rules, diameter, column);
  const kind = flush ? 'flush' : 'universal';
  const [across, height] = [size(`${kind}_head_diameter_in`), size(`${kind}_head_height_in`)];
  const angle = numberOf(rules, 'flush head angle');
  if (across === null || height === null || angle === null) return null;
  return flush
    ? { shape: 'flush', diameter: across, height, angle }
    : { shape: 'universal', diameter: across, height };
}

/** The nominal shop head and the finished hole, where the rules have them. */
export function driven(rules: Rulebook, diameter: number): Pick<Stack, 'driven' | 'hole'> {
  const [wide, high] = [
    numberOf(rules, 'shop head width nominal'),
    numberOf(rules, 'shop head height nominal'),
  ];
  const hole = ofRivet(rules, diameter, 'hole_in');
  return {
    ...(wide === null || high === null
      ? {}
      : { driven: { across: Math.round(wide * diameter), high: Math.round(high * diameter) } }),
    ...(hole === null ? {} : { hole }),
  };
}

function asItWas(
  rules: Rulebook,
  dash: unknown,
  was: readonly number[],
  diameter: number,
  head: RivetHead,
): Stack['was'] | null {
  const step = numberOf(rules, 'rivet length unit');
  if (typeof dash !== 'number' || step === null || !was.length) return null;
  const treats = treatsOf(rules, was, diameter, head);
  const out = Math.round(dash * step) - total(was);
  return { layers: was.map((thickness, at) => ({ thickness, treat: treats[at] ?? 'plain' })), out };
}

/** Which sheets are not in the stack as it was, taking each of those once. */
export function addedTo(stack: readonly number[], was: readonly number[]): boolean[] {
  if (!was.length) return stack.map(() => false);
  const left = [...was];
  return stack.map((thickness) => {
    const at = left.indexOf(thickness);
    if (at < 0) return true;
    left.splice(at, 1);
    return false;
  });
}

/**
 * How each sheet takes the head, by the rule for flush heads: sheets are dimpled until one is thick
 * enough to be countersunk under those above.
 */
function treatsOf(
  rules: Rulebook,
  stack: readonly number[],
  diameter: number,
  head: RivetHead,
): Treat[] {
  const treats: Treat[] = [];
  for (const thickness of stack) {
    const above = treats.at(-1);
    if (head.shape !== 'flush' || (above && above !== 'dimple')) treats.push('plain');
    else treats.push(flushTreat(rules, thickness, diameter, stack[treats.length - 1]));
  }
  return treats;
}

function flushTreat(
  rules: Rulebook,
  thickness: number,
  diameter: number,
  above: number | undefined,
): Treat {
  const mm = (nm: number): string => `${nm / 1e6} mm`;
  const typed: Record<string, string> = { thickness: mm(thickness), diameter: mm(diameter) };
  if (above !== undefined) typed.under = mm(above);
  const found = reckon(rules, 'flush', typed, 'mm');
  return !isUnreckoned(found) && found.treatment === 'dimple' ? 'dimple' : 'countersink';
}
