// An offcut as the search takes it, from its row; what it is called; why not for structure.
import { gauges } from '../generated/gauges.json';
import { metals, never_for_structure, section_metals } from '../generated/materials.json';
import type { KeptCurves } from '../store/curves.ts';
import type { Row } from '../store/rows.ts';
import { showLength, showThickness, type Unit } from '../twins/lengths.ts';
import { cutDoubt } from './cutting/doubt.ts';
import { judge, makeReady } from './misses.ts';
import { nameOf, typedIn, withUnit } from './name.ts';
import type { OutlineShape } from './outline/texts.ts';
import { nameOfOutline } from './outline/told.ts';
import { type Section, type SectionFields, stockOf } from './sections/section.ts';
import type { Measure, Offcut, Rectangle, Shop } from './wanted.ts';

/** The tables for pieces of this form: section stock has metals of its own. */
export function shopIn(unit: Unit, form = 'sheet'): Shop {
  const listed = form === 'sheet' ? metals : section_metals;
  return { unit, gauges, metals: listed, never_for_structure };
}

/** What an offcut's fields say, on its card as in its row. */
export interface Fields {
  name?: string | null;
  alloy?: string | null;
  temper?: string | null;
  clad?: Offcut['clad'];
  form?: string;
  thickness?: Measure;
  measured?: Offcut['measured'];
  known_by?: Offcut['known_by'];
  shape?: Rectangle | OutlineShape;
  grain?: Offcut['grain'];
  reserved?: { text: string | null; part?: string | null } | null;
  note?: string | null;
  section?: Section;
}

const NOTHING: Measure = { nm: 0, text: '' };

/**
 * The piece as the search sees it. What two people answered differently is not known until one of
 * them settles it, so `doubts` (names of fields) are taken at their worst.
 */
export function pieceOf(id: string, fields: Fields, doubts: readonly string[] = []): Offcut {
  const sure = <T>(field: string, value: T | undefined, otherwise: T): T =>
    value === undefined || doubts.includes(field) ? otherwise : value;
  const { reserved } = fields;
  const taken = reserved?.text ? { for: reserved.part ?? null, text: reserved.text } : null;
  return {
    id,
    name: nameOf(fields),
    codes: [],
    place: null,
    alloy: sure('alloy', fields.alloy, null),
    temper: sure('temper', fields.temper, null),
    clad: sure('clad', fields.clad, 'unknown'),
    form: fields.form ?? 'sheet',
    thickness: fields.thickness ?? NOTHING,
    measured: doubts.includes('thickness')
      ? 'over film'
      : sure('measured', fields.measured, 'over film'),
    known_by: sure('known_by', fields.known_by, 'unknown'),
    shape: fields.shape ?? { kind: 'unsaid' },
    grain: sure('grain', fields.grain, 'unknown'),
    reserved: taken,
    measure_again: ['shape', 'thickness', 'section', 'form'].some((one) => doubts.includes(one)),
    retired: null,
    section: stockOf(fields as SectionFields),
  };
}

/**
 * `curves` has what fits in odd outlines, by the entry that brought the outline; `look` the offcut
 * that a piece was cut from.
 */
export function pieceOfRow(
  row: Row,
  curves: Pick<KeptCurves, 'of'>,
  look: (id: string) => Row | undefined,
): Offcut {
  const piece = pieceOf(row.id, row.fields as Fields, row.doubts ?? []);
  const codes = row.codes.filter((code) => !row.oldCodes.includes(code)); // the tags in use
  const measured_as = curves.of(row.fields.shape_from);
  const measure_again = piece.measure_again || cutDoubt(row, look) !== '';
  const { place, retired } = row;
  return {
    ...piece,
    name: row.name,
    codes,
    place,
    retired: retired || null,
    measured_as,
    measure_again,
  };
}

/** Why this piece may not be offered for structure; empty where nothing speaks against it. */
export function notForStructure(piece: Offcut, unit: Unit): string[] {
  const want = {
    alloy: null,
    temper: null,
    cladding: 'any',
    thickness: { kind: 'any' },
    width_nm: 1,
    height_nm: 1,
    grain: 'any',
    clearance_nm: 0,
    structure: true,
  } as const;
  const found = judge(piece, makeReady(want, shopIn(unit, piece.form)), Number.POSITIVE_INFINITY);
  return (found?.misses ?? []).flatMap((miss) => (miss.code === 'structure' ? miss.sentence : []));
}

/** The length in the unit that it was not typed in: "215.9 mm" for 8 1/2. */
export function otherUnit(measure: Measure): string {
  return showLength(measure.nm, typedIn(measure) === 'in' ? 'mm' : 'in');
}

/** A length as typed, its unit named, with the other unit beside it: "8 1/2 in (215.9 mm)". */
export function inBoth(measure: Measure): string {
  return `${withUnit(measure)} (${otherUnit(measure)})`;
}

/** A shape by its sides in both units, or by how far it reaches and what it is. */
export function shapeWords(shape: Rectangle | OutlineShape): string {
  if (shape.kind === 'outline') return nameOfOutline(shape);
  return `${inBoth(shape.a)} × ${inBoth(shape.b)}`;
}

/** The same for a sheet thickness, to a thousandth of a millimetre: ".032 in (0.813 mm)". */
export function thicknessInBoth(measure: Measure): string {
  const other = showThickness(measure.nm, typedIn(measure) === 'in' ? 'mm' : 'in');
  return `${withUnit(measure)} (${other})`;
}

const FIELD_WORDS: Record<string, string> = {
  alloy: 'the alloy',
  temper: 'the temper',
  clad: 'clad or bare',
  thickness: 'the thickness',
  measured: 'bare or over film',
  known_by: 'how the metal is known',
  shape: 'the sides',
  section: 'the section',
  form: 'what form it is',
  grain: 'the grain',
  reserved: 'who it is for',
  name: 'the name',
  note: 'the note',
};
export function fieldWords(field: string): string {
  return FIELD_WORDS[field] ?? field;
}

export const KNOWN_WORDS: Record<Offcut['known_by'], string> = {
  'mill marking': 'its mill marking was seen',
  'tagged stock': 'cut from tagged stock',
  'kit part': 'it was a kit part',
  unknown: 'not known by any mark',
};

/** Those whose first side lies along the bottom of the drawing. */
const FIRST_ALONG = new Set(['keep-outs', 'corner off', 'ell', 'triangle', 'walked']);

/** Which way the grain runs in an outline as it is drawn: along the bottom, or up. */
function outlineGrain(grain: 'a' | 'b', shape: Partial<OutlineShape>): string {
  const lean = shape.entered?.texts.grain;
  if (lean && grain === 'a') return `grain at ${lean.replace(/\s*°$/, '')}° to its first side`;
  if (shape.entered && FIRST_ALONG.has(shape.entered.way))
    return `grain ${grain === 'a' ? 'along' : 'across'} its first side`;
  return grain === 'a' ? 'grain along the bottom as it is drawn' : 'grain up as it is drawn';
}

export function grainWords(piece: Pick<Offcut, 'grain' | 'shape'>): string {
  if (piece.grain === 'unknown') return 'grain not known';
  if (piece.shape.kind === 'outline') return outlineGrain(piece.grain, piece.shape);
  if (piece.shape.kind !== 'rectangle') return 'grain not known';
  return `grain along the ${piece.shape[piece.grain].text} side`;
}
