// A run in words. Pure.
import { operation } from '../parts/steps.ts';
import { counted, listed } from '../parts/words.ts';
import type { Run } from './current.ts';

/** "5 parts", "3 things", "nothing". */
export function scansWords({ plan, entries }: Run): string {
  if (!entries.length) return 'nothing';
  return counted(entries.length, plan.what === 'put' ? 'thing' : 'part');
}

/** "Dimpled: 11 parts." or "Put in Shelf 2: 3 things." */
export function summaryWords(run: Run, placeName: (id: string) => string): string {
  const { plan } = run;
  if (plan.what === 'step') return `${operation(plan.op).done_word}: ${scansWords(run)}.`;
  const places = [...new Set(run.entries.map((entry) => entry.how.replace(/^in /, '')))];
  const where = places.length ? listed(places) : placeName(plan.to);
  return `Put in ${where}: ${scansWords(run)}.`;
}

/** "Left out: Rib 7 right (wrong hand)."; '' where nothing was. */
export function leftOutWords({ leftOut }: Run): string {
  if (!leftOut.length) return '';
  return `Left out: ${listed(leftOut.map(({ name, why }) => `${name} (${why})`))}.`;
}
