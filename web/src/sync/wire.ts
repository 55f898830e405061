// The workshop's computer as the phone sees it. Every failure has a word and a sentence.
import type { Head } from '../store/database.ts';

export interface Taken {
  id: string;
  result: 'stored' | 'known' | 'aside';
  position: number | null;
  reason: string | null;
}
export interface Page {
  head: Head;
  more: boolean;
  now: number;
  people: Record<string, string>;
  unit: 'in' | 'mm';
  name: string;
  cards: string[];
}
export interface Wire {
  push(texts: string[], now: number): Promise<Taken[]>;
  pull(head: Head): Promise<Page>;
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

export const http: Wire = {
  async push(texts, now) {
    const answer = await ask('/api/push', {
      method: 'POST',
      headers: { 'Content-Type': 'application/x-ndjson', 'Bucktail-Now': String(now) },
      body: `${texts.join('\n')}\n`,
    });
    return ((await answer.json()) as { answers: Taken[] }).answers;
  },
  async pull(head) {
    const query = new URLSearchParams({ position: String(head.position), chain: head.chain });
    const answer = await ask(`/api/pull?${query}`);
    const [first, ...cards] = (await answer.text()).trimEnd().split('\n');
    const { position, chain, ...page } = JSON.parse(first ?? '{}');
    return { ...page, head: { position, chain }, cards };
  },
};
