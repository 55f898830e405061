// When a new version of the app takes over. Pure; `update.ts` supplies the browser.

/** What the page knows when it starts. */
export interface ColdStart {
  /** A new version is on the phone and waits. */
  waiting: boolean;
  /** Nothing is left to send. */
  outboxEmpty: boolean;
}

/** `take over` at once, `offer` it to the person, or go on. */
export type StartStep = 'take over' | 'offer' | 'go on';

/**
 * A version that waits takes over at a cold start, unless something has not been sent yet. Where no
 * page was open at all, the browser may have let it take over before we are asked; what is recorded
 * is not touched by that either.
 */
export function atStart({ waiting, outboxEmpty }: ColdStart): StartStep {
  if (!waiting) return 'go on';
  return outboxEmpty ? 'take over' : 'offer';
}

/** What the page knows when another version has just taken charge of it. */
export interface Handover {
  /** Some version was in charge before: this is not the first visit. */
  hadVersion: boolean;
  /** This page asked for it. */
  asked: boolean;
  /** Nobody is looking at this page. */
  hidden: boolean;
  /** The person is in the middle of something that a reload would tear apart. */
  inTheMiddle: boolean;
}

/** `reload` now, `offer` it (the person may be in the middle of something), or go on. */
export type HandoverStep = 'reload' | 'offer' | 'go on';

/** A page may not stay on old code for long: the files of the old version are gone. */
export function atHandover({ hadVersion, asked, hidden, inTheMiddle }: Handover): HandoverStep {
  if (!hadVersion) return 'go on';
  return asked || (hidden && !inTheMiddle) ? 'reload' : 'offer';
}
