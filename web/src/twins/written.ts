// How a value of a sum stands in a sentence; part of the rule evaluator.
import { showLength, showThickness, type Unit } from './lengths.ts';
import { decimal, isRational, roundHalfAway } from './rational.ts';
import type { Value } from './rules.ts';

const SINGLE: Readonly<Record<string, string>> = {
  lengths: 'length',
  thicknesses: 'thickness',
  words: 'word',
};

// A value as it stands in a sentence; null where it does not fit the format.
export function written(form: string, value: Value, unit: Unit): string | null {
  const single = SINGLE[form];
  if (single) {
    const texts = Array.isArray(value) ? value.map((one) => written(single, one, unit)) : [null];
    return texts.includes(null) ? null : texts.join(' + ');
  }
  if (form === 'word') return typeof value === 'string' ? value : null;
  if (!isRational(value)) return null;
  if (form === 'number') return decimal(value, 3);
  const nm = Math.abs(Number(roundHalfAway(value)));
  return form === 'length' ? showLength(nm, unit) : showThickness(nm, unit);
}
