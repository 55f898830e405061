// Sending photos, after the events that name them. A photo may be let go on this phone only once
// the workshop's computer has said that it is on its disk.
import { Refused } from './wire.ts';

export interface PhotoShelf {
  doubted: boolean; // ask which photos the workshop's computer misses
  toSend(): string[];
  bytes(digest: string): Promise<Blob | null>;
  sent(digest: string): Promise<void>;
  missed(digest: string): Promise<void>;
}
export interface PhotoWire {
  put(digest: string, bytes: Blob): Promise<void>;
  missing(): Promise<string[]>;
}
export interface PhotosSent {
  sent: number;
  left: number;
  refused: string[]; // sentences about photos that were not taken; they are kept here
}

// The photo itself was not taken; the next one may be.
const OF_THE_PHOTO = [413, 415, 422];

// Sends what is not sent, one by one. Stops between two photos where `givesWay` says that
// something more urgent waits. Throws what the wire throws when the computer is out of reach or
// has no room: everything stays here and goes out next time.
export async function sendPhotos(
  shelf: PhotoShelf,
  wire: PhotoWire,
  givesWay: () => boolean = () => false,
  onSent: () => void = () => undefined,
): Promise<PhotosSent> {
  if (shelf.doubted) {
    for (const digest of await wire.missing()) await shelf.missed(digest);
    shelf.doubted = false;
  }
  const done: PhotosSent = { sent: 0, left: 0, refused: [] };
  for (const digest of shelf.toSend()) {
    if (givesWay()) break;
    const bytes = await shelf.bytes(digest);
    if (!bytes) continue;
    try {
      await wire.put(digest, bytes);
    } catch (problem) {
      if (!(problem instanceof Refused) || !OF_THE_PHOTO.includes(problem.status)) throw problem;
      done.refused.push(problem.message);
      continue;
    }
    await shelf.sent(digest);
    done.sent += 1;
    onSent();
  }
  done.left = shelf.toSend().length;
  return done;
}
