// Brings in a file that another device of this workshop saved of what it could not send.
import { useState } from 'preact/hooks';
import { sync } from '../shell/state.ts';
import { photoHttp } from '../sync/photowire.ts';
import { Refused } from '../sync/wire.ts';
import { partFile } from './unsentfile.ts';
import { type BroughtIn, bringIn } from './workshopwire.ts';

interface Result {
  done: BroughtIn;
  photos: number;
  photosNot: string[];
}

function bytesOf(base64: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
}

async function take(file: File): Promise<Result> {
  const { entries, photos } = partFile(new Uint8Array(await file.arrayBuffer()));
  const result: Result = { done: await bringIn(new Blob(entries)), photos: 0, photosNot: [] };
  for (const { digest, base64 } of photos) {
    try {
      await photoHttp.put(digest, new Blob([bytesOf(base64)], { type: 'image/jpeg' }));
      result.photos += 1;
    } catch (problem) {
      if (!(problem instanceof Refused) && !(problem instanceof DOMException)) throw problem;
      result.photosNot.push(problem.message);
    }
  }
  return result;
}

export function BringIn() {
  const [result, setResult] = useState<Result | null>(null);
  const [problem, setProblem] = useState('');
  const [busy, setBusy] = useState(false);
  const choose = async (input: HTMLInputElement): Promise<void> => {
    const file = input.files?.[0];
    if (!file) return;
    setBusy(true);
    setProblem('');
    setResult(null);
    try {
      setResult(await take(file));
      void sync();
    } catch (failed) {
      setProblem(`${failed instanceof Error ? failed.message : failed} The file is unchanged.`);
    }
    input.value = ''; // the same file may be chosen again
    setBusy(false);
  };
  return (
    <div class="way">
      <label class="button file">
        {busy ? 'Bringing it in …' : 'Bring in such a file from another device'}
        <input
          class="out-of-sight"
          type="file"
          accept=".jsonl,application/x-ndjson,application/json,text/plain"
          disabled={busy}
          onChange={(event) => choose(event.currentTarget)}
        />
      </label>
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      {result && <Told {...result} />}
    </div>
  );
}

function Told({ done, photos, photosNot }: Result) {
  const entries = (count: number): string => `${count} ${count === 1 ? 'entry' : 'entries'}`;
  const troubles = [
    ...done.aside.map(({ line, reason }) => `Set aside, line ${line}: ${reason}`),
    ...photosNot.map((reason) => `A photo was not taken: ${reason}`),
  ];
  if (done.missing)
    troubles.push(
      `The file ends too early: ${entries(done.missing)} missing. Save it again on the other device.`,
    );
  return (
    <div class="note" role="status">
      <p>
        {entries(done.stored)} taken up
        {done.known > 0 && `, ${done.known} known already`}
        {photos > 0 && `, ${photos} ${photos === 1 ? 'photo' : 'photos'} kept`}.
      </p>
      {troubles.length > 0 && (
        <ul>
          {troubles.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      )}
    </div>
  );
}
