// What was recorded about an offcut, in words; what every thing has in common is said elsewhere.
import { historyLines, type Line, type Names } from '../parts/history.ts';
import type { Body, Fact } from '../twins/facts.ts';
import { nameOf } from './name.ts';
import { type Fields, inBoth, KNOWN_WORDS, thicknessInBoth } from './piece.ts';

const WORDS: Record<string, (body: Body) => string> = {
  'offcut.added.v1': (body) => `entered it: ${nameOf(body as Fields)}`,
  'offcut.described.v1': (body) => `changed ${describedWords(body as Fields).join('; ')}`,
  'offcut.reserved.v1': (body) => (body.text ? `reserved it for ${body.text}` : 'gave it free'),
  'thing.retired.v1': (body) =>
    body.why === 'scrapped' ? 'used it up' : `took it out: ${body.why}`,
};

export function offcutHistory(facts: Fact[], names: Names): Line[] {
  const byId = new Map(facts.map((fact) => [fact.id, fact]));
  const own = (fact: Fact | undefined): string => {
    const say = fact && WORDS[fact.kind];
    return say && fact.body ? say(fact.body) : '';
  };
  return historyLines(facts, names).map((line) => {
    const fact = byId.get(line.id);
    const meant = own(byId.get(String(fact?.body?.event)));
    const words = own(fact) || (meant ? `took back: ${meant}` : line.words);
    return { ...line, words };
  });
}

/** A field's value as it is said: "thickness: .032 in (0.81 mm)". */
export function valueWords(field: string, value: unknown): string {
  const fields = { [field]: value } as Fields;
  if (value === null || value === undefined) return 'none';
  if (fields.thickness) return thicknessInBoth(fields.thickness);
  if (fields.shape) return `${inBoth(fields.shape.a)} × ${inBoth(fields.shape.b)}`;
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
  shape: 'sides',
  grain: 'grain',
  name: 'name',
  note: 'note',
};

function describedWords(fields: Fields): string[] {
  return Object.entries(fields).map(
    ([field, value]) => `${SHORT[field] ?? field}: ${valueWords(field, value)}`,
  );
}
