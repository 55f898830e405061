// Where things stand across the side view of a joint, and what its figures say.
import type { Unit } from '../../twins/lengths.ts';
import { inDiameters, lengthText, thicknessText } from './figures.ts';
import { widest } from './picture.ts';
import type { Section, StackLayer } from './section.ts';
import type { Stack } from './stack.ts';

/** One stack with one or two rivets in it, before it is placed. */
export interface Stand {
  layers: readonly StackLayer[];
  section: Section;
  out: number;
  driven: Stack['driven'];
  title: string;
}
/** Where things stand across a drawing, px. */
export interface Across {
  first: number;
  second: number;
  end: number;
  labels: number;
  outLine: number;
  /** where the figures beside the undriven rivet end */
  after: number;
  width: number;
}

export const LEFT = 24; // where the sheets begin, beside the line of the grip
const FAN = 22; // from the end of the sheets to their figures

export function headHeight({ rivet: { head } }: Stack, { proud }: Section): number {
  return head.shape === 'universal' ? head.height : proud;
}

export function across(stack: Stack, stand: Stand, scale: number, width: number): Across {
  const { rivet } = stack;
  const radius = Math.max(rivet.head.diameter / 2, stand.section.reach) * scale;
  const first = LEFT + radius + 6;
  const dimpled = stand.section.rim > stand.section.grip;
  const clear = dimpled ? Math.max(stand.section.reach, rivet.diameter / 2) : rivet.diameter / 2;
  const outLine = first + clear * scale + 10;
  const after = outLine + 15 + widest(outLines(stack, stand.out)) + 8;
  if (!stand.driven) {
    const end = Math.max(first + radius + 8, after);
    return { first, second: first, end, labels: end + FAN, outLine, after, width };
  }
  const lower = Math.max(dimpled ? radius : 0, (stand.driven.across / 2) * scale) + 4;
  const second = Math.max(after + lower, first + 2 * radius + 12);
  const end = second + radius + 8;
  return { first, second, end, labels: end + FAN, outLine, after, width };
}

export function outLines({ rivet, unit }: Stack, out: number): string[] {
  return [lengthText(out, unit), inDiameters(out, rivet.diameter)];
}

/** How wide and how high the shop head is. */
export function drivenLines({ driven, rivet, unit }: Stack): string[] {
  if (!driven) return [];
  const { across: wide, high } = driven;
  return [
    `${lengthText(wide, unit, false)} × ${lengthText(high, unit)}`,
    `${inDiameters(wide, rivet.diameter)} × ${inDiameters(high, rivet.diameter)}`,
  ];
}

export function labelOf({ thickness, added }: StackLayer, unit: Unit): string[] {
  const figure = thicknessText(thickness, unit, false);
  return added ? [figure, 'new'] : [figure];
}
