import { describe, expect, test } from 'vitest';
import type { Identity, Kept } from '../store/database.ts';
import { fileName, partFile, unsentLines } from './unsentfile.ts';

const identity: Identity = {
  workshop: '6f0d8c1e-0000-4000-8000-000000000001',
  device: '0190b7a2-0000-7000-8000-000000000002',
  person: '0190b7a2-0000-7000-8000-000000000003',
  name: 'Back shed',
  unit: 'in',
  device_name: 'Bench / phone',
};
const kept = (seq: number, text: string): Kept => ({ seq, id: '', subject: '', group: null, text });
const entries = [kept(1, '{"body":{"name":"Rib Ω"}}'), kept(2, '{ "odd" : "spaces" }')];
const now = Date.UTC(2026, 2, 1, 12);
const photos = [{ digest: 'a'.repeat(64), base64: '/9j/4AAQ' }];
const bytesOf = (text: string) => new TextEncoder().encode(text);
const textOf = (lines: Uint8Array[]) => lines.map((line) => new TextDecoder().decode(line));

describe('the file', () => {
  const lines = unsentLines({ identity, personName: 'Sam Rivers', entries, photos, now });

  test('says in its first line what it is, whose, and how much is in it', () => {
    expect(JSON.parse(lines[0] ?? '')).toMatchObject({
      bucktail: 'outbox',
      version: 1,
      workshop: identity.workshop,
      device: identity.device,
      person_name: 'Sam Rivers',
      entries: 2,
      photos: 1,
      saved_at: now,
    });
  });

  test('holds every entry exactly as it was written', () => {
    expect(lines.slice(1, 3)).toEqual(entries.map((one) => one.text));
  });

  test('comes apart into entries and photos again', () => {
    const { entries: back, photos: seen } = partFile(bytesOf(`${lines.join('\n')}\n`));
    expect(textOf(back)).toEqual(lines.slice(0, 3).map((line) => `${line}\n`));
    expect(seen).toEqual(photos);
  });
});

describe('coming apart', () => {
  test('leaves damaged bytes as they are', () => {
    const damaged = new Uint8Array([0x7b, 0xff, 0xfe, 10, 0x31]);
    const { entries: lines } = partFile(damaged);
    expect(lines.flatMap((line) => [...line])).toEqual([...damaged]);
    expect(lines).toHaveLength(2);
  });

  test('takes a damaged photo for an entry, so that it is reported', () => {
    const { entries: lines, photos: none } = partFile(bytesOf('{"photo":"ab","jp\n'));
    expect(none).toEqual([]);
    expect(lines).toHaveLength(1);
  });

  test('of nothing is nothing', () => {
    expect(partFile(new Uint8Array())).toEqual({ entries: [], photos: [] });
  });
});

test('the name of the file is plain and says whose it is', () => {
  expect(fileName(identity, now)).toBe('bucktail-not-sent-back-shed-bench-phone-2026-03-01.jsonl');
  expect(fileName({ ...identity, name: '../..', device_name: '' }, now)).toBe(
    'bucktail-not-sent-2026-03-01.jsonl',
  );
});
