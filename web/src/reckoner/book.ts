// The rules as this phone has them. They are large: only what is loaded with the reckoner, or later
// by itself, may import this.
import { gauges } from '../generated/gauges.json';
import book from '../generated/rulebook.json';
import type { Rulebook, Sum } from '../twins/reckon.ts';

export const RULES = { ...book, words: { ...book.words, gauges } } as unknown as Rulebook;
export const RULES_VERSION: string = book.version;

export function sumNamed(name: string): Sum | undefined {
  return RULES.sums.find((one) => one.name === name);
}
