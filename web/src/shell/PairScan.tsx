// The camera, a photo, or back to typing: until it sees a pairing code.
import { useState } from 'preact/hooks';
import { readPhoto } from '../tags/photo.ts';
import '../tags/scanner.css';
import type { Seen } from '../tags/seen.ts';
import { Viewfinder } from '../tags/Viewfinder.tsx';
import { allowSound, tick } from './sounds.ts';

interface Props {
  /** Takes what a symbol holds; false where that is no pairing code. */
  onText: (text: string) => boolean;
  close: () => void;
}

export function PairScan({ onText, close }: Props) {
  const [said, setSaid] = useState('');
  const see = (seen: Seen): void => {
    if (seen.is === 'foreign' && onText(seen.text)) tick();
    else if (seen.is !== 'nothing') setSaid(NOT_ONE);
  };
  const photo = async (input: HTMLInputElement): Promise<void> => {
    const file = input.files?.[0];
    if (!file) return;
    try {
      const seen = await readPhoto(file);
      if (seen.is === 'nothing') setSaid('No code was found in this photo. Take it closer.');
      else see(seen);
    } catch (problem) {
      setSaid(problem instanceof Error ? problem.message : String(problem));
    }
    input.value = ''; // the same photo may be chosen again
  };
  return (
    <section class="scanner" aria-label="Reader for the pairing code">
      <Viewfinder paused={false} said={said} onSeen={see} what="pairing code" />
      <div class="ways">
        <label class="button photo">
          Photo
          <input
            class="out-of-sight"
            type="file"
            accept="image/*"
            aria-label="Take or choose a photo of the pairing code"
            onClick={allowSound}
            onChange={(event) => photo(event.currentTarget)}
          />
        </label>
        <button type="button" onClick={close}>
          Type the code
        </button>
      </div>
    </section>
  );
}

const NOT_ONE =
  'This is not a pairing code. It stands on the workshop computer, or on a device that has ' +
  'joined, under “Pair another device”.';
