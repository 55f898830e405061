// What this phone has written: durable before anything says so.
import { type Body, canonical, type Fact } from '../twins/facts.ts';
import {
  type Database,
  type Head,
  type Identity,
  type Kept,
  type KeptPhoto,
  NoRoom,
  STRICT,
  wholly,
} from './database.ts';
import { newId } from './ids.ts';

export interface Draft {
  kind: string;
  subject: string;
  body: Body;
  via?: string | null;
}

export { NoRoom };

// More at once than any one action on a screen makes; the workshop's computer takes four times it.
const MOST_TOGETHER = 500;

// Writes drafts as events, all of them or none, and returns once they are on the disk.
export async function keep(
  db: Database,
  identity: Identity,
  drafts: Draft[],
  photos: KeptPhoto[] = [],
  now = Date.now(),
): Promise<Kept[]> {
  if (drafts.length > MOST_TOGETHER)
    throw new RangeError(`At most ${MOST_TOGETHER} entries can be recorded together.`);
  const group = drafts.length > 1 ? newId(now) : null;
  const transaction = db.transaction(['outbox', 'meta', 'photos'], 'readwrite', STRICT);
  return wholly(transaction, async () => {
    const meta = transaction.objectStore('meta');
    let seq = ((await meta.get('seq')) as number | undefined) ?? 0;
    const base = ((await meta.get('head')) as Head | undefined) ?? { position: 0, chain: '' };
    const kept: Kept[] = [];
    for (const draft of drafts) {
      seq += 1;
      const id = newId(now);
      const text = canonical({
        id,
        kind: draft.kind,
        workshop: identity.workshop,
        device: identity.device,
        seq,
        at: now,
        tz: Intl.DateTimeFormat().resolvedOptions().timeZone ?? 'UTC',
        by: identity.person,
        base: { position: base.position, chain: base.chain },
        subject: draft.subject,
        via: draft.via ?? null,
        group,
        body: draft.body,
      });
      const one = { seq, id, subject: draft.subject, group, text };
      await transaction.objectStore('outbox').add(one);
      kept.push(one);
    }
    for (const photo of photos) await transaction.objectStore('photos').put(photo);
    await meta.put(seq, 'seq');
    return kept;
  });
}

// The fact that an event of this phone becomes, before and after it has a position.
export function factOf(kept: Kept, position: number | null, offset: number): Fact {
  const event = JSON.parse(kept.text);
  return {
    id: event.id,
    kind: event.kind,
    device: event.device,
    seq: event.seq,
    at: event.at + offset,
    pos: position,
    base: event.base.position,
    by: event.by,
    via: event.via,
    body: event.body,
  };
}
