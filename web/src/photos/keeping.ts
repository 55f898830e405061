// Recording something together with its photos. Where the phone has no room for the photos, the
// record is kept all the same, and it is said which was not.
import { record } from '../shell/state.ts';
import type { KeptPhoto } from '../store/database.ts';
import { type Draft, NoRoom } from '../store/outbox.ts';

export interface KeptWith {
  ids: string[];
  notKept: string; // why the photos were not kept; empty when they were
}

export function attachedPhoto(subject: string, photo: KeptPhoto, via?: string | null): Draft {
  const body = { photo: photo.digest, size: photo.bytes.size, caption: null };
  return { kind: 'photo.attached.v1', subject, body, via: via ?? null };
}

// One strict transaction with the bytes in it. Throws NoRoom where not even the record has room.
export async function recordWithPhotos(
  drafts: Draft[],
  subject: string,
  photos: KeptPhoto[],
  via?: string | null,
): Promise<KeptWith> {
  const attached = photos.map((photo) => attachedPhoto(subject, photo, via));
  try {
    return { ids: await record([...drafts, ...attached], photos), notKept: '' };
  } catch (problem) {
    if (!(problem instanceof NoRoom) || !photos.length) throw problem;
    const ids = drafts.length ? await record(drafts) : [];
    const which = photos.length > 1 ? 'The photos were' : 'The photo was';
    return {
      ids,
      notKept: `${which} not kept: the phone is full. Make room on it, then take ${
        photos.length > 1 ? 'them' : 'it'
      } again.${drafts.length ? ' Everything else is kept.' : ''}`,
    };
  }
}
