// The fields of a sum while one types: kept in the address, so that "back" finds them, and for the
// session, so that the sum opens as it was left.
import { useEffect, useState } from 'preact/hooks';
import type { Sum } from '../twins/reckon.ts';
import { addressOf, type Typed, typedAt } from './address.ts';
import { startWith } from './typed.ts';

const REST_MS = 350; // some phones allow a page a hundred changes of address in half a minute
const SETTLED_MS = 800;
const SLOT = 'bucktail-reckoner-';

function lastTyped(sum: Sum): Typed {
  try {
    return JSON.parse(sessionStorage.getItem(SLOT + sum.name) ?? '{}') as Typed;
  } catch {
    return {};
  }
}

function remember(sum: Sum, typed: Typed): void {
  try {
    sessionStorage.setItem(SLOT + sum.name, JSON.stringify(typed));
  } catch {
    // a browser that keeps nothing for the session opens the sum empty
  }
}

export interface Typing {
  typed: Record<string, string>;
  change: (key: string, text: string) => void;
  clear: () => void;
}

/** `known` is filled in where nothing else was typed: what is on record of the thing it is about. */
export function useTyping(sum: Sum, about: string, known: Typed): Typing {
  const [typed, setTyped] = useState(() => {
    const given = typedAt(location.search, keysOf(sum));
    if (Object.keys(given).length) return startWith(sum, given);
    return startWith(sum, Object.keys(known).length ? known : lastTyped(sum));
  });
  useEffect(() => {
    remember(sum, typed);
    const here = location.pathname;
    const to = addressOf(sum.name, typed, about);
    const keep = (): void => {
      if (location.pathname === here && here + location.search !== to)
        history.replaceState(null, '', to);
    };
    const later = setTimeout(keep, REST_MS);
    addEventListener('click', keep, true); // but before a link leads away
    return () => {
      clearTimeout(later);
      removeEventListener('click', keep, true);
    };
  }, [sum, typed, about]);
  return {
    typed,
    change: (key, text) => setTyped((last) => ({ ...last, [key]: text })),
    clear: () => setTyped(startWith(sum, {})),
  };
}

const keysOf = (sum: Sum): string[] => sum.takes.map((take) => take.key);

/** The same value once it has stood for a moment: nobody wants to be told off between two keys. */
export function useSettled<T>(value: T): T {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    const later = setTimeout(() => setSettled(value), SETTLED_MS);
    return () => clearTimeout(later);
  }, [value]);
  return settled;
}
