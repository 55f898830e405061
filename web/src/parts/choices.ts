// What a tap would record: worked out before it is offered, so that the button can say it.
import type { Body } from '../twins/facts.ts';
import { keysOf, type Mark, type Marks, SIDES } from '../twins/marks.ts';
import type { LeftOpen } from './steps.ts';
import { leftOpen, operation } from './steps.ts';

// What is worked on, a part or a rivet line, as far as recording needs to know it.
export interface Ground {
  marks: Marks;
  strip: string;
  count: number | null; // holes; null where they are not counted
  pieces: number;
  open: LeftOpen[]; // holes that stay open on purpose
  die: string | null;
  alongLines: boolean; // the film comes off along the rivet lines only
  together: string[][]; // operations that one tap records at once
  windowH: number | null; // hours in which a cleaned face is to be primed
  finalAfterDimple: boolean; // holes get their final size after dimpling
  holesAt?: Record<string, number | null>; // of a line: layer -> how many of its holes it has
  waiting?: string[]; // why the rivets of a line are not to be set yet, in sentences
}

export interface Choice {
  op: string;
  layer: string | null;
  result: 'all' | 'some' | 'none';
  done: number | null;
  of: number | null;
  sides: string[] | null; // null where the operation has none
  open: LeftOpen[];
  die?: string | null;
  lot?: string | null;
  coats?: number | null;
  looked?: boolean;
  note?: string;
}

export function marksOf(ground: Ground, op: string, layer: string | null): [string, Mark][] {
  const keys = keysOf(operation(op), layer, null);
  return keys.flatMap((key): [string, Mark][] => {
    const mark = ground.marks[key];
    return mark ? [[key, mark]] : [];
  });
}

// The sides that one tap speaks of: those asked for and not done yet, else all that are asked for.
function sidesOf(marks: [string, Mark][]): string[] {
  const side = ([key]: [string, Mark]): string => key.split(':').pop() ?? '';
  const asked = marks.filter(([, mark]) => mark.want === 'do');
  const open = asked.filter(([, mark]) => mark.is !== 'done');
  if (open.length) return open.map(side);
  return asked.length ? asked.map(side) : [...SIDES];
}

// How many there are: holes, or pieces in a bag; null where it is one thing or not counted.
export function wholeOf(ground: Ground, op: string, layer: string | null): number | null {
  if (!operation(op).on_holes) return ground.pieces > 1 ? ground.pieces : null;
  const grown = marksOf(ground, op, layer)
    .filter(([, mark]) => ['again', 'part'].includes(mark.is))
    .map(([, mark]) => mark.of ?? 0);
  const at = layer === null ? undefined : ground.holesAt?.[layer];
  const count = at === undefined ? ground.count : at;
  return count === null ? null : Math.max(count, ...grown);
}

// Everything of an operation done, but for what stays open on purpose.
export function allOf(ground: Ground, op: string, layer: string | null = null): Choice {
  const row = operation(op);
  const marks = marksOf(ground, op, layer);
  const of = wholeOf(ground, op, layer);
  const filled = marks.some(([, mark]) => mark.is === 'done' && mark.open > 0);
  const open = op === 'rivet' && !filled ? ground.open : [];
  const choice: Choice = {
    op,
    layer,
    result: 'all',
    done: of === null ? null : Math.max(0, of - leftOpen(open)),
    of,
    sides: row.sided ? sidesOf(marks) : null,
    open,
  };
  if (op === 'dimple' && ground.die) choice.die = ground.die;
  return choice;
}

// The operations that the main button records: the one asked for, or the next with those that
// the template takes in the same tap.
export function mainOps(ground: Ground, next: string, asked: string | null): string[] {
  if (asked) return [asked];
  if (!next) return [];
  const letter = (op: string): string => {
    const words = marksOf(ground, op, null).map(([, mark]) => mark);
    const open = words.some((mark) => ['todo', 'part', 'again'].includes(mark.is));
    return words.some((mark) => mark.is === 'look') ? 'look' : open ? 'open' : 'settled';
  };
  if (letter(next) === 'look') return [next];
  const picked: string[] = [];
  const group = ground.together.find((ops) => ops.includes(next)) ?? [next];
  for (const op of group) {
    const ready = operation(op).after.every((e) => picked.includes(e) || letter(e) === 'settled');
    if (letter(op) === 'open' && ready) picked.push(op);
  }
  return picked.includes(next) ? picked : [next];
}

// Is it in doubt whether this harmful operation was done? Then it is asked, not offered.
export function inDoubt(ground: Ground, op: string, layer: string | null): boolean {
  return marksOf(ground, op, layer).some(([, mark]) => mark.is === 'look');
}

// Keys that the choice would work on although they are to stay bare.
export function bareKeys(ground: Ground, choice: Choice): string[] {
  if (choice.result === 'none') return [];
  const keys = keysOf(operation(choice.op), choice.layer, choice.sides);
  return keys.filter((key) => ground.marks[key]?.want === 'bare');
}

// A sentence where the choice cannot be recorded; empty when it can.
export function wrongWithChoice(choice: Choice): string {
  const { result, done, of, open, sides } = choice;
  if (sides && !sides.length) return 'Choose at least one side.';
  if (result === 'some' && of !== null && done !== null && done > of)
    return `${done} is more than the ${of} there are. Check the figure.`;
  if (of !== null && leftOpen(open) > of)
    return `${leftOpen(open)} left open is more than the ${of} there are. Check the figure.`;
  if (open.some((hole) => hole.n > 0 && !hole.fills.trim()))
    return 'Say what will fill the holes left open, for example nut plates.';
  return '';
}

// The choice as it is recorded. Some that turn out to be all, or none, are recorded as that.
export function settle(choice: Choice): Choice {
  const { result, of, done, open } = choice;
  if (result === 'none') return { ...choice, done: 0, open: [] };
  if (result === 'some' && done === 0) return { ...choice, result: 'none', open: [] };
  if (result === 'some' && of !== null && done === of)
    return { ...choice, result: 'all', open: [] };
  if (result === 'all')
    return { ...choice, done: of === null ? null : Math.max(0, of - leftOpen(open)) };
  return { ...choice, open: [] };
}

export function bodyOf(choice: Choice): Body {
  const { op, result, done, of } = choice;
  const body: Body = { op, result, done, of };
  if (choice.layer) body.layer = choice.layer;
  if (choice.sides) body.sides = choice.sides;
  if (choice.open.length) body.open = choice.open;
  if (choice.die) body.die = choice.die;
  if (choice.lot) body.lot = choice.lot;
  if (choice.coats) body.coats = choice.coats;
  if (choice.looked) body.looked = true;
  if (choice.note) body.note = choice.note;
  return body;
}
