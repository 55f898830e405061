// The stretches of a rivet line in words: what fills their holes, what is not known of them, and
// what changed since they were confirmed. Pure.
import { stackBefore } from './layering.ts';
import type { Line, LineLayer } from './lines.ts';
import { dashWords, type Group, type Segment } from './segments.ts';
import { counted, listed } from './words.ts';

type NameOf = (part: string) => string;

/** The stretch that has the line's own name is what is left of it. */
export const stretchName = ({ name }: Pick<Segment, 'name'>, line: Pick<Line, 'name'>): string =>
  name === line.name ? 'The rest of the line' : name;

/** "12 holes", or that they are not counted. */
export const holesWords = (count: number | null): string =>
  count === null ? 'holes not counted' : counted(count, 'hole');

/** "MS20470AD3-4", "3/32 rivet, length not known" */
export function rivetWords({ fastener, dash }: Pick<Segment, 'fastener' | 'dash'>): string {
  const { text, kind } = fastener;
  if (dash === null) return `${text || kind}, length not known`;
  return `${/\d$/.test(text) && /[A-Z]/i.test(text) ? text : `${text || kind} `}${dashWords(dash)}`;
}

/** "MS20470AD3-4 confirmed: 12 holes" */
export function confirmedWords(group: Group, dash = group.dash): string {
  const holes = holesWords(group.holes);
  return `${rivetWords({ ...group, dash })} confirmed: ${holes}`;
}

/** "Was -3.5, now -4: confirm." Nothing where it is confirmed. */
export function waitingSentence({ confirmed, was_dash: was, dash }: Segment): string {
  if (confirmed) return '';
  if (dash === null)
    return was === null ? '' : `Was ${dashWords(was)}; its length is not known now.`;
  if (was === null) return `To be ${dashWords(dash)}: confirm.`;
  if (was === dash) return `Stays ${dashWords(dash)} in a stack that changed: confirm.`;
  return `Was ${dashWords(was)}, now ${dashWords(dash)}: confirm.`;
}

/** The stack of a stretch before it changed: another's that lacks a layer, or the line's own. */
export function stackWas(
  line: Line,
  segments: readonly Segment[],
  segment: Segment,
): readonly LineLayer[] | null {
  if (segment.confirmed) return null;
  const own = { ...segment, layers: line.layers };
  return stackBefore([...segments, own], segment);
}

/** "Shim came in between Skin and Spar." */
export function cameIn(
  { layers }: Pick<Segment, 'layers'>,
  was: readonly LineLayer[] | null,
  nameOf: NameOf,
): string {
  if (!was) return '';
  const known = new Set(was.map((one) => one.part));
  const said = layers.flatMap(({ part }, at) => {
    if (known.has(part)) return [];
    const [above, below] = [layers[at - 1], layers[at + 1]];
    if (!above) return [`${nameOf(part)} came in next to the factory head`];
    if (!below) return [`${nameOf(part)} came in last, beneath ${nameOf(above.part)}`];
    return [`${nameOf(part)} came in between ${nameOf(above.part)} and ${nameOf(below.part)}`];
  });
  return said.length ? `${listed(said)}.` : '';
}

/** What is missing to work out the length of its rivets; empty where nothing is. */
export function missingWords(
  { layers, fastener }: Pick<Segment, 'layers' | 'fastener'>,
  sizeOf: (text: string) => string,
  nameOf: NameOf,
): string {
  const unknown = layers.filter((one) => !one.thickness).map(({ part }) => nameOf(part));
  const said = unknown.length ? [`the thickness of ${listed(unknown)}`] : [];
  if (!sizeOf(fastener.text)) said.push('the size of the rivet, for example 3/32');
  if (!said.length) return '';
  return `To work out its length, ${listed(said)} ${said.length > 1 ? 'are' : 'is'} needed.`;
}

/** Where the line names another length than the rule gives; empty where they agree. */
export function otherByRule({ dash }: Pick<Segment, 'dash'>, rule: number | null): string {
  if (dash === null || rule === null || dash === rule) return '';
  return `For this stack the rule gives ${dashWords(rule)}: look at the plans.`;
}
