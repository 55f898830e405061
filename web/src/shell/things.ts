// Look-ups that many screens share: a thing's card, the thing behind a code, names in words.
import { useEffect, useState } from 'preact/hooks';
import type { Card } from '../store/phone.ts';
import type { Row } from '../store/rows.ts';
import { openedPhone, version } from './state.ts';

// A thing's card as it stands on this phone; null while it is read, or where there is none.
export function useCard(id: string): Card | null | undefined {
  const [card, setCard] = useState<Card | null | undefined>(undefined);
  const now = version.value;
  useEffect(() => {
    let current = true;
    void openedPhone()
      .card(id)
      .then((found) => current && setCard(found));
    return () => {
      current = false;
    };
  }, [id, now]);
  return card;
}

export function rows(sort: string, withRetired = false): Row[] {
  version.value; // a screen that lists must be drawn again when something changed
  const all = [...openedPhone().rows.values()];
  return all.filter((row) => row.sort === sort && (withRetired || !row.retired));
}

export function row(id: string | null | undefined): Row | undefined {
  version.value;
  return id ? openedPhone().rows.get(id) : undefined;
}

export type Found =
  | { is: 'thing'; row: Row; replaced: boolean }
  | { is: 'blank' } // printed here, on nothing yet
  | { is: 'unknown' }; // well formed, but not known on this phone

// What a tag code leads to. A thing that is gone gives way to one that is still there.
export function find(code: string): Found {
  let blank = false;
  let gone: Row | undefined;
  for (const one of openedPhone().rows.values()) {
    if (one.sort === 'tags') blank ||= (one.fields.codes as string[]).includes(code);
    else if (one.codes.includes(code)) {
      if (!one.retired) return { is: 'thing', row: one, replaced: one.oldCodes.includes(code) };
      gone = one;
    }
  }
  if (gone) return { is: 'thing', row: gone, replaced: gone.oldCodes.includes(code) };
  return { is: blank ? 'blank' : 'unknown' };
}

// Where a thing is, outermost place first: ["Back wall", "Shelf 2", "Box 7"].
export function wayTo(place: string | null): string[] {
  const names: string[] = [];
  const seen = new Set<string>();
  for (let at = row(place); at && !seen.has(at.id); at = row(at.place)) {
    seen.add(at.id);
    names.unshift(at.name);
  }
  return names;
}

// The screen of a thing.
export function pathOf(thing: Row): string {
  return `/${thing.sort}/${thing.id}`;
}
