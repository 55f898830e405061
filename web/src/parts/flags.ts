// What a person should look at, in sentences.
import type { Fact } from '../twins/facts.ts';
import type { Flag } from '../twins/flags.ts';
import type { State } from '../twins/fold.ts';
import { operation, stepsOf } from './steps.ts';

export interface Saying {
  key: string;
  words: string;
  event: string;
  twice: boolean; // the same change told twice, which one entry taken back settles
}

// "dimple", or "deburr outside": the operation and side that a mark key names.
export function keyWords(key: string): string {
  const names = key.split(':');
  const side = names.length > 1 ? names[names.length - 1] : '';
  const said = side === 'inside' || side === 'outside' ? ` ${side}` : '';
  return `${operation(names[0] ?? '').name}${said}`;
}

const REPEATED: Record<string, string> = {
  trimmed: 'it was trimmed',
  'holes enlarged': 'its holes were enlarged',
};

function words(flag: Flag, windowH: number | null): string {
  const { key } = flag;
  switch (flag.flag) {
    case 'out of order':
      return `${cap(keyWords(key))} is recorded, and ${operation(flag.needs ?? '').name} was not done before it. Look whether that matters here.`;
    case 'keep bare':
      return `${cap(keyWords(key))} is recorded, though the part should stay bare there.`;
    case 'two records':
      return `Two phones recorded ${keyWords(key)} differently. The less prepared answer is shown; record it again to settle it.`;
    case 'check hole match':
      return 'It was formed after it was drilled. Check that its holes still match.';
    case 'clean lapsed':
      return `${cap(keyWords(key))} is recorded more than ${windowH} hours after cleaning.`;
    case 'look':
      return `Two phones each recorded that ${REPEATED[key] ?? key}. If it was the same work told twice, take one of the two back. If it was done twice, measure the part.`;
    case 'rivet length not confirmed':
      return 'It is riveted, and the length of some of its rivets is not confirmed. Look whether they are long enough where the stack changed.';
    case 'riveted before confirmed':
      return 'It was riveted before the length of its rivets was confirmed. Look at them, then record the riveting again.';
    case 'more taken out':
      return 'More pieces were taken out of this bag than were in it. Count what is left, and change the number of pieces.';
    default:
      return `${flag.flag}: ${key}`;
  }
}

const cap = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

// The flags of a part or line as sentences, each said once. Where the final size comes after
// dimpling, deburring and dimpling before the drill is as planned.
export function flagSayings(state: State): Saying[] {
  const steps = stepsOf(state);
  const planned = (flag: Flag): boolean =>
    steps?.final_after_dimple === true &&
    flag.flag === 'out of order' &&
    flag.needs === 'drill' &&
    ['deburr', 'dimple'].includes(flag.key.split(':')[0] ?? '');
  // while it is still to be riveted, the line says so itself
  const open = ['todo', 'part', 'again'].includes(state.marks?.rivet?.is ?? '');
  const said = new Map<string, Saying>();
  for (const flag of state.flags ?? []) {
    if (planned(flag) || (open && flag.flag === 'rivet length not confirmed')) continue;
    const text = words(flag, steps?.window_h ?? null);
    const twice = flag.flag === 'look';
    if (!said.has(text)) said.set(text, { key: flag.key, words: text, event: flag.event, twice });
  }
  return [...said.values()];
}

// The last entry that told a change of the metal, to be taken back where it was told twice.
export function lastTold(facts: Fact[], change: string): string | null {
  const told = facts.filter((f) => f.kind === 'metal.changed.v1' && f.body?.change === change);
  return told.sort((a, b) => a.at - b.at).pop()?.id ?? null;
}
