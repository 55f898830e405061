// A workshop's computer for tests: it takes events up as the real one does, in memory, and fails
// when told to.
import type { CurvePage } from '../store/curves.ts';
import type { Head } from '../store/database.ts';
import { before, canonical, type Fact } from '../twins/facts.ts';
import { fold } from '../twins/fold.ts';
import { OutOfReach, type Page, Refused, type Taken, type Wire } from './wire.ts';

interface Stored {
  text: string;
  subject: string;
  chain: string;
  fact: Fact & { pos: number };
}

export class PlayedWorkshop implements Wire {
  clock = 1_790_000_000_000;
  edition = 'first';
  pageSize = 500;
  events: Stored[] = [];
  pushed: string[][] = []; // every request that arrived
  refused = new Set<string>(); // kinds that are set aside
  // what goes wrong next: the request is lost, or the answer to it
  trouble: ('request' | 'answer' | 'pull')[] = [];
  afterPull: () => Promise<void> | void = () => undefined;
  // fit curves by rising number, as lines; what is still to be measured; what was asked for
  measured: { n: number; event: string; curve: unknown }[] = [];
  toMeasure = 0;
  asked: number[] = [];
  private record = 0;

  async push(texts: string[], now: number, seen: Head): Promise<Taken[]> {
    if (this.goesWrong('request')) throw new OutOfReach('lost on the way');
    this.sameRecord(seen);
    this.pushed.push(texts);
    const answers = texts.map((text) => this.takeUp(text, this.clock - now));
    if (this.goesWrong('answer')) throw new OutOfReach('the answer was lost');
    return answers;
  }

  async pull(from: Head): Promise<Page> {
    if (this.goesWrong('pull')) throw new OutOfReach('lost on the way');
    this.sameRecord(from);
    const changed = this.subjects()
      .map((id) => ({ id, position: Math.max(...this.factsOf(id).map(({ pos }) => pos)) }))
      .filter(({ position }) => position > from.position)
      .sort((a, b) => a.position - b.position)
      .slice(0, this.pageSize);
    const more = changed.length === this.pageSize;
    const position = more ? (changed.at(-1)?.position ?? 0) : this.events.length;
    const page = {
      cards: changed.map(({ id }) => this.card(id)),
      head: { position, chain: this.chainAt(position) },
      more,
      edition: this.edition,
      seq: 0,
      now: this.clock,
      people: {},
      unit: 'in' as const,
      name: 'played',
      curves: this.newest(),
    };
    await this.afterPull();
    return page;
  }

  async curves(after: number): Promise<CurvePage> {
    this.asked.push(after);
    const found = this.measured.filter(({ n }) => n > after).slice(0, this.pageSize);
    const last = found.at(-1)?.n ?? this.newest();
    const lines = found.map((one) => JSON.stringify(one));
    return { last, more: last < this.newest(), waiting: this.toMeasure, lines };
  }

  private newest(): number {
    return this.measured.at(-1)?.n ?? 0;
  }

  // The record as it was at a position, from an archive: what came later is gone.
  restore(position: number): void {
    this.record += 1;
    this.events = this.events.slice(0, position);
  }

  subjects(): string[] {
    return [...new Set(this.events.map(({ subject }) => subject))];
  }

  factsOf(id: string): (Fact & { pos: number })[] {
    return this.events.filter(({ subject }) => subject === id).map(({ fact }) => fact);
  }

  card(id: string): string {
    const facts = this.factsOf(id).sort(before);
    const state = fold(facts);
    return canonical({ facts, id, sort: state.sort, state });
  }

  chainAt(position: number): string {
    return this.events[position - 1]?.chain ?? '';
  }

  private sameRecord({ position, chain }: Head): void {
    if (position > 0 && this.chainAt(position) !== chain)
      throw new Refused(409, 'restored', 'The record was restored.');
  }

  private goesWrong(how: 'request' | 'answer' | 'pull'): boolean {
    if (this.trouble[0] !== how) return false;
    this.trouble.shift();
    return true;
  }

  private takeUp(text: string, offset: number): Taken {
    const event = JSON.parse(text);
    const answer = { id: event.id, position: null, effective_at: null, reason: null };
    if (this.refused.has(event.kind)) return { ...answer, result: 'aside', reason: 'not today' };
    const known = this.events.find(({ fact }) => fact.id === event.id);
    if (known) {
      if (known.text !== text) return { ...answer, result: 'aside', reason: 'same number' };
      return { ...answer, result: 'known', position: known.fact.pos, effective_at: known.fact.at };
    }
    const pos = this.events.length + 1;
    const own = this.events.filter(({ fact }) => fact.device === event.device);
    const previous = own.filter(({ fact }) => fact.seq < event.seq).at(-1)?.fact;
    const same = this.chainAt(event.base.position) === event.base.chain;
    const base = same ? event.base.position : (previous?.base ?? 0);
    const seen = this.factsOf(event.subject).filter((fact) => fact.pos <= base);
    const least = Math.max(0, previous?.at ?? 0, ...seen.map(({ at }) => at));
    const at = Math.min(Math.max(event.at + offset, least), this.clock);
    const { id, kind, device, seq, by, via, body } = event;
    const fact = { id, kind, device, seq, at, pos, base, by, via, body };
    const chain = `${pos} of record ${this.record}`;
    this.events.push({ text, subject: event.subject, chain, fact });
    return { ...answer, result: 'stored', position: pos, effective_at: at };
  }
}
