// What is recorded when a wanted piece is made, all or nothing; and when it was not made after all.
// Pure.
import { added, NOTHING_KNOWN } from '../parts/changes.ts';
import { changesOf, changeWords } from '../parts/layering.ts';
import type { LineLayer } from '../parts/lines.ts';
import type { Segment } from '../parts/segments.ts';
import { type Steps, stepsFrom, type Template } from '../parts/steps.ts';
import { listed } from '../parts/words.ts';
import type { Draft } from '../store/outbox.ts';
import { type Body, type Fact, standing, type Told } from '../twins/facts.ts';
import type { Unit } from '../twins/lengths.ts';
import { OPERATIONS } from '../twins/marks.ts';
import type { Piece } from './wish.ts';
import { metalWords, pieceWords } from './words.ts';

export interface Made {
  wanted: string; // id of the piece wanted
  part: string; // id of the part that it becomes
  name: string;
  piece: Piece;
  steps: Steps;
  assembly: string; // id, or empty
  for: string[]; // names of what it is for
  segments: Record<string, Segment[]>; // of each rivet line that it joins, by the line's id
}

const SORT = { flat: 'small clip', bent: 'angle' };

/** What sort of part it is at first: one that is bent, or a small flat one. */
export const sortOf = ({ bends }: Piece): string => (bends?.length ? SORT.bent : SORT.flat);

/**
 * What a piece cut at the bench needs: its holes are drilled in place, whatever its sort asks of
 * parts that come with holes; bends are formed; dimples are made where the others have them.
 */
export function stepsOf(template: Template, piece: Piece, dimpled: boolean): Steps {
  const steps = stepsFrom(template, piece.holes ?? null);
  const ops = { ...steps.ops };
  if (piece.holes !== 0) Object.assign(ops, { fit: 'do', drill: 'do', deburr: 'do' });
  if (piece.bends?.length) ops.form = 'do';
  if (dimpled) ops.dimple = 'do';
  return { ...steps, ops, holes: { ...steps.holes, supplied: 'none' } };
}

/** "film off, edges and final drill": what is to do on it, in working order. */
export function stepsWords({ ops }: Steps): string {
  const to_do = OPERATIONS.filter(({ op }) =>
    Object.entries(ops).some(([key, want]) => key.split(':')[0] === op && want === 'do'),
  );
  return listed(to_do.map(({ name }) => name));
}

/** The part with its steps, the piece met by it, and the rivets of every line it joins. */
export function madeDrafts(made: Made, unit: Unit): Draft[] {
  const { wanted, part, name, piece, steps, assembly, segments } = made;
  const described = {
    ...NOTHING_KNOWN,
    name: name.trim(),
    assembly,
    material: piece.alloy ? metalWords(piece) : '',
    thickness: piece.thickness,
    pieces: piece.count,
    note: `Cut ${pieceWords({ ...piece, count: 1 }, unit)}${made.for.length ? `, for ${listed(made.for)}` : ''}.`,
  };
  return [
    ...added(part, described, steps, null),
    { kind: 'piece.met.v1', subject: wanted, body: { part } },
    ...Object.entries(segments).map(
      ([line, after]): Draft => ({
        kind: 'line.segments.v1',
        subject: line,
        body: { segments: after } as unknown as Body,
      }),
    ),
  ];
}

const holds = (fact: Told, part: string): boolean =>
  (fact.body.segments as unknown as Segment[]).some((one) =>
    one.layers.some((layer) => layer.part === part),
  );

/** A line that the piece joined, with what was told of it. */
export interface JoinedLine {
  id: string;
  name: string;
  facts: readonly Fact[];
}

/**
 * Wanted again: the part that was entered for it goes, and the rivets of its lines are what they
 * were. A line that was told more since then keeps what it has, and is named in `left`.
 */
export function unmade(
  wanted: string,
  part: string,
  lines: readonly JoinedLine[],
): { drafts: Draft[]; left: string[] } {
  const back: Draft[] = [];
  const left: string[] = [];
  for (const { id, name, facts } of lines) {
    const told = standing(facts).filter(({ kind }) => kind === 'line.segments.v1');
    const with_it = told.filter((one) => holds(one, part));
    const [only] = with_it;
    if (!only) continue;
    if (with_it.length === 1 && only === told.at(-1))
      back.push({ kind: 'event.withdrawn.v1', subject: id, body: { event: only.id } });
    else left.push(name);
  }
  return {
    drafts: [
      { kind: 'piece.met.v1', subject: wanted, body: { part: null } },
      { kind: 'thing.retired.v1', subject: part, body: { why: 'entered by mistake' } },
      ...back,
    ],
    left,
  };
}

/** Per stretch that the piece touches: "12 holes: -3.5 to -4". */
export function rivetsWords(after: readonly Segment[], part: string): string[] {
  const touched = after.filter((one) => one.layers.some((layer) => layer.part === part));
  return changesOf(touched).map(changeWords);
}

/** A line that was told of the piece before it was made: the part takes its place. Null elsewhere. */
export function inPlace(
  segments: readonly Segment[],
  wanted: string,
  part: string,
): Segment[] | null {
  const named = (layer: LineLayer): boolean => layer.part === wanted;
  if (!segments.some((one) => one.layers.some(named))) return null;
  return segments.map((one) => ({
    ...one,
    layers: one.layers.map((layer) => (named(layer) ? { ...layer, part } : layer)),
  }));
}

/** The layer that the piece is in a line: dimpled where others of it are. */
export function layerOf(part: string, piece: Piece, others: readonly LineLayer[]): LineLayer {
  const dimpled = others.some(({ treat }) => treat === 'dimple');
  return { part, thickness: piece.thickness, treat: dimpled ? 'dimple' : 'plain' };
}
