// The lengths of rivet that stand beside the one the rule gives for a stretch of a rivet line, and
// how far each sticks out. Loads the rules.
import type { Line } from '../parts/lines.ts';
import type { Segment } from '../parts/segments.ts';
import { rivetAnswer } from './linerivet.ts';

export interface Length {
  /** in halves of a dash number: -3.5 is 7 */
  dash: number;
  /** least and most of the shank that sticks out in any of the stretches, in rivet diameters */
  out: readonly [number, number];
  /** is that within what is published, in all of them? */
  within: boolean;
}
export interface Lengths {
  all: readonly Length[];
  /** what is published, in rivet diameters */
  least: number;
  most: number;
}

interface Rule {
  dash: number;
  out: (dash: number) => number;
  least: number;
  most: number;
}

/** The lengths that may be chosen for stretches with one rivet; null where a stack is not known. */
export function lengthsFor(
  line: Pick<Line, 'head'>,
  segments: readonly Pick<Segment, 'layers' | 'fastener' | 'dash'>[],
): Lengths | null {
  const rules = segments.map((one) => ruleFor(line, one));
  const [first] = rules;
  if (!first || rules.some((one) => one === null)) return null;
  const known = rules as Rule[];
  const around = known.flatMap(({ dash }) => [dash - 1, dash, dash + 1]);
  const has = segments.flatMap(({ dash }) => dash ?? []);
  const dashes = [...new Set([...around, ...has])].filter((dash) => dash > 0);
  const all = dashes
    .sort((a, b) => a - b)
    .map((dash): Length => {
      const outs = known.map(({ out }) => out(dash));
      const within = known.every(({ out, least, most }) => out(dash) >= least && out(dash) <= most);
      return { dash, out: [Math.min(...outs), Math.max(...outs)], within };
    });
  return { all, least: first.least, most: first.most };
}

function ruleFor(
  line: Pick<Line, 'head'>,
  { layers, fastener }: Pick<Segment, 'layers' | 'fastener'>,
): Rule | null {
  const answer = rivetAnswer(line, fastener, layers, 'in');
  const given = (key: string): number => {
    const value = answer?.[key];
    return typeof value === 'number' ? value : Number.NaN;
  };
  const [dash, longer] = [given('dash'), given('longer_dash')];
  const [here, there] = [given('protrusion_d'), given('longer_protrusion_d')];
  const [least, most] = [given('protrusion_least_d'), given('protrusion_most_d')];
  if ([dash, longer, here, there, least, most].some(Number.isNaN)) return null;
  const each = (there - here) / (longer - dash); // one sixteenth of an inch, in diameters
  return { dash: dash * 2, out: (halves) => here + (halves / 2 - dash) * each, least, most };
}
