// The phone's copies of the workshop's cards: taking pages of them over, and replacing all of them
// once a fresh copy is whole. Until then the old copy stays and is shown.
import type { Fact } from '../twins/facts.ts';
import { fold, type State } from '../twins/fold.ts';
import { type Database, type Head, NoRoom, STRICT, wholly } from './database.ts';
import { type Row, rowOf } from './rows.ts';

// Raise this when cards that an earlier version fetched are not what this one wants: they are
// fetched again. An older version finds another number than its own and does the same.
export const COPIES_VERSION = 1;
// Rows are made by this app, from the cards. The build names its files after what is in them, so
// another version of the app has another address and makes the rows anew.
const ROWS_BY = import.meta.url;

export interface Card {
  id: string;
  facts: Fact[];
  state: State;
}
export interface Page {
  cards: string[];
  head: Head;
  more: boolean;
  edition: string; // another word whenever the workshop's computer has made all cards anew
  seq: number; // the newest number it knows of this device's events
}
// A fresh copy on its way: how far it has come, and what it will be.
interface Incoming {
  head: Head;
  made: string;
}

const NO_ROOM =
  'This phone is too full to fetch what changed in the workshop. Make room on it; what is recorded ' +
  'here is kept.';
export const NOTHING: Head = { position: 0, chain: '' };

// What `meta` says of the copies.
export class Copies {
  head = NOTHING; // the position they are good for
  private made: string | undefined; // the version that wrote them, and the edition they are of
  private incoming: Incoming | undefined;
  private restored = false; // they are of a record that the workshop does not have any more

  constructor(
    private readonly db: Database,
    private readonly version: number,
  ) {}

  async load(): Promise<void> {
    const meta = this.db.transaction('meta').store;
    this.head = ((await meta.get('head')) as Head | undefined) ?? NOTHING;
    this.made = (await meta.get('made')) as string | undefined;
    this.incoming = (await meta.get('incoming')) as Incoming | undefined;
    this.restored = (await meta.get('restored')) === true;
  }

  // Written by another version of the app: only the facts on a card can be relied on.
  get strange(): boolean {
    return this.made !== undefined && this.made.split(' ')[0] !== String(this.version);
  }

  // Where to read on.
  get from(): Head {
    if (this.incoming) return this.incoming.head;
    return this.strange ? NOTHING : this.head;
  }

  // What the workshop's computer may compare before it takes anything up.
  get seen(): Head {
    return this.restored ? NOTHING : this.head;
  }

  // The card of that text, as this version reads it.
  read(text: string): Card {
    const card = JSON.parse(text) as Card;
    return this.strange ? { ...card, state: fold(card.facts) } : card;
  }

  // All rows, made anew from the cards where another version of the app wrote them.
  async rows(): Promise<Map<string, Row>> {
    if ((await this.db.get('meta', 'rowsBy')) === ROWS_BY) {
      const rows = (await this.db.getAll('rows')) as unknown as Row[];
      return new Map(rows.map((row) => [row.id, row]));
    }
    const found = new Map<string, Row>();
    const transaction = this.db.transaction(['cards', 'rows', 'meta'], 'readwrite', STRICT);
    const written = this.wholly(transaction, async () => {
      for (const id of await transaction.objectStore('cards').getAllKeys()) {
        const stored = await transaction.objectStore('cards').get(id);
        const row = stored && this.row(stored.text);
        if (row) found.set(id, row);
      }
      await transaction.objectStore('rows').clear();
      for (const row of found.values()) await transaction.objectStore('rows').put({ ...row });
      await transaction.objectStore('meta').put(ROWS_BY, 'rowsBy');
    });
    // a full phone makes them again the next time
    await written.catch((problem) => {
      if (!(problem instanceof NoRoom)) throw problem;
    });
    return found;
  }

  // The row of a card. A computer with a newer version may have written a state that this one
  // cannot read; the facts it can.
  private row(text: string): Row | null {
    const card = JSON.parse(text) as Card;
    for (const state of this.strange ? [] : [card.state]) {
      try {
        return rowOf(card.id, state);
      } catch {
        // the facts then
      }
    }
    try {
      return rowOf(card.id, fold(card.facts));
    } catch {
      return null;
    }
  }

  // A fresh copy is on its way; what there is to read does not end with this page.
  get unfinished(): boolean {
    return this.incoming !== undefined;
  }

