// The record of a thing in words, newest first.
import { decidedWords, FINDING_WORDS } from '../findings/words.ts';
import { OFFCUT_WORDS } from '../offcuts/history.ts';
import { arrived, type Body, before, type Fact } from '../twins/facts.ts';
import type { Decided } from '../twins/findings.ts';
import type { Choice } from './choices.ts';
import { dashWords, groupsOf, type Segment } from './segments.ts';
import type { LeftOpen } from './steps.ts';
import { counted, listed, sayChoice } from './words.ts';

const MOST = 20;

export interface Line {
  id: string;
  at: number;
  by: string;
  words: string;
  gone: boolean; // taken back
  unsent: boolean;
}
export interface Names {
  thing: (id: string) => string; // a part or place by its id
}

// Ids of what was taken back; taking back a taking back restores.
export function takenBack(facts: Fact[]): Set<string> {
  const gone = new Set<string>();
  for (const fact of [...facts].sort(arrived).reverse())
    if (fact.kind === 'event.withdrawn.v1' && !gone.has(fact.id))
      gone.add(String(fact.body?.event));
  return gone;
}

export function historyLines(facts: Fact[], names: Names, most = MOST): Line[] {
  const gone = takenBack(facts);
  const byId = new Map(facts.map((fact) => [fact.id, fact]));
  return [...facts]
    .sort(before)
    .reverse()
    .slice(0, most)
    .map((fact) => ({
      id: fact.id,
      at: fact.at,
      by: fact.by,
      words: factWords(fact, names, byId),
      gone: gone.has(fact.id),
      unsent: fact.pos === null,
    }));
}

export function factWords(fact: Fact, names: Names, byId = new Map<string, Fact>()): string {
  const { kind, body } = fact;
  if (!body) return 'something this version does not know yet';
  if (kind === 'event.withdrawn.v1') {
    const meant = byId.get(String(body.event));
    return meant ? `took back: ${factWords(meant, names)}` : 'took an earlier entry back';
  }
  return WORDS[kind]?.(body, names, fact) ?? 'something this version does not know yet';
}

type InWords = (body: Body, names: Names, fact: Fact) => string;
const WORDS: Record<string, InWords> = {
  'part.added.v1': (body) => `entered it as ${body.name}`,
  'part.described.v1': described,
  'place.added.v1': (body) => `entered it as ${body.name}`,
  'place.described.v1': described,
  'part.split.v1': (body, names) => {
    const into = body.into as { id: string; pieces: number }[];
    const out = into.map((one) => `${counted(one.pieces, 'piece')} as ${names.thing(one.id)}`);
    return `took out ${listed(out)}`;
  },
  'steps.set.v1': (body) => `set what it needs (${body.template})`,
  'line.set.v1': (body) => {
    const count =
      typeof body.count === 'number' ? counted(body.count, 'hole') : 'holes not counted';
    return `set the line: ${counted((body.layers as unknown[]).length, 'layer')}, ${count}`;
  },
  'line.segments.v1': segmentsWords,
  'step.recorded.v1': stepWords,
  'metal.changed.v1': metalWords,
  'thing.moved.v1': (body, names) =>
    body.to ? `moved it to ${names.thing(String(body.to))}` : 'took it from its place',
  'thing.retired.v1': (body) =>
    body.why === 'scrapped' ? 'scrapped it' : `took it out: ${body.why}`,
  'tag.attached.v1': (body, _names, fact) =>
    fact.lost
      ? 'put a tag on it that is on another thing too'
      : `put on the tag ${code(body.code)}`,
  'tag.replaced.v1': (body) => `replaced the tag ${code(body.old)}`,
  'answer.settled.v1': (body) =>
    body.holds
      ? `settled that it carries ${code(body.code)}`
      : `settled that it does not carry ${code(body.code)}`,
  ...OFFCUT_WORDS,
  'photo.attached.v1': () => 'added a photo',
  'photo.removed.v1': () => 'took a photo away',
  'piece.wanted.v1': (body) => `wanted it: ${body.name}, ${counted(Number(body.count), 'piece')}`,
  'piece.described.v1': described,
  'piece.met.v1': (body, names) =>
    body.part ? `made it: ${names.thing(String(body.part))}` : 'wanted it again',
  'sum.kept.v1': sumWords,
  ...FINDING_WORDS,
};

