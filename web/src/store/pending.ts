// What this phone has written that its copies of the cards do not hold yet.
import type { Fact } from '../twins/facts.ts';
import type { Database, Head, Kept, Sent } from './database.ts';
import { factOf } from './outbox.ts';

interface Item {
  kept: Kept;
  position: number | null; // null until the workshop's computer has it
  effective: number | null; // the time that computer gave it
  at: number | null; // the same, or what it will give as far as can be told here
}

export class Pending {
  private items = new Map<string, Item>(); // by event, in the order of their numbers

  constructor(private readonly db: Database) {}

  // Everything from the outbox, and what was sent since the position of the copies.
  async load(head: Head): Promise<void> {
    const found: Item[] = [];
    const transaction = this.db.transaction(['outbox', 'sent']);
    const item = (kept: Kept): Item => ({ kept, position: null, effective: null, at: null });
    for (const one of await transaction.objectStore('outbox').getAll()) found.push(item(one));
    // newest first: the store holds everything that this phone ever sent
    const sent = transaction.objectStore('sent');
    for (let at = await sent.openCursor(null, 'prev'); at; at = await at.continue()) {
      const { position, effective = null } = at.value;
      if (position !== null && position <= head.position) break;
      if (position !== null) found.push({ ...item(at.value), position, effective });
    }
    found.sort((a, b) => a.kept.seq - b.kept.seq);
    this.items = new Map(found.map((one) => [one.kept.id, one]));
  }

  hold(kept: Kept): void {
    if (!this.items.has(kept.id))
      this.items.set(kept.id, { kept, position: null, effective: null, at: null });
  }

  settle(answers: Sent[]): void {
    for (const { id, position, effective = null, aside } of answers) {
      const item = this.items.get(id);
      if (item) [item.position, item.effective, item.at] = [position, effective, effective];
      if (aside !== null) this.items.delete(id);
    }
  }

  // What the copies hold by now is not pending any more. Gives the things it was about.
  drop(head: Head): string[] {
    const dropped: string[] = [];
    for (const [id, { position, kept }] of this.items) {
      if (position === null || position > head.position) continue;
      this.items.delete(id);
      dropped.push(kept.subject);
    }
    return dropped;
  }

  subjects(): string[] {
    return [...new Set([...this.items.values()].map(({ kept }) => kept.subject))];
  }

  // The facts about one thing that are not among those of its card.
  facts(subject: string, known: Fact[], offset: number): Fact[] {
    const ids = new Set(known.map((fact) => fact.id));
    const own = [...this.items.values()].filter(
      ({ kept }) => kept.subject === subject && !ids.has(kept.id),
    );
    return own.map(({ kept, position, at }) => {
      const fact = factOf(kept, position, offset);
      return { ...fact, at: at ?? fact.at };
    });
  }

  // The times are worked out again, because the clocks were compared again.
  forgetTimes(): void {
    for (const item of this.items.values()) item.at = item.effective;
  }

  // Works out missing times as the workshop's computer will: not before what the phone had seen of
  // the thing, nor before its own event before, nor later than now (a clock may have been set
  // back). `sentLast` is the time of the last one that was sent; times are the workshop's.
  async fillTimes(
    offset: number,
    sentLast: number,
    now: number,
    known: (subject: string) => Promise<Fact[]>,
  ): Promise<void> {
    let own = sentLast;
    const cards = new Map<string, Fact[]>();
    for (const item of this.items.values()) {
      if (item.at === null) {
        const { subject } = item.kept;
        const fact = factOf(item.kept, item.position, offset);
        const facts = cards.get(subject) ?? (await known(subject));
        cards.set(subject, facts);
        const seen = facts.filter(({ pos }) => pos !== null && pos <= fact.base);
        const least = seen.reduce((most, { at }) => Math.max(most, at), Math.max(own, fact.at));
        item.at = Math.min(least, now);
      }
      own = item.at;
    }
  }
}
