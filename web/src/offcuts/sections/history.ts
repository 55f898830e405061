// What was recorded about section stock, in words.
import { inBoth } from '../piece.ts';
import { endsWords, handWords, type Run, type Section } from './section.ts';

/** The value of a field where it is one of section stock; null for all others. */
export function sectionValue(field: string, value: unknown): string | null {
  if (field === 'section') {
    const { sides, hand, square } = value as Section;
    const figures = sides.map(inBoth).join(' × ');
    return `${square ? 'square, ' : ''}${figures}, ${handWords(hand)}`;
  }
  if (field !== 'shape' || (value as { kind?: string }).kind !== 'length') return null;
  const { length, square_ends } = value as Run;
  return `${inBoth(length)} long, ${endsWords(square_ends ?? 0)}`;
}
