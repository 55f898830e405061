// What the drawings show, in words with every figure, for those who do not see them.
import type { Unit } from '../../twins/lengths.ts';
import { inDiameters, lengthText, shortText, thicknessText } from './figures.ts';
import type { Flat } from './flat.ts';
import type { Layout } from './layout.ts';
import type { Rings } from './rings.ts';
import { type SheetSection, type StackLayer, section } from './section.ts';
import type { Stack } from './stack.ts';

const TREATED = { plain: 'plain', dimple: 'dimpled', countersink: 'countersunk' } as const;

/** One sheet: .032 in, dimpled, new. */
export function sheetWords(layer: StackLayer, cut: SheetSection | undefined, unit: Unit): string {
  const words = [thicknessText(layer.thickness, unit), TREATED[layer.treat]];
  if (layer.added) words.push('new');
  if (cut?.knife) words.push('cut through to a knife edge');
  if (cut?.clash) words.push('no room in it for the head or the dimple above');
  return [layer.name, ...words].filter(Boolean).join(', ');
}

/** The sheets of the joint, one sentence part each, from the factory head. */
export function sheetsWords(stack: Stack, layers: readonly StackLayer[]): string[] {
  const cut = section(layers, stack.hole ?? stack.rivet.diameter, stack.rivet.head);
  return layers.map((layer, at) => sheetWords(layer, cut.sheets[at], stack.unit));
}

export function stackWords(stack: Stack): string {
  const { rivet, out, driven, was, unit, layers } = stack;
  const { head, diameter } = rivet;
  const size = (nm: number): string => `${lengthText(nm, unit)} (${inDiameters(nm, diameter)})`;
  const shape = head.shape === 'flush' ? `flush ${head.angle}-degree head` : 'universal head';
  const grip = (all: readonly StackLayer[]): string =>
    thicknessText(
      all.reduce((sum, { thickness }) => sum + thickness, 0),
      unit,
    );
  const said = [
    `A joint in side section, from the factory head: ${sheetsWords(stack, layers).join('; ')}.`,
    `Grip ${grip(layers)}.`,
    `${lengthText(diameter, unit)} rivet, ${shape} ${lengthText(head.diameter, unit)} across and ${lengthText(head.height, unit)} high.`,
    `Before driving, ${size(out)} of the shank stands out of the sheets.`,
  ];
  if (driven)
    said.push(
      `Driven, the shop head is ${size(driven.across)} across and ${size(driven.high)} high.`,
    );
  if (was)
    said.push(
      `As it was: ${sheetsWords(stack, was.layers).join('; ')}; grip ${grip(was.layers)}, ${size(was.out)} stood out.`,
    );
  return said.join(' ');
}

export function layoutWords(layout: Layout): string {
  const { length, width, open, rows, hole, bend, unit } = layout;
  const show = (nm: number): string => lengthText(nm, unit);
  const sides = [
    length === null ? `running on at ${open ? 'both ends' : 'the right'}` : `${show(length)} long`,
    width === null ? 'running on beyond the last row' : `${show(width)} wide`,
  ];
  const said = [`A piece from above, ${sides.join(', ')}. Holes ${show(hole)}.`];
  for (const [at, { across, start, pitch, count }] of rows.entries()) {
    const end =
      length === null
        ? ''
        : `, the last ${show(length - start - (count - 1) * pitch)} from the right end`;
    const name = rows.length > 1 ? `Row ${at + 1}: ` : '';
    const holes = count > 1 ? `${count} holes, pitch ${show(pitch)}` : 'one hole';
    const first = open ? '' : `; the first ${show(start)} from the left end`;
    said.push(
      `${name}${holes}, ${show(across)} from the near edge${first}${count > 1 ? end : ''}.`,
    );
  }
  const last = rows.at(-1)?.across ?? 0;
  const before = rows[0]?.across ?? 0;
  if (width !== null) said.push(`The last row is ${show(width - last)} from the far edge.`);
  if (bend !== undefined) {
    const clear = bend < before ? before - bend : Math.abs(bend - last);
    said.push(`Bend line ${show(bend)} from the near edge, ${show(clear)} from the row beside it.`);
  }
  return [...said, ...shortWords(layout)].join(' ');
}

function shortWords({ short = {}, unit }: Layout): string[] {
  const names = {
    end: 'The edge distance at the end',
    side: 'The edge distance at the side',
    pitch: 'The pitch',
    gap: 'The distance between the rows',
    bend: 'The distance to the bend line',
  } as const;
  return (Object.keys(names) as (keyof typeof names)[]).flatMap((kind) => {
    const by = short[kind];
    return by === undefined ? [] : [`${names[kind]} is ${shortText(by, unit)}.`];
  });
}

export function flatWords({ legs, bends, thickness, developed, grain, unit }: Flat): string {
  const show = (nm: number): string => lengthText(nm, unit);
  const letters = legs.map((leg, at) => `${String.fromCharCode(65 + at)} ${show(leg)}`);
  const said = [
    `The developed flat of ${thicknessText(thickness, unit)} sheet, ${show(developed)} from the datum edge to the other end.`,
    `Outside legs ${letters.join(', ')}.`,
  ];
  for (const [at, { angle, radius, up, start, end, sight, line }] of bends.entries())
    said.push(
      `Bend ${at + 1}, ${up ? 'up' : 'down'} ${angle} degrees, inside radius ${show(radius)}: tangent lines at ${show(start)} and ${show(end)}, bend line at ${show(line ?? (start + end) / 2)}, sight line at ${show(sight)}.`,
    );
  if (grain) said.push(`The grain lies ${grain} the bend lines.`);
  return said.join(' ');
}

export function ringsWords({ rings, unit }: Rings): string {
  const said = rings.map(({ words, diameter }) => `${words} ${lengthText(diameter, unit)}`);
  return `One in another, to scale: ${said.join(', ')}.`;
}
