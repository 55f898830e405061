// What this phone could not send, as a file: lines of JSON that the workshop's computer takes up
// with `bucktail outbox import`, or any other device of the workshop on its screen. The entries
// stand in it byte for byte as they would have been sent.
import type { Identity, Kept } from '../store/database.ts';

export interface Contents {
  identity: Identity;
  personName: string;
  entries: Kept[];
  photos: { digest: string; base64: string }[];
  now: number;
}

const PHOTO = '{"photo":'; // how a photo's line begins, here and where it is read

export function unsentLines({ identity, personName, entries, photos, now }: Contents): string[] {
  const says = {
    bucktail: 'outbox',
    version: 1,
    workshop: identity.workshop,
    device: identity.device,
    device_name: identity.device_name ?? '',
    person: identity.person,
    person_name: personName,
    saved_at: now,
    entries: entries.length,
    photos: photos.length,
  };
  return [
    JSON.stringify(says),
    ...entries.map((one) => one.text),
    ...photos.map(({ digest, base64 }) => JSON.stringify({ photo: digest, jpeg: base64 })),
  ];
}

export function fileName(identity: Identity, now: number): string {
  const day = new Date(now).toISOString().slice(0, 10);
  const parts = ['bucktail not sent', identity.name, identity.device_name ?? '', day];
  const plain = parts.join(' ').replace(/[^\p{L}\p{N}]+/gu, '-');
  return `${plain.replace(/^-|-$/g, '').toLowerCase()}.jsonl`;
}

export interface Parted {
  entries: Uint8Array<ArrayBuffer>[]; // every line but the photos', each with its line end
  photos: { digest: string; base64: string }[];
}

const NEWLINE = 10;

// Takes the photos out of a file, since each goes to the workshop's computer by itself. Works on
// bytes: what is damaged must arrive as damaged as it is.
export function partFile(bytes: Uint8Array<ArrayBuffer>): Parted {
  const parted: Parted = { entries: [], photos: [] };
  for (let from = 0; from < bytes.length; ) {
    const found = bytes.indexOf(NEWLINE, from);
    const end = found < 0 ? bytes.length : found + 1;
    const line = bytes.subarray(from, end);
    const photo = photoIn(line);
    if (photo) parted.photos.push(photo);
    else parted.entries.push(line);
    from = end;
  }
  return parted;
}

function photoIn(line: Uint8Array): { digest: string; base64: string } | null {
  for (let at = 0; at < PHOTO.length; at += 1) if (line[at] !== PHOTO.charCodeAt(at)) return null;
  try {
    const { photo, jpeg } = JSON.parse(new TextDecoder().decode(line));
    return typeof photo === 'string' && typeof jpeg === 'string'
      ? { digest: photo, base64: jpeg }
      : null;
  } catch {
    return null;
  }
}
