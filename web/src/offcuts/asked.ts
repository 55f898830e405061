// What is asked of the offcuts: as typed, as an address that keeps it, and as the search takes it.
// Pure.
import { gauges } from '../generated/gauges.json';
import { type Length, readLength, readThickness, type Unit } from '../twins/lengths.ts';
import { withUnit } from './name.ts';
import type { Want, WantedThickness } from './wanted.ts';

export interface Asked {
  metal: string; // "2024-T3"; empty for any
  clad: Want['cladding'];
  thickness: string;
  to: string; // of a range, its upper end
  how: WantedThickness['kind'];
  width: string;
  height: string;
  grain: Want['grain'];
  clear: string;
  structure: boolean;
  part: string; // the id of the part it is for
  place: string; // the id of the place to look in; empty for everywhere
}
export type AskedField = 'thickness' | 'to' | 'width' | 'height' | 'clear';

export const NOTHING_ASKED: Asked = {
  metal: '',
  clad: 'any',
  thickness: '',
  to: '',
  how: 'gauge',
  width: '',
  height: '',
  grain: 'any',
  clear: '',
  structure: true,
  part: '',
  place: '',
};

/** What was understood. `is` says what can be answered: a list of all, of those like it, or a search. */
export interface Understood {
  is: 'all' | 'like' | 'search';
  want: Want;
  problems: Partial<Record<AskedField, string>>;
}

export function understand(asked: Asked, unit: Unit): Understood {
  const problems: Understood['problems'] = {};
  const thickness = readWanted(asked, unit, problems);
  const width = side(asked, 'width', unit, problems);
  const height = side(asked, 'height', unit, problems);
  const clear = asked.clear.trim() === '' || /^0*[.,]?0*$/.test(asked.clear.trim());
  const clearance = clear ? 0 : (side(asked, 'clear', unit, problems) ?? 0);
  const [alloy, temper] = metalOf(asked.metal);
  const whole = width !== null && height !== null && !problems.clear;
  const want: Want = {
    alloy,
    temper,
    cladding: asked.clad,
    thickness,
    // any piece has room for the smallest blank: what is asked of the metal alone
    width_nm: whole ? width : 1,
    height_nm: whole ? height : 1,
    grain: whole ? asked.grain : 'any',
    clearance_nm: whole ? clearance : 0,
    structure: asked.structure,
    wanted_for: asked.part || null,
  };
  const ofTheMetal = alloy !== null || asked.clad !== 'any' || thickness.kind !== 'any';
  return { is: whole ? 'search' : ofTheMetal ? 'like' : 'all', want, problems };
}

function side(
  asked: Asked,
  field: 'width' | 'height' | 'clear',
  unit: Unit,
  problems: Understood['problems'],
): number | null {
  const other = field === 'width' ? 'height' : 'width';
  if (asked[field].trim() === '') {
    if (field !== 'clear' && asked[other].trim()) problems[field] = 'Give this side too.';
    return null;
  }
  const read = readLength(asked[field], unit);
  if ('nm' in read) return read.nm;
  problems[field] = read.sentence;
  return null;
}

function readWanted(asked: Asked, unit: Unit, problems: Understood['problems']): WantedThickness {
  if (asked.thickness.trim() === '') return { kind: 'any' };
  const from = thickness(asked.thickness, 'thickness', unit, problems);
  if (!from || asked.how === 'any') return { kind: 'any' };
  if (asked.how !== 'range') return { kind: asked.how, nm: from.nm };
  if (asked.to.trim() === '') {
    problems.to = 'Say up to what thickness.';
    return { kind: 'at least', nm: from.nm };
  }
  const to = thickness(asked.to, 'to', unit, problems);
  if (to && to.nm < from.nm) problems.to = 'This is thinner than where the range begins.';
  return to && to.nm >= from.nm
    ? { kind: 'range', from_nm: from.nm, to_nm: to.nm }
    : { kind: 'at least', nm: from.nm };
}

function thickness(
  text: string,
  field: 'thickness' | 'to',
  unit: Unit,
  problems: Understood['problems'],
): Length | null {
  const read = readThickness(text, unit, gauges);
  if ('nm' in read) return read;
  problems[field] = 'mm' in read ? `${read.sentence} Write its unit.` : read.sentence;
  return null;
}

/** "2024-T3" as alloy and temper; an alloy alone takes any temper. */
function metalOf(metal: string): [string | null, string | null] {
  const [alloy, ...temper] = metal.split('-');
  return [alloy?.trim() || null, temper.join('-').trim() || null];
}

const SHORT: Record<Exclude<keyof Asked, 'structure'>, string> = {
  metal: 'metal',
  clad: 'clad',
  thickness: 'thickness',
  to: 'to',
  how: 'how',
  width: 'width',
  height: 'height',
  grain: 'grain',
  clear: 'clear',
  part: 'for',
  place: 'in',
};
const WORDS = {
  clad: ['any', 'clad', 'bare'],
  how: ['gauge', 'at least', 'range'],
  grain: ['any', 'along width', 'along height'],
} as const;

/** The address of the search screen that asks this; what is not asked is left out. */
export function addressOf(asked: Partial<Asked>): string {
  const query = new URLSearchParams();
  for (const [field, short] of Object.entries(SHORT)) {
    const value = asked[field as keyof typeof SHORT];
    if (value && value !== NOTHING_ASKED[field as keyof typeof SHORT]) query.set(short, value);
  }
  if (asked.structure === false) query.set('structure', 'no');
  return `/offcuts${query.size ? `?${query}` : ''}`;
}

/** The other way: what an address asks. Words that are none of ours are passed over. */
export function askedIn(search: string): Asked {
  const query = new URLSearchParams(search);
  const asked: Asked = { ...NOTHING_ASKED, structure: query.get('structure') !== 'no' };
  for (const [field, short] of Object.entries(SHORT)) {
    const value = query.get(short);
    const words: readonly string[] | undefined = WORDS[field as keyof typeof WORDS];
    if (value === null || (words && !words.includes(value))) continue;
    Object.assign(asked, { [field]: value.slice(0, 100) });
  }
  return asked;
}

/** For a part's screen: the search for a piece of the same metal and thickness. */
export function likeThisPart(part: { id: string; fields: { [name: string]: unknown } }): string {
  const { material, thickness: sheet } = part.fields as {
    material?: string | null;
    thickness?: Length | null;
  };
  const metal = /^\s*([0-9A-Za-z.]+-[0-9A-Za-z]+)/.exec(material ?? '')?.[1] ?? '';
  const asked: Partial<Asked> = { metal, thickness: sheet ? withUnit(sheet) : '', part: part.id };
  if (/\bclad\b/i.test(material ?? '')) asked.clad = 'clad';
  return addressOf(asked);
}
