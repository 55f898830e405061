// What this screen asks of the workshop's computer. Throws OutOfReach, or Refused with a sentence.
import type { Sawing } from '../store/database.ts';
import { ask } from '../sync/wire.ts';

export interface Device {
  id: string;
  name: string;
  person: string;
  paired_at: number;
  last_seen: number;
  revoked_at: number | null;
  this: boolean;
}
export interface Offer {
  link: string;
  rows: string[]; // the link as a QR symbol, "1" is dark
  typed: string;
  for_ms: number; // how long it is good for
  trust: string | null; // where a new phone learns to trust the workshop's computer
}
export interface BroughtIn {
  stored: number;
  known: number;
  aside: { line: number; reason: string }[];
  missing: number; // entries that the file promises and does not hold
}
export interface Agreed {
  name: string;
  unit: 'in' | 'mm';
  sawing: Sawing;
}
/** null goes back to what is common practice */
export type Asked = Partial<Omit<Agreed, 'sawing'>> & {
  sawing?: { [name in keyof Sawing]: Sawing[name] | null };
};

async function post<T>(path: string, body?: unknown): Promise<T> {
  const init: RequestInit = { method: 'POST' };
  if (body !== undefined) {
    init.headers = { 'Content-Type': 'application/json' };
    init.body = JSON.stringify(body);
  }
  return (await (await ask(path, init)).json()) as T;
}

export async function devices(): Promise<{ devices: Device[]; now: number }> {
  return (await (await ask('/api/devices')).json()) as { devices: Device[]; now: number };
}

export async function removeDevice(id: string): Promise<void> {
  await post(`/api/devices/${id}/revoke`);
}

export async function offerPairing(): Promise<Offer> {
  return post<Offer>('/api/devices/offer');
}

export async function agree(changed: Asked): Promise<Agreed> {
  return post<Agreed>('/api/settings', changed);
}

export async function bringIn(file: Blob): Promise<BroughtIn> {
  const init = { method: 'POST', headers: { 'Content-Type': 'application/x-ndjson' }, body: file };
  return (await (await ask('/api/outbox', init)).json()) as BroughtIn;
}

/** The version of the rules that the workshop's computer reckons with. */
export async function rulesThere(): Promise<string> {
  return ((await (await ask('/api/rules')).json()) as { version: string }).version;
}
