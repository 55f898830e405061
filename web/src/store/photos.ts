// The photos on this phone: those the workshop's computer has not got yet, which exist nowhere
// else, and the newest of those it has, so that they show without a network.
import { type Database, type KeptPhoto, STRICT } from './database.ts';

// Of the photos that were sent, so many stay on the phone: 1 to 2 MB each.
const SENT_KEPT = 120;

export class KeptPhotos {
  private unsent = new Set<string>();
  // The workshop's computer may have lost photos that it had: its record was restored, or this
  // browser was shut for a while. Then it is asked which it misses.
  doubted = true;

  constructor(
    private readonly db: Database,
    private readonly sentKept = SENT_KEPT,
  ) {}

  async load(): Promise<void> {
    const kept = await this.db.getAll('photos');
    this.unsent = new Set(kept.filter((photo) => !photo.sent).map((photo) => photo.digest));
  }

  added(photos: KeptPhoto[]): void {
    for (const photo of photos) if (!photo.sent) this.unsent.add(photo.digest);
  }

  toSend(): string[] {
    return [...this.unsent];
  }

  async bytes(digest: string): Promise<Blob | null> {
    return (await this.db.get('photos', digest))?.bytes ?? null;
  }

  // The workshop's computer has these bytes on its disk. Only now may the phone's copy ever go.
  async sent(digest: string): Promise<void> {
    await this.mark(digest, true);
    this.unsent.delete(digest);
    await this.makeRoom();
  }

  // The workshop's computer misses this photo; where it is still here it goes out again.
  async missed(digest: string): Promise<void> {
    if (await this.mark(digest, false)) this.unsent.add(digest);
  }

  private async mark(digest: string, sent: boolean): Promise<boolean> {
    const transaction = this.db.transaction('photos', 'readwrite', STRICT);
    const kept = await transaction.store.get(digest);
    if (kept) await transaction.store.put({ ...kept, sent });
    await transaction.done;
    return kept !== undefined;
  }

  private async makeRoom(): Promise<void> {
    const sent = (await this.db.getAll('photos')).filter((photo) => photo.sent);
    if (sent.length <= this.sentKept) return;
    sent.sort((one, other) => (one.at ?? 0) - (other.at ?? 0));
    const transaction = this.db.transaction('photos', 'readwrite', STRICT);
    for (const photo of sent.slice(0, sent.length - this.sentKept))
      await transaction.store.delete(photo.digest);
    await transaction.done;
  }
}
