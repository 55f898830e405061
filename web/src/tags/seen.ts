// From what the reader sees, frame after frame, to what is said about it. Pure. Nothing is repaired
// on the way: a symbol is one of our tags, or it is not.
import { type Checked, readPayload } from '../twins/tagcode.ts';
import type { Sighting } from './looking.ts';

/** What one picture amounts to. `foreign`: a symbol that is no tag of ours, what it holds, and the
 * sentence for it. */
export type Seen =
  | { is: 'nothing' }
  | { is: 'code'; code: string }
  | { is: 'foreign'; sentence: string; text: string }
  | { is: 'damaged' };

export const DAMAGED =
  'This QR code cannot be read: it is damaged, smeared or blurred. ' +
  'Wipe it and hold still, or type the ten symbols beside it.';

/** A tag wins over a foreign symbol, and that over a damaged one; of several tags the middle one. */
export function seenIn(sightings: Sighting[]): Seen {
  let other: Seen = { is: 'nothing' };
  for (const { text, damaged } of sightings) {
    if (damaged) {
      if (other.is === 'nothing') other = { is: 'damaged' };
      continue;
    }
    const read = readPayload(text);
    if (read.code) return { is: 'code', code: read.code };
    if (other.is !== 'foreign') other = { is: 'foreign', sentence: foreign(read, text), text };
  }
  return other;
}

const LONGEST_SHOWN = 48;

function foreign({ reason, sentence }: Checked, text: string): string {
  return reason === 'foreign' ? `This is not one of our tags: “${shortened(text)}”` : sentence;
}

/** What a foreign symbol holds, on one line and no longer than can be read at a glance. */
export function shortened(text: string): string {
  const line = text.replace(/[\s\p{C}]+/gu, ' ').trim();
  const symbols = [...line];
  return symbols.length > LONGEST_SHOWN ? `${symbols.slice(0, LONGEST_SHOWN).join('')} …` : line;
}

/** Unseen for this long, a tag has left the picture; single frames miss a tag that is still there. */
const LEFT_MS = 800;
/** Only what stays unreadable this long is called damaged: while a hand moves, everything blurs. */
const DAMAGED_MS = 1800;
const DAMAGED_FRAMES = 4;

/** Follows the frames of one camera and passes on what is new. Times are ms of any one clock. */
export class Watch {
  private last = ''; // what was passed on last and is still in the picture
  private unseenSince: number | null = null;
  private damagedSince: number | null = null;
  private damagedLast = 0;
  private damagedFrames = 0;

  /** What is new in this frame: a tag is passed on once while it stays in the picture. */
  next(seen: Seen, now: number): Seen | null {
    if (seen.is === 'damaged') return this.damaged(seen, now);
    if (seen.is === 'nothing') {
      this.unseen(now);
      return null;
    }
    this.damagedSince = null;
    this.unseenSince = null;
    const name = seen.is === 'code' ? seen.code : seen.sentence;
    if (name === this.last) return null;
    this.last = name;
    return seen;
  }

  /** The frames stop for a while: time without looking says nothing about what is in the picture. */
  pause(): void {
    this.unseenSince = null;
    this.damagedSince = null;
  }

  private unseen(now: number): void {
    this.unseenSince ??= now;
    if (now - this.unseenSince >= LEFT_MS) this.last = '';
  }

  private damaged(seen: Seen, now: number): Seen | null {
    if (this.last === 'damaged') {
      this.unseenSince = null;
      return null;
    }
    this.unseen(now); // of the tag before, which this may be
    if (this.damagedSince === null || now - this.damagedLast > LEFT_MS) {
      this.damagedSince = now;
      this.damagedFrames = 0;
    }
    this.damagedLast = now;
    this.damagedFrames += 1;
    if (now - this.damagedSince < DAMAGED_MS || this.damagedFrames < DAMAGED_FRAMES) return null;
    this.last = 'damaged';
    this.unseenSince = null;
    return seen;
  }
}