  // Takes a page over that was asked for with `from`. Gives the rows that changed, or all of them.
  async take(page: Page, offset: number, asked: Head): Promise<Row[] | Map<string, Row>> {
    const fresh = this.made === undefined && !this.incoming;
    if (fresh || (this.made === this.madeFrom(page) && !this.incoming))
      return this.add(page, offset);
    if (this.incoming?.made !== this.madeFrom(page)) {
      await this.begin({ head: NOTHING, made: this.madeFrom(page) });
      if (asked.position > 0) return []; // of no use: the fresh copy starts with the first page
    }
    await this.stage(page);
    if (page.more) return [];
    await this.replace(page, offset);
    return this.rows();
  }

  // What is here is of a record that the workshop does not have any more.
  async giveUp(): Promise<void> {
    const transaction = this.db.transaction(['incoming', 'meta'], 'readwrite', STRICT);
    await this.wholly(transaction, async () => {
      await transaction.objectStore('incoming').clear();
      const incoming: Incoming = { head: NOTHING, made: '' };
      await transaction.objectStore('meta').put(true, 'restored');
      await transaction.objectStore('meta').put(incoming, 'incoming');
    });
    await this.load();
  }

  private wholly<T>(transaction: Parameters<typeof wholly>[0], work: () => Promise<T>): Promise<T> {
    return wholly(transaction, work, NO_ROOM);
  }

  private madeFrom(page: Page): string {
    return `${this.version} ${page.edition}`;
  }

  private async add(page: Page, offset: number): Promise<Row[]> {
    const changed: Row[] = [];
    const transaction = this.db.transaction(['cards', 'rows', 'meta'], 'readwrite', STRICT);
    await this.wholly(transaction, async () => {
      for (const text of page.cards) {
        const row = this.row(text);
        await transaction.objectStore('cards').put({ id: idOf(text), text });
        if (!row) continue;
        await transaction.objectStore('rows').put({ ...row });
        changed.push(row);
      }
      const meta = transaction.objectStore('meta');
      await meta.put(page.head, 'head');
      await meta.put(this.madeFrom(page), 'made');
      await meta.put(offset, 'offset');
      await keepCounting(meta, page.seq);
    });
    await this.load();
    return changed;
  }

  private async begin(incoming: Incoming): Promise<void> {
    const transaction = this.db.transaction(['incoming', 'meta'], 'readwrite', STRICT);
    await this.wholly(transaction, async () => {
      await transaction.objectStore('incoming').clear();
      await transaction.objectStore('meta').put(incoming, 'incoming');
    });
    await this.load();
  }

  private async stage(page: Page): Promise<void> {
    const transaction = this.db.transaction(['incoming', 'meta'], 'readwrite', STRICT);
    await this.wholly(transaction, async () => {
      for (const text of page.cards)
        await transaction.objectStore('incoming').put({ id: idOf(text), text });
      const incoming: Incoming = { head: page.head, made: this.madeFrom(page) };
      await transaction.objectStore('meta').put(incoming, 'incoming');
    });
    await this.load();
  }

  private async replace(page: Page, offset: number): Promise<void> {
    const stores = ['cards', 'rows', 'incoming', 'meta'] as const;
    const transaction = this.db.transaction(stores, 'readwrite', STRICT);
    await this.wholly(transaction, async () => {
      const [cards, incoming] = [
        transaction.objectStore('cards'),
        transaction.objectStore('incoming'),
      ];
      await cards.clear();
      await transaction.objectStore('rows').clear();
      for (const id of await incoming.getAllKeys()) {
        const one = await incoming.get(id);
        if (one) await cards.put(one);
      }
      await incoming.clear();
      const meta = transaction.objectStore('meta');
      await meta.put(page.head, 'head');
      await meta.put(this.madeFrom(page), 'made');
      await meta.put(offset, 'offset');
      for (const name of ['incoming', 'restored', 'rowsBy']) await meta.delete(name);
      await keepCounting(meta, page.seq);
    });
    await this.load();
  }
}

const idOf = (text: string): string => (JSON.parse(text) as Card).id;

// A device counts on from what the workshop's computer has of it, should this browser have
// forgotten.
async function keepCounting(
  meta: { get(key: 'seq'): Promise<unknown>; put(value: unknown, key: 'seq'): Promise<unknown> },
  known: number,
): Promise<void> {
  const seq = ((await meta.get('seq')) as number | undefined) ?? 0;
  if (known > seq) await meta.put(known, 'seq');
}
