import { describe, expect, test } from 'vitest';
import type { Fact } from '../twins/facts.ts';
import { fold } from '../twins/fold.ts';
import { lostClaims, replaced, settled, tagOnFilm } from './attaching.ts';

const [A, B] = ['ABCDEFGHMP', '0123456789'] as const;
let seq = 0;

function fact(kind: string, body: Fact['body'], lost?: string): Fact {
  seq += 1;
  const made: Fact = {
    id: `e${seq}`,
    kind,
    device: 'd',
    seq,
    at: seq,
    pos: seq,
    base: seq - 1,
    by: 'p',
    via: null,
    ...(body && { body }),
  };
  return lost ? { ...made, lost } : made;
}
const part = (): Fact => fact('part.added.v1', { name: 'Rib 4' });
const on = (code: string, how: string, lost?: string): Fact =>
  fact('tag.attached.v1', { code, on: how }, lost);
const told = (drafts: ReturnType<typeof settled>, subject: string): Fact[] =>
  drafts.filter((draft) => draft.subject === subject).map((draft) => fact(draft.kind, draft.body));

describe('the tag and the film', () => {
  test('only a tag in use that is on the film is named', () => {
    expect(tagOnFilm(fold([part()]))).toBe('');
    expect(tagOnFilm(fold([part(), on(A, 'metal')]))).toBe('');
    expect(tagOnFilm(fold([part(), on(A, 'film')]))).toBe('ABCDE FGHMP');
    expect(tagOnFilm(fold([part(), on(A, 'film'), on(A, 'tied')]))).toBe('');
  });

  test('a tag that gave way to another is not in use', () => {
    const state = fold([part(), on(A, 'film'), ...told(replaced('t', [A], B, 'metal'), 't')]);
    expect(tagOnFilm(state)).toBe('');
    expect(state.tags).toEqual([
      { code: B, on: 'metal', old: false },
      { code: A, on: 'film', old: true },
    ]);
  });
});

describe('one tag, two things', () => {
  const held = (): Fact[] => [part(), on(A, 'film')];
  const lost = (): Fact[] => [part(), on(A, 'tied', 'holder')];

  test('the claim that lost is a question that names the holder', () => {
    expect(lostClaims(fold(lost()).answers)).toEqual([{ code: A, holder: 'holder' }]);
    expect(lostClaims(fold(held()).answers)).toEqual([]);
  });

  test.each([
    ['the one that asked', 'asker', 'holder'],
    ['the holder', 'holder', 'asker'],
  ])('settled for %s, exactly one carries it and nothing is asked any more', (_, wins, loses) => {
    const drafts = settled(A, wins, loses);
    const holder = fold([...held(), ...told(drafts, 'holder')]);
    const asker = fold([...lost(), ...told(drafts, 'asker')]);
    expect([...holder.answers, ...asker.answers]).toEqual([]);
    const [winner, loser] = wins === 'holder' ? [holder, asker] : [asker, holder];
    expect(loser.tags).toEqual([]);
    // how each phone said the tag is fixed is kept
    expect(winner.tags).toEqual([{ code: A, on: wins === 'holder' ? 'film' : 'tied', old: false }]);
  });
});
