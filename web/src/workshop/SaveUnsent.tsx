// Saves what a phone could not send as a file. Works without a network, and changes nothing.
import { useState } from 'preact/hooks';
import { isInstalled, isIphone } from '../shell/installed.ts';
import { people } from '../shell/state.ts';
import type { Phone } from '../store/phone.ts';
import { fileName, unsentLines } from './unsentfile.ts';

async function base64Of(bytes: Blob): Promise<string> {
  const reader = new FileReader();
  await new Promise((done, failed) => {
    reader.onload = done;
    reader.onerror = () => failed(reader.error);
    reader.readAsDataURL(bytes);
  });
  const url = String(reader.result);
  return url.slice(url.indexOf(',') + 1);
}

async function fileOf(phone: Phone): Promise<File> {
  const photos = [];
  for (const digest of phone.photos.toSend()) {
    const bytes = await phone.photos.bytes(digest);
    if (bytes) photos.push({ digest, base64: await base64Of(bytes) });
  }
  const { identity } = phone;
  const personName = people.value[identity.person] ?? identity.person_name ?? '';
  const entries = await phone.db.getAll('outbox');
  const now = Date.now();
  const lines = unsentLines({ identity, personName, entries, photos, now });
  const type = 'application/x-ndjson';
  return new File([`${lines.join('\n')}\n`], fileName(identity, now), { type });
}

// Hands the file over; false where the person changed their mind.
async function hand(file: File): Promise<boolean> {
  // an app installed on an iPhone cannot download, but it can share
  if (isIphone() && isInstalled() && navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file] });
      return true;
    } catch (problem) {
      if ((problem as DOMException).name === 'AbortError') return false;
      throw problem;
    }
  }
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  return true;
}

export function SaveUnsent({ phone }: { phone: Phone }) {
  const [said, setSaid] = useState('');
  const save = async (): Promise<void> => {
    try {
      const file = await fileOf(phone);
      setSaid((await hand(file)) ? `Saved as ${file.name}. It stays on this device too.` : '');
    } catch (problem) {
      setSaid(`It could not be saved: ${problem instanceof Error ? problem.message : problem}`);
    }
  };
  return (
    <div class="way">
      <button type="button" onClick={save}>
        Save what is not sent as a file
      </button>
      <output class="outcome">{said}</output>
    </div>
  );
}
