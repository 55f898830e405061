// The workshop's computer as the phone sees it. Every failure has a word and a sentence.
import type { Page as CardPage } from '../store/copies.ts';
import type { CurvePage } from '../store/curves.ts';
import type { Head, Sawing } from '../store/database.ts';

export interface Taken {
  id: string;
  result: 'stored' | 'known' | 'aside';
  position: number | null;
  effective_at: number | null;
  reason: string | null;
}
export interface Page extends CardPage {
  now: number;
  people: Record<string, string>;
  unit: 'in' | 'mm';
  name: string;
  sawing?: Sawing;
  curves?: number; // the number of the newest fit curve
}
export interface Wire {
  // `seen` is what the phone has read to: another record than that takes nothing up
  push(texts: string[], now: number, seen: Head): Promise<Taken[]>;
  pull(head: Head): Promise<Page>;
  curves(after: number): Promise<CurvePage>;
}

// The workshop's computer answered, and said no.
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly word: string,
    sentence: string,
  ) {
    super(sentence);
  }
}
// The workshop's computer did not answer.
export class OutOfReach extends Error {}

export async function ask(path: string, init: RequestInit = {}): Promise<Response> {
  let answer: Response;
  try {
    answer = await fetch(path, { signal: AbortSignal.timeout(30_000), ...init });
  } catch {
    throw new OutOfReach('The workshop computer cannot be reached.');
  }
  if (answer.ok) return answer;
  const told = (await answer.json().catch(() => ({}))) as { problem?: string; sentence?: string };
  const sentence = told.sentence ?? 'The workshop computer could not do that.';
  throw new Refused(answer.status, told.problem ?? 'unknown', sentence);
}

// An answer may break off half-way, or come from something else than the workshop's computer.
export async function read<T>(answer: Promise<T>): Promise<T> {
  try {
    return await answer;
  } catch {
    throw new OutOfReach('The answer of the workshop computer did not arrive whole.');
  }
}

const isList = (value: unknown): boolean => Array.isArray(value);

export const http: Wire = {
  async push(texts, now, seen) {
    const answer = await ask('/api/push', {
      method: 'POST',
      headers: {
        'Content-Type': 'application/x-ndjson',
        'Bucktail-Now': String(now),
        'Bucktail-Seen': `${seen.position} ${seen.chain}`,
      },
      body: `${texts.join('\n')}\n`,
    });
    const told = await read<{ answers?: Taken[] }>(answer.json());
    if (!isList(told?.answers)) throw new OutOfReach('That was not the workshop computer.');
    return told.answers as Taken[];
  },
  async pull(head) {
    const query = new URLSearchParams({ position: String(head.position), chain: head.chain });
    const answer = await ask(`/api/pull?${query}`);
    const [first, ...cards] = (await read(answer.text())).trimEnd().split('\n');
    const told = await read(Promise.resolve(first ?? '').then((line) => JSON.parse(line)));
    if (typeof told?.position !== 'number')
      throw new OutOfReach('That was not the workshop computer.');
    const { position, chain, ...page } = told;
    return { ...page, head: { position, chain }, cards };
  },
  async curves(after) {
    const answer = await ask(`/api/curves?after=${after}`);
    const [first, ...lines] = (await read(answer.text())).trimEnd().split('\n');
    const told = await read(Promise.resolve(first ?? '').then((line) => JSON.parse(line)));
    if (typeof told?.last !== 'number') throw new OutOfReach('That was not the workshop computer.');
    return { last: told.last, more: told.more === true, waiting: Number(told.waiting), lines };
  },
};
