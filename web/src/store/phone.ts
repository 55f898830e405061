// All that the app asks of the phone's storage: identity, recording, cards, and what is pending.
import type { Fact } from '../twins/facts.ts';
import { fold, type State } from '../twins/fold.ts';
import {
  type Database,
  type Head,
  type Identity,
  type Kept,
  type KeptPhoto,
  openDatabase,
  type Sent,
  STRICT,
} from './database.ts';
import { type Draft, factOf, keep } from './outbox.ts';
import { KeptPhotos } from './photos.ts';
import { type Row, rowOf } from './rows.ts';

export interface Card {
  id: string;
  facts: Fact[];
  state: State;
}

export class Phone {
  rows = new Map<string, Row>();
  private pending = new Map<string, { kept: Kept; position: number | null }[]>();
  readonly photos: KeptPhotos;
  offset = 0; // the workshop's clock minus this phone's, ms, as last measured

  private constructor(
    readonly db: Database,
    readonly identity: Identity,
  ) {
    this.photos = new KeptPhotos(db);
  }

  static async open(workshop: string): Promise<Phone | null> {
    const db = await openDatabase(workshop);
    const identity = (await db.get('meta', 'identity')) as Identity | undefined;
    if (!identity) {
      db.close();
      return null;
    }
    const phone = new Phone(db, identity);
    await phone.load();
    return phone;
  }

  static async create(identity: Identity): Promise<Phone> {
    const db = await openDatabase(identity.workshop);
    const transaction = db.transaction('meta', 'readwrite', STRICT);
    await transaction.store.put(identity, 'identity');
    await transaction.done;
    db.close();
    return (await Phone.open(identity.workshop)) as Phone;
  }

  // The workshop's name and unit, as its computer says they are now.
  async agree(name: string, unit: Identity['unit']): Promise<void> {
    if (name === this.identity.name && unit === this.identity.unit) return;
    const transaction = this.db.transaction('meta', 'readwrite', STRICT);
    await transaction.store.put({ ...this.identity, name, unit }, 'identity');
    await transaction.done;
    Object.assign(this.identity, { name, unit });
  }

  // Reads everything into memory again: at the start, and when another tab changed something.
  async load(): Promise<void> {
    Object.assign(this.identity, await this.db.get('meta', 'identity'));
    this.offset = ((await this.db.get('meta', 'offset')) as number | undefined) ?? 0;
    const head = await this.head();
    const rows = (await this.db.getAll('rows')) as unknown as Row[];
    this.rows = new Map(rows.map((row) => [row.id, row]));
    this.pending = new Map();
    const sent = await this.db.getAll('sent');
    for (const one of sent)
      if (one.position !== null && one.position > head.position) this.hold(one, one.position);
    for (const one of await this.db.getAll('outbox')) this.hold(one, null);
    for (const id of this.pending.keys()) await this.refresh(id);
    await this.photos.load();
  }

  async head(): Promise<Head> {
    const head = (await this.db.get('meta', 'head')) as Head | undefined;
    return head ?? { position: 0, chain: '' };
  }

  // Records drafts, all or none. Resolves once they are durable, and the rows show them.
  async record(drafts: Draft[], photos: KeptPhoto[] = []): Promise<Kept[]> {
    const kept = await keep(this.db, this.identity, drafts, photos);
    for (const one of kept) this.hold(one, null);
    this.photos.added(photos);
    for (const id of new Set(drafts.map((draft) => draft.subject))) await this.refresh(id);
    return kept;
  }

  // A thing as it stands here: its last card, and what this phone wrote since.
  async card(id: string): Promise<Card | null> {
    const stored = await this.db.get('cards', id);
    const facts: Fact[] = stored ? JSON.parse(stored.text).facts : [];
    const own = this.pending.get(id);
    if (!own) return stored ? { id, facts, state: JSON.parse(stored.text).state } : null;
    const known = new Set(facts.map((fact) => fact.id));
    let newest = facts.reduce((most, fact) => Math.max(most, fact.at), 0);
    for (const { kept, position } of own) {
      const fact = factOf(kept, position, this.offset);
      if (known.has(fact.id)) continue;
      newest = Math.max(newest, fact.at);
      facts.push({ ...fact, at: newest });
    }
    return { id, facts, state: fold(facts) };
  }

  async outboxCount(): Promise<number> {
    return this.db.count('outbox');
  }

  // What goes next: whole groups, oldest first, at most about `most`.
  async nextToSend(most: number): Promise<Kept[]> {
    const all = await this.db.getAll('outbox', undefined, most + 500);
    let end = Math.min(most, all.length);
    while (end < all.length && all[end]?.group !== null && all[end]?.group === all[end - 1]?.group)
      end += 1;
    return all.slice(0, end);
  }

  // Moves what the workshop's computer answered for from the outbox to what was sent.
  async settle(answers: Sent[]): Promise<void> {
    const transaction = this.db.transaction(['outbox', 'sent'], 'readwrite', STRICT);
    for (const one of answers) {
      await transaction.objectStore('sent').put(one);
      await transaction.objectStore('outbox').delete(one.seq);
    }
    await transaction.done;
    for (const one of answers) {
      const held = this.pending.get(one.subject) ?? [];
      const match = held.find((item) => item.kept.id === one.id);
      if (match) match.position = one.position;
      if (one.aside !== null) this.drop(one.subject, (item) => item.kept.id === one.id);
    }
  }

  // Takes cards over together with the position they are good for.
  async takeCards(texts: string[], head: Head, offset: number): Promise<void> {
    const transaction = this.db.transaction(['cards', 'rows', 'meta'], 'readwrite', STRICT);
    const changed: string[] = [];
    for (const text of texts) {
      const card = JSON.parse(text) as Card;
      await transaction.objectStore('cards').put({ id: card.id, text });
      const row = rowOf(card.id, card.state);
      await transaction.objectStore('rows').put({ ...row });
      this.rows.set(card.id, row);
      changed.push(card.id);
    }
    await transaction.objectStore('meta').put(head, 'head');
    await transaction.objectStore('meta').put(offset, 'offset');
    await transaction.done;
    this.offset = offset;
    for (const id of [...this.pending.keys()]) {
      this.drop(id, (item) => item.position !== null && item.position <= head.position);
      await this.refresh(id);
    }
  }

  // The workshop's record was restored: its cards are fetched anew, and what this phone sent
  // after the restored position goes out again.
  async startOver(): Promise<void> {
    const stores = ['cards', 'rows', 'meta', 'outbox', 'sent'] as const;
    const transaction = this.db.transaction(stores, 'readwrite', STRICT);
    await transaction.objectStore('cards').clear();
    await transaction.objectStore('rows').clear();
    await transaction.objectStore('meta').delete('head');
    for (const { position, aside, at, ...kept } of await transaction.objectStore('sent').getAll()) {
      if (aside !== null) continue;
      await transaction.objectStore('outbox').put(kept);
      await transaction.objectStore('sent').delete(kept.seq);
    }
    await transaction.done;
    this.photos.doubted = true;
    await this.load();
  }

  private hold(kept: Kept, position: number | null): void {
    const held = this.pending.get(kept.subject) ?? [];
    this.pending.set(kept.subject, [...held, { kept, position }]);
  }

  private drop(id: string, gone: (item: { kept: Kept; position: number | null }) => boolean): void {
    const left = (this.pending.get(id) ?? []).filter((item) => !gone(item));
    if (left.length) this.pending.set(id, left);
    else this.pending.delete(id);
  }

  private async refresh(id: string): Promise<void> {
    const card = await this.card(id);
    if (card) this.rows.set(id, rowOf(id, card.state));
  }
}
