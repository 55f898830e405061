// What is recorded when a tag goes on a thing, gives way to another, or was claimed for two things.
import type { Draft } from '../store/outbox.ts';
import type { Answer, State } from '../twins/fold.ts';
import { grouped } from '../twins/tagcode.ts';

export type On = 'film' | 'metal' | 'tied' | 'bag';

export const ON_WORDS: Record<On, string> = {
  film: 'on the film',
  metal: 'on the metal',
  tied: 'tied on',
  bag: 'on its bag',
};

/** How a tag is fixed, in words; for a place nothing is said of metal or film. */
export function onWords(on: string, sort = 'part'): string {
  if (sort === 'place' && on === 'metal') return 'stuck on';
  return ON_WORDS[on as On] ?? on;
}

export function attached(thing: string, code: string, on: On): Draft {
  return { kind: 'tag.attached.v1', subject: thing, via: code, body: { code, on } };
}

/** A new tag goes on, and each of the old ones still finds the thing but is no longer the one to use. */
export function replaced(thing: string, old: string[], code: string, on: On): Draft[] {
  const gone = old.map((one) => ({
    kind: 'tag.replaced.v1',
    subject: thing,
    via: code,
    body: { old: one, new: code },
  }));
  return [attached(thing, code, on), ...gone];
}

/** Which of two things carries the tag, said about both at once. */
export function settled(code: string, carries: string, other: string): Draft[] {
  const draft = (subject: string, holds: boolean): Draft => ({
    kind: 'answer.settled.v1',
    subject,
    body: { code, holds },
  });
  // the one that lets go first, so that the code is free when the other takes it
  return [draft(other, false), draft(carries, true)];
}

/** The tags of a thing that are in use. */
export function liveTags(state: State): State['tags'] {
  return state.tags.filter((tag) => !tag.old);
}

/**
 * The tags in use that are on the protective film and go when the film does, in words: "" when
 * there is none, else such as "7K2QD 0ABCD".
 */
export function tagOnFilm(state: State): string {
  const codes = liveTags(state).filter((tag) => tag.on === 'film');
  return codes.map((tag) => grouped(tag.code)).join(' and ');
}

/** The claims on tags that another thing holds: code, and the thing that holds it. */
export function lostClaims(answers: Answer[]): { code: string; holder: string }[] {
  return answers.flatMap(({ about, code, values }) => {
    const holder = values[0]?.value;
    return about === 'tag' && code && typeof holder === 'string' ? [{ code, holder }] : [];
  });
}
