// Who wrote an entry, and what a thing is called, in words.
import { openedPhone, people } from '../shell/state.ts';
import { row } from '../shell/things.ts';
import type { Names } from './history.ts';

export function personName(id: string): string {
  const name = people.value[id];
  return name ?? (id === openedPhone().identity.person ? 'you' : 'someone');
}

export const NAMES: Names = { thing: (id) => row(id)?.name || 'a thing this phone does not know' };
