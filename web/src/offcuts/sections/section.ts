// Section stock: what it is, and how it is said. Angle, channel and tube. Pure.
import { showLength, showThickness, type Unit } from '../../twins/lengths.ts';
import type { Measure } from '../wanted.ts';

export const SECTION_FORMS = ['angle', 'channel', 'tube'] as const;
export type Form = (typeof SECTION_FORMS)[number];
export type Hand = 'left' | 'right' | 'none';

/**
 * `sides` as on the wire: both legs of an angle; web and flange of a channel; the outside diameter
 * of a tube, or both outside sides of a `square` one. `hand` is that of an end that is worked.
 */
export type Section = {
  readonly sides: Measure[];
  readonly hand: Hand;
  readonly square?: boolean;
};
/** A length of it; so many of its ends are square and dressed. */
export type Run = {
  readonly kind: 'length';
  readonly length: Measure;
  readonly square_ends?: number;
};
/** What the fields of an offcut say where it is a length of section stock. */
export interface SectionFields {
  readonly form?: string;
  readonly section?: Section;
  readonly thickness?: Measure;
  readonly shape?: { readonly kind: string };
}
export interface SectionStock {
  readonly form: Form;
  readonly section: Section;
  readonly run: Run;
  readonly wall: Measure;
}

export function isSectionForm(form: unknown): form is Form {
  return SECTION_FORMS.some((one) => one === form);
}

/** Null for sheet, and where something is wanting that has to be measured. */
export function stockOf(fields: SectionFields): SectionStock | null {
  const { form, section, shape, thickness } = fields;
  if (!isSectionForm(form) || !section || !thickness || shape?.kind !== 'length') return null;
  if (section.sides.length !== sidesOf(form, section.square ?? false)) return null;
  return { form, section, run: shape as Run, wall: thickness };
}

/** How many sides describe it. */
export function sidesOf(form: Form, square: boolean): 1 | 2 {
  return form === 'tube' && !square ? 1 : 2;
}

/** What its sides are called. */
export function sideNames(form: Form, square: boolean): readonly string[] {
  if (form === 'angle') return ['One leg', 'Other leg'];
  if (form === 'channel') return ['Web', 'Flange'];
  return square ? ['One side', 'Other side'] : ['Outside diameter'];
}

export function formWords(form: Form, square = false): string {
  if (form !== 'tube') return form;
  return square ? 'square tube' : 'tube';
}

/** As typed: angle 1 × 3/4 × .063. */
export function asTyped({ form, section, wall }: Omit<SectionStock, 'run'>): string {
  const sides = [...section.sides, wall].map(({ text }) => text);
  return `${formWords(form, section.square)} ${sides.join(' × ')}`;
}

/** In the workshop's unit: angle 1 × 3/4 in, wall .063 in. */
export function sectionWords(stock: Omit<SectionStock, 'run'>, unit: Unit): string {
  const { form, section, wall } = stock;
  return `${sidesWords(form, section.square ?? false, section.sides, unit)}, wall ${showThickness(wall.nm, unit)}`;
}

export function sidesWords(
  form: Form,
  square: boolean,
  sides: readonly { nm: number }[],
  unit: Unit,
): string {
  const figures = sides.map(({ nm }) => showLength(nm, unit, false)).join(' × ');
  return `${formWords(form, square)} ${figures} ${unit}`;
}

const HAND_WORDS: Record<Hand, string> = {
  left: 'left hand',
  right: 'right hand',
  none: 'plain, for either hand',
};
export function handWords(hand: Hand): string {
  return HAND_WORDS[hand];
}

const ENDS = [
  'both ends sawn or rough',
  'one end square and dressed',
  'both ends square and dressed',
];
export function endsWords(ends: number): string {
  return ENDS[ends] ?? ENDS[0] ?? '';
}

/** Why such a section cannot be; empty where it can. The wall is what the sides are made of. */
export function faultOf(
  form: Form,
  square: boolean,
  sides: readonly number[],
  wall: number,
): string {
  const least = Math.min(...sides);
  if (form === 'tube' && 2 * wall >= least)
    return 'The wall fills the tube. A tube is wider than twice its wall: measure both again.';
  if (form === 'channel' && 2 * wall >= (sides[0] ?? 0))
    return 'The flanges fill the channel. Its web is wider than twice the wall: measure again.';
  if (form === 'channel' && wall >= (sides[1] ?? 0))
    return 'The flange is no longer than the wall is thick. Measure from the back of the web.';
  if (form === 'angle' && wall >= least)
    return 'A leg is no longer than the wall is thick. Measure each leg from the outside corner.';
  return square && sides.length < 2 ? 'Give both sides of the tube.' : '';
}
