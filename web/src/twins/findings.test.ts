import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/vectors/findings.json';
import { before, canonical, type Fact, standing } from './facts.ts';
import { groundOf, lacking } from './findings.ts';
import { fold } from './fold.ts';

const rows = vectors as unknown as [string, string, string, string][];

// counted UUIDs are written ~n to keep the file small
function long(text: string): Fact[] {
  const uuid = (_: string, n: string): string => `00000000-0000-7000-8000-${n.padStart(12, '0')}`;
  return JSON.parse(text.replace(/~([0-9a-f]+)/g, uuid));
}

describe('the vectors written from Python', () => {
  test('there are enough of them, with every end', () => {
    expect(rows.length).toBeGreaterThan(80);
    const words = new Set(rows.map(([said]) => said));
    for (const end of ['repaired', 'used as is', 'replaced', 'no fault'])
      expect(words).toContain(`closed ${end}`);
    expect(words).toContain('wants decision, name, evidence');
  });
  test.each(rows)('%s', (said, id, text, digest) => {
    const facts = long(text).sort(before);
    const state = fold(facts);
    const { closed, lacks = [] } = state;
    expect(closed ? `closed ${closed.outcome}` : `wants ${lacks.join(', ')}`).toBe(said);
    const card = canonical({ facts, id, sort: state.sort, state });
    expect(createHash('sha256').update(card).digest('hex').slice(0, 16)).toBe(digest);
  });
});

test('T8 what the form asks for is what the record asks for', () => {
  const nothing = groundOf(standing([]), []);
  const closing = { outcome: 'repaired', decision: null, evidence: null } as const;
  expect(lacking(closing, nothing)).toEqual(['decision', 'name', 'evidence']);
  expect(lacking({ ...closing, outcome: 'no fault' }, nothing)).toEqual([]);
});
