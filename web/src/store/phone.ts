// All that the app asks of the phone's storage: identity, recording, cards, and what is pending.
import { fold } from '../twins/fold.ts';
import { type Card, COPIES_VERSION, Copies, type Page } from './copies.ts';
import { KeptCurves } from './curves.ts';
import {
  type Database,
  type Head,
  type Identity,
  type Kept,
  type KeptPhoto,
  openDatabase,
  type Sawing,
  type Sent,
  STRICT,
  wholly,
} from './database.ts';
import { type Draft, keep } from './outbox.ts';
import { Pending } from './pending.ts';
import { KeptPhotos } from './photos.ts';
import { type Row, rowOf } from './rows.ts';

export type { Card };

// A batch is sent as one request, which may be of 24 MB at most.
const MOST_LETTERS = 4_000_000;

export class Phone {
  rows = new Map<string, Row>();
  readonly photos: KeptPhotos;
  readonly curves: KeptCurves;
  offset = 0; // the workshop's clock minus this phone's, ms, as last measured
  private sentLast = 0; // the time that the last event sent counts as having happened
  private readonly copies: Copies;
  private readonly pending: Pending;
  private turn: Promise<unknown> = Promise.resolve();

  private constructor(
    readonly db: Database,
    readonly identity: Identity,
    version: number,
  ) {
    this.photos = new KeptPhotos(db);
    this.curves = new KeptCurves(identity.workshop);
    this.copies = new Copies(db, version);
    this.pending = new Pending(db);
  }

  static async open(workshop: string, version = COPIES_VERSION): Promise<Phone | null> {
    const db = await openDatabase(workshop);
    const identity = (await db.get('meta', 'identity')) as Identity | undefined;
    if (!identity) {
      db.close();
      return null;
    }
    const phone = new Phone(db, identity, version);
    await phone.load();
    return phone;
  }

  static async create(identity: Identity): Promise<Phone> {
    const db = await openDatabase(identity.workshop);
    const transaction = db.transaction('meta', 'readwrite', STRICT);
    await wholly(transaction, () => transaction.store.put(identity, 'identity'));
    db.close();
    return (await Phone.open(identity.workshop)) as Phone;
  }

  // What the whole workshop agrees on, as its computer says it is now.
  async agree(name: string, unit: Identity['unit'], said?: Sawing): Promise<void> {
    const before = this.identity;
    const sawing = said ?? before.sawing ?? {};
    const same = name === before.name && unit === before.unit;
    if (same && JSON.stringify(sawing) === JSON.stringify(before.sawing ?? {})) return;
    const now = { ...before, name, unit, sawing };
    const transaction = this.db.transaction('meta', 'readwrite', STRICT);
    await wholly(transaction, () => transaction.store.put(now, 'identity'));
    Object.assign(this.identity, now);
  }

  // Reads everything into memory again: at the start, and when another tab changed something.
  async load(): Promise<void> {
    await this.inTurn(() => this.loadNow());
  }

  // What the copies of the cards are good for.
  async head(): Promise<Head> {
    return this.copies.head;
  }

  // Where to read on, and what the workshop's computer may compare before it takes events up.
  get from(): Head {
    return this.copies.from;
  }
  get seen(): Head {
    return this.copies.seen;
  }

  // Records drafts, all or none. Resolves once they are durable, and the rows show them.
  async record(drafts: Draft[], photos: KeptPhoto[] = []): Promise<Kept[]> {
    const kept = await keep(this.db, this.identity, drafts, photos);
    this.photos.added(photos);
    await this.inTurn(async () => {
      for (const one of kept) this.pending.hold(one);
      await this.show(kept.map((one) => one.subject));
    });
    return kept;
  }

  // A thing as it stands here: its last card, and what this phone wrote since.
  async card(id: string): Promise<Card | null> {
    const stored = await this.db.get('cards', id);
    const card = stored ? this.copies.read(stored.text) : null;
    const known = card?.facts ?? [];
    const own = this.pending.facts(id, known, this.offset);
    if (!own.length) return card;
    const facts = [...known, ...own];
    return { id, facts, state: fold(facts) };
  }

  async outboxCount(): Promise<number> {
    return this.db.count('outbox');
  }

