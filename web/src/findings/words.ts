// What is said of a finding: what was decided, how it was closed, and what a closing still wants.

import type { Row } from '../store/rows.ts';
import type { Body } from '../twins/facts.ts';
import type { Closed, ClosedAs, Decided, Decision, Lack } from '../twins/findings.ts';

export const DECISIONS: readonly { value: Decision; label: string }[] = [
  { value: 'repair', label: 'Repair it' },
  { value: 'use as is', label: 'Use it as it is' },
  { value: 'replace', label: 'Replace it' },
  { value: 'ask the maker', label: 'Ask the maker of the kit first' },
];

const DECIDED: Record<Decision, string> = {
  repair: 'to repair it',
  'use as is': 'to use it as it is',
  replace: 'to replace it',
  'ask the maker': 'to ask the maker of the kit first',
};
export const OUTCOMES: Record<ClosedAs, string> = {
  repaired: 'Repaired',
  'used as is': 'Used as it is',
  replaced: 'Replaced',
  'no fault': 'No fault: it was seen wrong',
};

/** How a decision ends once it is carried out; one that only asks does not end the finding. */
export const ENDS: Partial<Record<Decision, ClosedAs>> = {
  repair: 'repaired',
  'use as is': 'used as is',
  replace: 'replaced',
};

export const LACKING: Record<Lack, string> = {
  decision: 'a decision: to repair it, to use it as it is or to replace it',
  name: 'the name of who decided',
  evidence: 'what shows it: a document named, or a photo put here since it was decided',
};

export function decidedWords({ decision, who }: Pick<Decided, 'decision' | 'who'>): string {
  return who ? `${who} decided ${DECIDED[decision]}` : `It was decided ${DECIDED[decision]}`;
}

export function closedWords({ outcome, evidence }: Pick<Closed, 'outcome' | 'evidence'>): string {
  const how = outcome ? OUTCOMES[outcome] : 'Closed';
  return evidence ? `${how}. Shown by: ${evidence}` : how;
}

/** How a finding stands, in a few words for a list. */
export function standingWords(one: Row): string {
  const { decided, closed } = one.fields as { decided?: Decided; closed?: Closed };
  if (closed?.outcome) return OUTCOMES[closed.outcome].toLowerCase().split(':')[0] ?? '';
  if (one.doubts.includes('decision')) return 'two different decisions';
  if (decided) return `decided ${DECIDED[decided.decision]}, not done yet`;
  return 'nothing decided yet';
}

export function isOpen(one: Row): boolean {
  return !one.fields.closed && !one.retired;
}

/** The entries about a finding, for its record. */
export const FINDING_WORDS: Record<string, (body: Body) => string> = {
  'finding.opened.v1': (body) => `wrote it down: ${body.what}`,
  'finding.decided.v1': (body) => lowered(decidedWords(body as unknown as Decided)),
  'finding.closed.v1': (body) => `closed it: ${lowered(closedWords(body as unknown as Closed))}`,
};

// a name keeps its capital
function lowered(text: string): string {
  return /^(It|Repaired|Used|Replaced|No|Closed)\b/.test(text)
    ? text.charAt(0).toLowerCase() + text.slice(1)
    : text;
}
