// Shapes the fold reads and makes, and the order of facts. Part of the fold twin.

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
export type Body = { [key: string]: Json };

export interface Fact {
  id: string;
  kind: string;
  device: string;
  seq: number;
  at: number;
  pos: number | null;
  base: number;
  by: string;
  via: string | null;
  body?: Body;
  lost?: string;
  judged?: Judged;
}
// what the workshop's computer reckons where a kept sum says something else
export interface Judged {
  rulebook: string;
  answer: Record<string, string>;
}

export interface Told extends Fact {
  body: Body;
}

export function before(a: Fact, b: Fact): number {
  return a.at - b.at || order(a.device, b.device) || a.seq - b.seq || order(a.id, b.id);
}

export function order(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

export function saw(later: Fact, earlier: Fact): boolean {
  if (later.device === earlier.device) return earlier.seq < later.seq;
  return earlier.pos !== null && earlier.pos <= later.base;
}

// as they reached the workshop's computer; what this phone has not sent comes last
export function arrived(a: Fact, b: Fact): number {
  const unsent = Number.MAX_SAFE_INTEGER / 2;
  return (a.pos ?? unsent + a.seq) - (b.pos ?? unsent + b.seq) || order(a.id, b.id);
}

export function standing(facts: Iterable<Fact>): Told[] {
  const ordered = [...facts].sort(before);
  const takenBackBy = new Map<string, string[]>();
  for (const { kind, id, body } of ordered) {
    if (kind !== 'event.withdrawn.v1' || !body) continue;
    const event = String(body.event);
    takenBackBy.set(event, [...(takenBackBy.get(event) ?? []), id]);
  }
  const gone = (event: string, asked: string[]): boolean =>
    (takenBackBy.get(event) ?? []).some((id) => !asked.includes(id) && !gone(id, [...asked, id]));
  return ordered.filter(
    (f): f is Told =>
      f.kind !== 'event.withdrawn.v1' && f.body !== undefined && !gone(f.id, [f.id]),
  );
}

export function heads(facts: Told[]): Told[] {
  const left = facts.filter((fact) => !facts.some((other) => saw(other, fact)));
  return left.length ? left : facts.slice(-1);
}

// JSON with sorted keys and no spaces: the same text that the workshop's computer writes. Half of
// a sign of two halves, as cutting text can leave it, is no text and becomes U+FFFD.
export function canonical(value: Json | object | undefined): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
  if (value !== null && typeof value === 'object') {
    const row = value as Record<string, Json | undefined>;
    const keys = Object.keys(row).filter((key) => row[key] !== undefined);
    return `{${keys
      .sort(order)
      .map((key) => `${JSON.stringify(key)}:${canonical(row[key])}`)
      .join(',')}}`;
  }
  if (typeof value === 'number' && !Number.isSafeInteger(value))
    throw new RangeError(`${value}: only whole numbers are recorded`);
  return JSON.stringify(typeof value === 'string' ? value.replace(/\p{Cs}/gu, '\ufffd') : value);
}