  // What goes next: whole groups, oldest first, about `most` events.
  async nextToSend(most: number): Promise<Kept[]> {
    const batch: Kept[] = [];
    let letters = 0;
    const { store } = this.db.transaction('outbox');
    for (let at = await store.openCursor(); at; at = await at.continue()) {
      const { group, text } = at.value;
      const full = batch.length >= most || letters + text.length > MOST_LETTERS;
      if (full && batch.length && (group === null || group !== batch.at(-1)?.group)) break;
      batch.push(at.value);
      letters += text.length;
    }
    return batch;
  }

  // Moves what the workshop's computer answered for from the outbox to what was sent.
  async settle(answers: Sent[]): Promise<void> {
    const last = answers.findLast((one) => typeof one.effective === 'number')?.effective;
    const transaction = this.db.transaction(['outbox', 'sent', 'meta'], 'readwrite', STRICT);
    await wholly(transaction, async () => {
      for (const one of answers) {
        await transaction.objectStore('sent').put(one);
        await transaction.objectStore('outbox').delete(one.seq);
      }
      if (last) await transaction.objectStore('meta').put(last, 'sentLast');
    });
    await this.inTurn(async () => {
      this.sentLast = last ?? this.sentLast;
      this.pending.settle(answers);
      await this.show(answers.map((one) => one.subject));
    });
  }

  // Takes a page of cards over that was asked for with `asked`. True where there is more to read.
  async takePage(page: Page, offset: number, asked: Head): Promise<boolean> {
    return this.inTurn(async () => {
      const rows = await this.copies.take(page, offset, asked);
      const all = rows instanceof Map;
      if (all) this.rows = rows;
      else for (const row of rows) this.rows.set(row.id, row);
      this.offset = offset;
      this.pending.forgetTimes();
      const dropped = this.pending.drop(this.copies.head);
      const pending = new Set(this.pending.subjects());
      const touched = all ? pending : rows.map((row) => row.id).filter((id) => pending.has(id));
      await this.show([...dropped, ...touched]);
      return page.more || this.copies.unfinished;
    });
  }

  // The workshop's record was restored: its cards are fetched anew, the old ones shown until then,
  // and all that this phone ever sent goes out again, in order. What is known there stays as it is.
  async startOver(): Promise<void> {
    const transaction = this.db.transaction(['outbox', 'sent'], 'readwrite', STRICT);
    await wholly(transaction, async () => {
      const sent = transaction.objectStore('sent');
      for (let at = await sent.openCursor(); at; at = await at.continue()) {
        const { seq, id, subject, group, text, aside } = at.value;
        if (aside !== null) continue;
        await transaction.objectStore('outbox').put({ seq, id, subject, group, text });
        await at.delete();
      }
    });
    this.photos.doubted = true;
    await this.inTurn(async () => {
      await this.copies.giveUp();
      await this.loadNow();
    });
  }

  private async loadNow(): Promise<void> {
    Object.assign(this.identity, await this.db.get('meta', 'identity'));
    this.offset = ((await this.db.get('meta', 'offset')) as number | undefined) ?? 0;
    this.sentLast = ((await this.db.get('meta', 'sentLast')) as number | undefined) ?? 0;
    await this.copies.load();
    this.rows = await this.copies.rows();
    await this.pending.load(this.copies.head);
    await this.show(this.pending.subjects());
    await this.photos.load();
    await this.curves.load();
  }

  // Brings the rows of some things up to what is pending.
  private async show(subjects: string[]): Promise<void> {
    const now = Date.now() + this.offset;
    await this.pending.fillTimes(this.offset, this.sentLast, now, async (id) => {
      const stored = await this.db.get('cards', id);
      return stored ? (JSON.parse(stored.text) as Card).facts : [];
    });
    for (const id of new Set(subjects)) {
      try {
        const card = await this.card(id);
        if (card) this.rows.set(id, rowOf(id, card.state));
      } catch (problem) {
        // a fault with one thing is no reason to show none, or to open nothing
        console.error(problem);
      }
    }
  }

  // One at a time: what changes the rows and what is pending must not run into itself.
  private inTurn<T>(work: () => Promise<T>): Promise<T> {
    const mine = this.turn.then(work);
    this.turn = mine.catch(() => undefined);
    return mine;
  }
}
