// What is recorded about offcuts, in words; the record of every thing reads them.
import type { Body } from '../twins/facts.ts';
import { nameOf } from './name.ts';
import { type Fields, KNOWN_WORDS, shapeWords, thicknessInBoth } from './piece.ts';
import { sectionValue } from './sections/history.ts';

export const OFFCUT_WORDS: Record<string, (body: Body) => string> = {
  'offcut.added.v1': (body) => `entered it: ${nameOf(body as Fields)}`,
  'offcut.described.v1': (body) => `changed ${describedWords(body as Fields).join('; ')}`,
  'offcut.cut.v1': (body) => `cut it into ${madeWords(body)}`,
  'offcut.reserved.v1': (body) => (body.text ? `reserved it for ${body.text}` : 'gave it free'),
};

/** "Clip, Clip; 2 pieces stay": what a cut made, and how many pieces are left. */
function madeWords({ made, remnants }: Body): string {
  const names = (made as { name: string }[]).map(({ name }) => name);
  const left = (remnants as string[]).length;
  const stays = left === 1 ? '1 piece stays' : `${left} pieces stay`;
  return [names.join(', ') || 'pieces', left ? stays : 'nothing stays'].join('; ');
}

/** A field's value as it is said: "thickness: .032 in (0.81 mm)". */
export function valueWords(field: string, value: unknown): string {
  const fields = { [field]: value } as Fields;
  if (value === null || value === undefined) return 'none';
  const ofSection = sectionValue(field, value);
  if (ofSection) return ofSection;
  if (fields.thickness) return thicknessInBoth(fields.thickness);
  if (fields.shape) return shapeWords(fields.shape);
  if (fields.known_by) return KNOWN_WORDS[fields.known_by];
  if (field === 'grain') return GRAIN_SIDES[String(value)] ?? String(value);
  if (field === 'reserved') return (value as { text: string | null }).text ?? 'free';
  return value === 'unknown' ? 'not known' : String(value);
}

const GRAIN_SIDES: Record<string, string> = {
  a: 'along the first side',
  b: 'along the second side',
  unknown: 'not known',
};
const SHORT: Record<string, string> = {
  alloy: 'alloy',
  temper: 'temper',
  clad: 'cladding',
  form: 'form',
  thickness: 'thickness',
  measured: 'measured on',
  known_by: 'the metal',
  shape: 'shape',
  section: 'section',
  grain: 'grain',
  name: 'name',
  note: 'note',
};

function describedWords(fields: Fields): string[] {
  return Object.entries(fields).map(
    ([field, value]) => `${SHORT[field] ?? field}: ${valueWords(field, value)}`,
  );
}
