// Take a photo, or choose a picture that is on the phone already.
import { useState } from 'preact/hooks';
import type { KeptPhoto } from '../store/database.ts';
import { makePhoto, NotAPhoto } from './make.ts';
import './photos.css';

// `onTaken` may take its time: until it is done the phone says that it is busy.
export function TakePhoto({ onTaken }: { onTaken: (photo: KeptPhoto) => void | Promise<void> }) {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState('');
  const taken = async (input: HTMLInputElement): Promise<void> => {
    const files = [...(input.files ?? [])];
    input.value = ''; // the same picture can be chosen again
    setBusy(true);
    setProblem('');
    for (const file of files) {
      try {
        await onTaken(await makePhoto(file));
      } catch (failed) {
        if (!(failed instanceof NotAPhoto)) throw failed;
        setProblem(files.length > 1 ? `${file.name}: ${failed.message}` : failed.message);
      }
    }
    setBusy(false);
  };
  return (
    <div class="take-photo">
      <Way label="Take a photo" camera busy={busy} onFiles={taken} />
      <Way label="Choose a picture" busy={busy} onFiles={taken} />
      <p class="faint" aria-live="polite">
        {busy ? 'Making the photo ready …' : ''}
      </p>
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}

function Way({
  label,
  camera = false,
  busy,
  onFiles,
}: {
  label: string;
  camera?: boolean;
  busy: boolean;
  onFiles: (input: HTMLInputElement) => Promise<void>;
}) {
  return (
    <label class="button photo-way">
      {label}
      <input
        type="file"
        accept="image/*"
        {...(camera ? { capture: 'environment' as const } : { multiple: true })}
        disabled={busy}
        onChange={(event) => onFiles(event.currentTarget)}
      />
    </label>
  );
}
