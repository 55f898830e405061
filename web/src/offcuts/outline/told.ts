// What an outline is called, and its sizes in words. Pure.
import { readLength, showLength, type Unit } from '../../twins/lengths.ts';
import { sizeOf } from './rings.ts';
import type { OutlineShape } from './texts.ts';

const NM_PER_64TH = 396_875;
const NM_PER_TENTH = 100_000;
const WAY_WORDS: Record<string, string> = {
  'corner off': 'corner off',
  ell: 'L',
  triangle: 'triangle',
  remnant: 'left over from a cut',
};

/** "corner off", "L", "triangle", or "odd shape"; a sheet with something in it by what that is. */
export function outlineWords({ entered, holes }: OutlineShape): string {
  const keeps = Object.keys(entered.texts).filter((name) => /^keep \d+$/.test(name)).length;
  const within = keeps || holes.length;
  const keepWords = within ? `${within} keep-out${within > 1 ? 's' : ''}` : '';
  const plain = entered.way === 'keep-outs' ? '' : (WAY_WORDS[entered.way] ?? 'odd shape');
  const words = [plain, keepWords].filter(Boolean).join(', ');
  return words || (entered.texts.grain ? 'grain at an angle' : 'odd shape');
}

/** The unit that most of it was measured in; null where its answers do not tell. */
export function unitOf({ entered }: OutlineShape): Unit | null {
  const { unit, ...texts } = entered.texts;
  if (unit === 'mm' || unit === 'in') return unit;
  const lengths = Object.values(texts);
  const mm = lengths.filter((text) => /\d\s*(mm|cm)$/i.test(text)).length;
  const inches = lengths.filter((text) => /\d\s*(in|")$|\d\/\d/i.test(text)).length;
  if (!mm && !inches) return null;
  return mm > inches ? 'mm' : 'in';
}

/** Its two sides as typed where it has them, or how far it reaches: "12 in × 8 1/2 in". */
export function sizeWords(shape: OutlineShape, unit: Unit = unitOf(shape) ?? 'in'): string {
  const { a, b } = shape.entered.texts;
  if (a && b && shape.entered.way !== 'triangle') return together(a, b);
  const { width, height } = sizeOf(shape.outer);
  return together(reach(width, unit), reach(height, unit));
}

/** How it is told apart in a list: "12 × 8 1/2 in, corner off". */
export function nameOfOutline(shape: OutlineShape, unit?: Unit): string {
  return `${sizeWords(shape, unit)}, ${outlineWords(shape)}`;
}

function together(a: string, b: string): string {
  const unit = / (in|mm)$/.exec(b)?.[0] ?? '';
  return unit && a.endsWith(unit) ? `${a.slice(0, -unit.length)} × ${b}` : `${a} × ${b}`;
}

/** Never told larger than it is: down to a 64th, or a tenth of a mm. */
function reach(nm: number, unit: Unit): string {
  const step = unit === 'in' ? NM_PER_64TH : NM_PER_TENTH;
  // what a drawing turned by an angle lost by rounding is no 64th
  return showLength(Math.floor((nm + 50) / step) * step, unit);
}

/** The same sizes in the unit that they were not measured in. */
export function sizeInOther(shape: OutlineShape, unit: Unit): string {
  const { a, b } = shape.entered.texts;
  const other = (unitOf(shape) ?? unit) === 'in' ? 'mm' : 'in';
  const [first, second] = [a, b].map((text) => readLength(text ?? '', unit));
  if (shape.entered.way !== 'triangle' && first && second && 'nm' in first && 'nm' in second)
    return together(showLength(first.nm, other), showLength(second.nm, other));
  const { width, height } = sizeOf(shape.outer);
  return together(reach(width, other), reach(height, other));
}
