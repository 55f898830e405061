// What is written when a wanted piece is described anew. Pure.
import { type Body, canonical, type Json } from '../twins/facts.ts';
import { type Length, readLength, type Unit } from '../twins/lengths.ts';
import type { Grain, Piece } from './wish.ts';

/** A piece as it is typed; lengths of the sides as text. */
export interface Draftable {
  name: string;
  count: number | null;
  why: string;
  metal: string; // "2024-T3"
  clad: Piece['clad'];
  thickness: Length | null;
  a: string;
  b: string;
  grain: Grain;
  holes: number | null;
  things: string[]; // ids of the parts and rivet lines it is for
}

export function draftOf(piece: Piece): Draftable {
  return {
    name: piece.name,
    count: piece.count,
    why: piece.why ?? '',
    metal: [piece.alloy, piece.temper].filter(Boolean).join('-'),
    clad: piece.clad,
    thickness: piece.thickness,
    a: piece.a.text,
    b: piece.b.text,
    grain: piece.grain,
    holes: piece.holes ?? null,
    things: [...(piece.for_parts ?? []), ...(piece.lines ?? [])],
  };
}

/** A sentence where it cannot be recorded as it stands; empty where it can. */
export function wrongWithPiece({ name, count, thickness, a, b }: Draftable, unit: Unit): string {
  if (!name.trim()) return 'Give the piece a name, for example “Shim under rib 4”.';
  if (!count || count > 10_000) return 'How many are wanted? At least 1, at most 10000.';
  if (!thickness) return 'Say how thick the sheet is, for example .032 in or 0.8 mm.';
  for (const [side, text] of [
    ['first', a],
    ['second', b],
  ] as const) {
    const read = readLength(text, unit);
    if ('sentence' in read) return `The ${side} side: ${read.sentence}`;
  }
  return '';
}

/** Only what differs. `isLine` tells rivet lines from parts among the ids. */
export function changedPiece(
  piece: Piece,
  is: Draftable,
  unit: Unit,
  isLine: (id: string) => boolean,
): Body {
  const [alloy = '', ...temper] = is.metal.trim().split('-');
  const side = (text: string, was: Length): Json =>
    text === was.text ? was : (readLength(text, unit) as Length);
  const told: Body = {
    name: is.name.trim(),
    count: is.count,
    why: is.why.trim() || null,
    alloy: alloy.trim() || null,
    temper: temper.join('-').trim() || null,
    clad: is.clad,
    thickness: is.thickness,
    a: side(is.a, piece.a),
    b: side(is.b, piece.b),
    grain: is.grain,
    holes: is.holes,
    for_parts: is.things.filter((id) => !isLine(id)),
    lines: is.things.filter(isLine),
  };
  const was = piece as unknown as Body;
  const empty: Body = { for_parts: [], lines: [] };
  return Object.fromEntries(
    Object.entries(told).filter(
      ([key, value]) => canonical(value) !== canonical(was[key] ?? empty[key] ?? null),
    ),
  );
}
