// The states a list is asked about most: film off, deburred, dimpled or countersunk, primed.
import { OPERATIONS } from '../twins/marks.ts';
import { capital, listed } from './words.ts';

export type Headline = 'film' | 'deburr' | 'flush' | 'prime';
export type Standing = 'yes' | 'not yet' | 'not asked';

export const HEADLINES: { key: Headline; ops: string[]; word: string }[] = [
  { key: 'film', ops: ['film'], word: 'film off' },
  { key: 'deburr', ops: ['deburr'], word: 'deburred' },
  { key: 'flush', ops: ['dimple', 'countersink'], word: 'dimpled or countersunk' },
  { key: 'prime', ops: ['prime'], word: 'primed' },
];

export function letterOf(strip: string, op: string): string {
  return strip[OPERATIONS.findIndex((row) => row.op === op)] ?? '-';
}

export function standingOf(strip: string, key: Headline): Standing {
  const ops = HEADLINES.find((one) => one.key === key)?.ops ?? [];
  const asked = ops.map((op) => letterOf(strip, op)).filter((letter) => !'-b'.includes(letter));
  if (!asked.length) return 'not asked';
  return asked.every((letter) => letter === 'd') ? 'yes' : 'not yet';
}

// "Film off and deburred. Not yet dimpled or primed."
export function headlineWords(strip: string): string {
  const word = (key: Headline, whole: string): string => {
    if (key !== 'flush') return whole;
    const both = !'-b'.includes(letterOf(strip, 'dimple')) ? ['dimpled'] : [];
    return [
      ...both,
      ...('-b'.includes(letterOf(strip, 'countersink')) ? [] : ['countersunk']),
    ].join(' and ');
  };
  const saying = (standing: Standing): string[] =>
    HEADLINES.filter(({ key }) => standingOf(strip, key) === standing).map((one) =>
      word(one.key, one.word),
    );
  const [yes, not] = [saying('yes'), saying('not yet')];
  const sentences = [yes.length ? `${capital(listed(yes))}.` : ''];
  if (not.length) sentences.push(`Not yet ${listed(not, 'or')}.`);
  return sentences.filter(Boolean).join(' ');
}
