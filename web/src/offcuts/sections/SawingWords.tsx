// What was reckoned with for the saw, and the way to change it.
import type { Allowances } from './allowances.ts';

export function SawingWords({ allowances }: { allowances: Allowances }) {
  const { kerf, dress_off, shortest } = allowances;
  const own = [kerf, dress_off, shortest].every(({ said }) => said);
  return (
    <p class="sawing-words">
      Reckoned with {kerf.text} for a saw cut and {dress_off.text} dressed off each sawn end;{' '}
      {shortest.text} is the shortest worth keeping
      {own ? '' : ' (common practice where the workshop has not said)'}.{' '}
      <a href="/workshop" class="change-saw">
        Change what the saw takes
      </a>
    </p>
  );
}
