// A rivet line: the holes that share fasteners, its layers, and what is next on it.
import type { State } from '../twins/fold.ts';
import type { Length } from '../twins/lengths.ts';
import { OPERATIONS } from '../twins/marks.ts';
import { makeStrip } from '../twins/strip.ts';
import { holesAt } from './along.ts';
import { type Ground, inDoubt, marksOf } from './choices.ts';
import { segmentsOf, waitingWords } from './segments.ts';
import { type LeftOpen, leftOpen, operation, type Supplied } from './steps.ts';
import { listed } from './words.ts';

export type Treat = 'plain' | 'dimple' | 'countersink';
export type Fastening = 'rivet' | 'pulled rivet' | 'nut plate' | 'bolt' | 'screw';
export type LineLayer = { part: string; thickness?: Length | null; treat: Treat };
// the body of line.set.v1
export type Line = {
  name: string;
  assembly?: string | null;
  count: number | null;
  supplied: Supplied;
  head: 'protruding' | 'flush';
  fastener: { kind: Fastening; text: string };
  layers: LineLayer[];
  open: LeftOpen[];
};
export const FASTENINGS: Fastening[] = ['rivet', 'pulled rivet', 'nut plate', 'bolt', 'screw'];
export const TREAT_WORDS: Record<Treat, string> = {
  plain: 'plain hole',
  dimple: 'dimpled',
  countersink: 'countersunk',
};

export function lineOf(state: State): Line {
  return state.line as unknown as Line;
}

export function groundOfLine(state: State): Ground {
  const line = lineOf(state);
  const marks = state.marks ?? {};
  return {
    marks,
    strip: makeStrip(marks),
    count: line.count,
    pieces: 1,
    open: line.open,
    die: null,
    alongLines: false,
    together: [],
    windowH: null,
    finalAfterDimple: false,
    holesAt: holesAt(state),
    waiting: waitingWords(segmentsOf(state)),
  };
}

export interface Target {
  op: string;
  layer: string | null; // null where all layers are worked on at once
}

// Everything there is to do on a line with all its layers, in working order.
export function targetsOf(line: Line): Target[] {
  return OPERATIONS.flatMap((row): Target[] => {
    if (row.scope === 'line') return [{ op: row.op, layer: null }];
    if (!row.scope.startsWith('layer')) return [];
    const asked = line.layers.filter((layer) => row.op === 'deburr' || layer.treat === row.op);
    return [...new Set(asked.map(({ part }) => part))].map((layer) => ({ op: row.op, layer }));
  });
}

// One operation on a line in one letter, as in a strip.
export function letterAt(ground: Ground, { op, layer }: Target): string {
  const marks = Object.fromEntries(marksOf(ground, op, layer));
  const strip = makeStrip(marks);
  return strip[OPERATIONS.findIndex((row) => row.op === op)] ?? '-';
}

// What comes next: the first thing open whose layer, or for riveting every layer, is ready; or
// what has to be looked at first. Null when nothing is open, or only riveting that has to wait.
export function nextTarget(ground: Ground, line: Line): Target | null {
  const targets = targetsOf(line);
  const settled = (target: Target): boolean => 'db-'.includes(letterAt(ground, target));
  for (const target of targets) {
    if (inDoubt(ground, target.op, target.layer)) return target;
    if (!'tpa'.includes(letterAt(ground, target))) continue;
    if (target.op === 'rivet' && ground.waiting?.length) continue;
    const after = operation(target.op).after;
    const earlier = targets.filter(
      (one) =>
        after.includes(one.op) && (!target.layer || !one.layer || one.layer === target.layer),
    );
    if (earlier.every(settled)) return target;
  }
  return null;
}

// Why a riveted line is not finished: "16 of 164 holes are open, for nut plates." Else empty.
export function notFinished(ground: Ground, line: Line): string {
  const rivet = ground.marks.rivet;
  if (rivet?.is !== 'done' || !rivet.open) return '';
  const fills = listed(line.open.filter((hole) => hole.n > 0).map((hole) => hole.fills));
  const of = rivet.of === null ? '' : ` of ${rivet.of}`;
  return `Not finished: ${rivet.open}${of} holes are open${fills ? `, for ${fills}` : ''}.`;
}

// Why it is not to be riveted yet, in sentences: rivets whose length is to be confirmed, and what
// its parts still need.
export function notReady(
  ground: Ground,
  line: Line,
  part: (id: string) => { name: string; strip: string } | undefined,
): string[] {
  const parts = [...new Set(line.layers.map((layer) => layer.part))];
  const needs = parts.flatMap((id): string[] => {
    const found = part(id);
    if (!found) return ['A part of this line is not known on this phone.'];
    const open = ['clean', 'prime'].filter((op) => {
      const letter = found.strip[OPERATIONS.findIndex((row) => row.op === op)] ?? '-';
      return 'tpal'.includes(letter);
    });
    const words = open.map((op) => operation(op).done_word.toLowerCase());
    return words.length ? [`${found.name} is not ${listed(words, 'or')} yet.`] : [];
  });
  return [...(ground.waiting ?? []), ...needs];
}

// A sentence where the line cannot be recorded as it stands; empty when it can.
export function wrongWithLine(line: Line): string {
  if (!line.name.trim()) return 'Give the line a name, for example “rear spar, top”.';
  if (!line.layers.length) return 'Add the parts it joins, beginning at the factory head.';
  if (line.count !== null && leftOpen(line.open) > line.count)
    return `${leftOpen(line.open)} holes are to stay open, but the line has ${line.count}. Change one of the two.`;
  if (line.open.some((hole) => hole.n > 0 && !hole.fills.trim()))
    return 'Say what will fill the holes that stay open, for example nut plates.';
  if (line.head === 'flush' && line.layers[0]?.treat === 'plain')
    return 'A flush head sits in a dimple or a countersink: the first layer cannot have plain holes.';
  return '';
}

// "1/8 rivet, flush head": what fills the holes.
export function fastenerWords({ fastener, head }: Line): string {
  return `${[fastener.text, fastener.kind].filter(Boolean).join(' ')}, ${head} head`;
}
