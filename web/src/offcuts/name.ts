// What an offcut is called where nobody named it, and the unit its figures were typed in.
import type { Unit } from '../twins/lengths.ts';
import type { OutlineShape } from './outline/texts.ts';
import { nameOfOutline } from './outline/told.ts';
import { asTyped, type SectionFields, stockOf } from './sections/section.ts';
import type { Measure } from './wanted.ts';
import { metalName } from './words.ts';

export interface Named {
  name?: string | null;
  alloy?: string | null;
  temper?: string | null;
  clad?: string;
  thickness?: Measure;
  shape?: { kind?: string; a?: Measure; b?: Measure };
}

const NM_PER_IN = 25_400_000;

/** Its own name, or the metal and figures as typed: 2024-T3 clad .032, 12 × 8 1/2. */
export function nameOf(offcut: Named): string {
  const { name, thickness, shape } = offcut;
  if (name) return name;
  const stock = stockOf(offcut as unknown as SectionFields);
  if (stock) return `${metalOf(offcut)} ${asTyped(stock)}, ${stock.run.length.text} long`;
  const sides = shape ? `, ${sidesOf(shape)}` : '';
  return `${metalOf(offcut)} ${thickness?.text ?? ''}${sides}`.trim();
}

function sidesOf(shape: NonNullable<Named['shape']>): string {
  if (shape.kind === 'outline') return nameOfOutline(shape as OutlineShape);
  return `${shape.a?.text} × ${shape.b?.text}`;
}

/** The metal of an offcut or of a piece that is wanted: 2024-T3 clad. */
export function metalOf({ alloy, temper, clad }: Named): string {
  return metalName(alloy ?? null, temper ?? null, clad);
}

/** The unit a length was typed in. A fraction is inches; of a bare decimal its value tells. */
export function typedIn({ nm, text }: Measure): Unit {
  if (/mm|cm|milli|centi/i.test(text)) return 'mm';
  if (/[a-z"'/]|[^\d.,\s]/i.test(text)) return 'in';
  const inches = Number(text.replace(',', '.')) * NM_PER_IN;
  return Math.abs(inches - nm) <= 1 ? 'in' : 'mm';
}

/** A length as typed with its unit written out, so that it means the same wherever it is read. */
export function withUnit(measure: Measure): string {
  return /[a-z"']/i.test(measure.text) ? measure.text : `${measure.text} ${typedIn(measure)}`;
}
