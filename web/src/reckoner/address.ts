// The address of a sum with what was typed for it, so that "back" and a reload find it as it was,
// and other screens can open it filled in. Pure, and without the rules.
import { withUnit } from '../offcuts/name.ts';
import type { Line, LineLayer } from '../parts/lines.ts';
import type { Length } from '../twins/lengths.ts';

export type Typed = Readonly<Record<string, string>>;

/** Between the entries of a list; none of the figures that can be read has one. */
export const BETWEEN = ';';
const FOR = 'for';
const LONGEST = 400;

/** `about`: the id of the part or rivet line that the answer may be kept with. */
export function addressOf(name: string, typed: Typed, about = ''): string {
  const query = new URLSearchParams();
  for (const [key, text] of Object.entries(typed)) if (text.trim()) query.set(key, text);
  if (about) query.set(FOR, about);
  return `/reckoner${name && `/${name}`}${query.size ? `?${query}` : ''}`;
}

/** The other way, for the keys that the sum takes. Others are passed over. */
export function typedAt(search: string, keys: readonly string[]): Record<string, string> {
  const query = new URLSearchParams(search);
  const found: Record<string, string> = {};
  for (const key of keys) {
    const text = query.get(key);
    if (text !== null) found[key] = text.slice(0, LONGEST);
  }
  return found;
}

export function aboutAt(search: string): string {
  return new URLSearchParams(search).get(FOR) ?? '';
}

/**
 * The sum of the rivet's length, filled with the stack of a rivet line or of a stretch of it. A
 * sheet of unknown thickness is an empty entry, to be filled in. Null where no rivet is driven.
 */
export function rivetFor(line: Stack, about: string, was?: readonly LineLayer[]): string | null {
  const { kind, text } = line.fastener;
  if (kind !== 'rivet' && kind !== 'pulled rivet') return null;
  const typed: Record<string, string> = {
    stack: stackOf(line.layers),
    diameter: rivetSize(text),
    head: line.head,
    kind: kind === 'rivet' ? 'solid' : 'pulled',
  };
  if (was) typed.was = stackOf(was);
  return addressOf('rivet', typed, about);
}
type Stack = Pick<Line, 'layers' | 'head' | 'fastener'>;

const thick = (length: Length | null | undefined): string => (length ? withUnit(length) : '');

const stackOf = (layers: readonly LineLayer[]): string =>
  layers.map(({ thickness }) => `${thick(thickness)}${BETWEEN}`).join('');

/** The diameter that is named by "1/8", "3/32 universal" or "MS20470AD4-4"; empty where none is. */
export function rivetSize(text: string): string {
  const [, standard] = /^(?:MS|NAS|AN)?\d*[A-Z]{1,2}(\d)(?:-|$)/i.exec(text.trim()) ?? [];
  if (standard) return `${standard}/32`;
  const [size = ''] = /\b\d{1,2}\/(?:8|16|32|64)\b/.exec(text) ?? [];
  return size;
}
