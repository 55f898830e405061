// Places as a tree, and what lies in them. Pure.
import type { Row } from '../store/rows.ts';

const collator = new Intl.Collator('en-GB', { numeric: true, sensitivity: 'base' });

export function byName(a: Row, b: Row): number {
  return collator.compare(a.name, b.name) || (a.id < b.id ? -1 : 1);
}

export interface Branch {
  place: Row;
  depth: number;
  /** It lies in itself, over others: two phones moved two places into each other. */
  loop: boolean;
}

/** Every place once, each below the one it lies in, in the order of a drawn tree. */
export function branches(places: Row[]): Branch[] {
  const known = new Map(places.map((place) => [place.id, place]));
  const inside = new Map<string, Row[]>();
  for (const place of [...places].sort(byName)) {
    const over = place.place !== null && known.has(place.place) ? place.place : '';
    inside.set(over, [...(inside.get(over) ?? []), place]);
  }
  const found: Branch[] = [];
  const seen = new Set<string>();
  const walk = (place: Row, depth: number, loop: boolean): void => {
    if (seen.has(place.id)) return;
    seen.add(place.id);
    found.push({ place, depth, loop });
    for (const one of inside.get(place.id) ?? []) walk(one, depth + 1, false);
  };
  for (const top of inside.get('') ?? []) walk(top, 0, false);
  // what no top leads to lies in a ring, or below one
  for (const place of [...places].sort(byName))
    if (!seen.has(place.id) && ring(place, known).length) walk(place, 0, true);
  return found;
}

/** The places that lie in each other round and round, from this one on; none where it is sound. */
export function ring(place: Row, known: ReadonlyMap<string, Row>): Row[] {
  const way: Row[] = [place];
  for (let at = over(place, known); at && way.length <= known.size; at = over(at, known)) {
    if (at.id === place.id) return way;
    way.push(at);
  }
  return [];
}

function over(thing: Row, known: ReadonlyMap<string, Row>): Row | undefined {
  return thing.place === null ? undefined : known.get(thing.place);
}

/** Place -> the things that lie directly in it; '' holds those that lie nowhere known. */
export function lying(rows: Iterable<Row>): Map<string, Row[]> {
  const found = new Map<string, Row[]>();
  for (const row of rows) {
    if (row.retired || !['part', 'offcut', 'place'].includes(row.sort)) continue;
    const at = row.place ?? '';
    const there = found.get(at);
    if (there) there.push(row);
    else found.set(at, [row]);
  }
  return found;
}

/** Everything in a place and in the places below it, without the place itself. */
export function below(id: string, things: ReadonlyMap<string, Row[]>): Row[] {
  const found: Row[] = [];
  const seen = new Set([id]);
  const walk = (place: string): void => {
    for (const one of things.get(place) ?? []) {
      if (seen.has(one.id)) continue;
      seen.add(one.id);
      found.push(one);
      if (one.sort === 'place') walk(one.id);
    }
  };
  walk(id);
  return found;
}

/** Why a thing cannot be put into a place; '' where it can. */
export function whyNotInto(
  thing: Row,
  to: Row | null,
  place: (id: string | null) => Row | undefined,
): string {
  if (to === null) return '';
  if (to.retired) return `${to.name} is no longer there. Choose another place.`;
  if (thing.sort !== 'place') return '';
  if (to.id === thing.id) return `${thing.name} cannot lie in itself. Choose another place.`;
  const seen = new Set<string>();
  for (let at = place(to.place); at && !seen.has(at.id); at = place(at.place)) {
    if (at.id === thing.id)
      return `${to.name} lies in ${thing.name}. Move ${to.name} out of it first, or choose another place.`;
    seen.add(at.id);
  }
  return '';
}
