// A verdict as a word with a sign of its own: no sign is told from another by its colour.
import { verdictWord } from './figures.ts';

// drawn in a square of 32: a tick; a loupe, look yourself; a cross; a broken ring, nothing within
const SIGNS: Readonly<Record<string, string>> = {
  meets: 'M5 17L13 25L27 7',
  check: 'M13 4A9 9 0 1 0 13 22A9 9 0 1 0 13 4M20 20L28 28',
  fails: 'M6 6L26 26M26 6L6 26',
  'not covered': 'M16 4A12 12 0 1 1 15.9 4',
};

export function Verdict({ verdict, small }: { verdict: string; small?: boolean }) {
  return (
    <span class={`verdict${small ? ' small' : ''}`}>
      <svg viewBox="0 0 32 32" aria-hidden="true" class={verdict.replace(' ', '-')}>
        <path d={SIGNS[verdict] ?? SIGNS.check} />
      </svg>
      {verdictWord(verdict)}
    </span>
  );
}