function code(text: unknown): string {
  const all = String(text);
  return `${all.slice(0, 5)} ${all.slice(5)}`;
}

const FIELD_WORDS: Record<string, string> = {
  name: 'name',
  number: 'number',
  assembly: 'assembly',
  pieces: 'pieces',
  hand: 'hand',
  twin: 'mirrored twin',
  station: 'station',
  material: 'material',
  thickness: 'thickness',
  note: 'note',
  form: 'form',
  segments: 'set of rivets',
  a: 'first side',
  b: 'second side',
  what: 'what it is',
  clad: 'cladding',
  for_parts: 'parts it is for',
  lines: 'rivet lines',
  met: 'what it was made as',
  decision: 'decision',
};

export function fieldWord(name: string): string {
  return FIELD_WORDS[name] ?? name;
}

// A plain value as it is shown; ids of things by their name.
export function valueWords(name: string, value: unknown, names: Names): string {
  if (value === null || value === undefined || value === '') return 'none';
  if (name === 'assembly' || name === 'twin' || name === 'met') return names.thing(String(value));
  if (name === 'for_parts' || name === 'lines')
    return listed((value as string[]).map(names.thing)) || 'none';
  if (name === 'segments') return segmentsSaid(value as Segment[]);
  if (name === 'decision') return decidedWords(value as unknown as Decided);
  if (name === 'bends') return counted((value as unknown[]).length, 'bend');
  if (typeof value === 'object') return String((value as { text?: string }).text ?? '');
  return String(value);
}

function described(body: Body, names: Names): string {
  const told = Object.entries(body).map(
    ([name, value]) => `${fieldWord(name)}: ${valueWords(name, value, names)}`,
  );
  return `changed ${told.join('; ')}`;
}

// "deburred, both sides, all 164": the choice in the words of the button, run together.
function stepWords(body: Body, names: Names): string {
  const sides = (body.sides ?? null) as string[] | null;
  const choice = {
    ...body,
    layer: null,
    sides,
    open: (body.open ?? []) as LeftOpen[],
  } as unknown as Choice;
  const [word = '', result = ''] = sayChoice(null, { ...choice, sides: null }).split(/: (.*)/s);
  const first = word.charAt(0).toLowerCase() + word.slice(1);
  const side = sides ? (sides.length === 1 ? sides[0] : 'both sides') : '';
  const more = [
    body.layer ? names.thing(String(body.layer)) : '',
    body.die ? `die ${body.die}` : '',
    body.lot ? `lot ${body.lot}` : '',
    body.coats ? counted(Number(body.coats), 'coat') : '',
    body.looked ? 'by looking at it' : '',
    body.note ? `“${body.note}”` : '',
  ];
  return [first, side, result, ...more].filter(Boolean).join(', ');
}

// "12 holes -4, 152 holes -3.5"
function segmentsSaid(segments: Segment[]): string {
  const said = groupsOf(segments).map(({ holes, dash }) => {
    const count = holes === null ? 'holes not counted' : counted(holes, 'hole');
    return `${count} ${dashWords(dash)}`;
  });
  return said.join(', ') || 'one stack all along';
}

function segmentsWords(body: Body): string {
  const segments = body.segments as unknown as Segment[];
  const waiting = segments.filter((one) => !one.confirmed).length;
  return `set where its stack changes: ${segmentsSaid(segments)}${waiting ? `, ${waiting} to confirm` : ''}`;
}

function sumWords(body: Body, _names: Names, fact: Fact): string {
  const { verdict } = body.answer as { verdict?: string };
  const other = fact.judged ? ' (the workshop computer reckons otherwise)' : '';
  const note = body.note ? `, “${body.note}”` : '';
  return `kept a sum: ${body.sum}${verdict ? `, ${verdict}` : ''}${other}${note}`;
}

function metalWords(body: Body): string {
  const n = body.holes;
  const note = body.note ? `, “${body.note}”` : '';
  const holes = typeof n === 'number' ? counted(n, 'hole') : 'holes, how many is not known,';
  if (body.change === 'holes added') return `added ${holes}${note}`;
  if (body.change === 'holes enlarged') return `enlarged ${holes}${note}`;
  if (body.change === 'touched') return `touched or scratched the clean metal${note}`;
  return `trimmed it${note}`;
}
