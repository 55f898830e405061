// Reads one tag after another, for any screen that needs it: by the camera, from a photo, or typed.
// A short tick says that a tag was read; nothing is stored by reading.
import { useEffect, useRef, useState } from 'preact/hooks';
import { tick } from '../shell/sounds.ts';
import { readPhoto } from './photo.ts';
import './scanner.css';
import { DAMAGED, type Seen } from './seen.ts';
import { Typed } from './Typed.tsx';
import { Said, Viewfinder } from './Viewfinder.tsx';

export type How = 'camera' | 'photo' | 'typed';

interface Props {
  /** Called with each tag read; the same one again only after it left the picture. */
  onRead: (code: string, how: How) => void;
  /** What to scan, in a few words. */
  prompt: string;
  /** True while a read would be of no use: the camera stays open, nothing is read. */
  paused?: boolean;
}

const SAID_MS = 7000;

export function Scanner({ onRead, prompt, paused = false }: Props) {
  const [typing, setTyping] = useState(false);
  const { said, say } = useSaid();
  const read = (code: string, how: How): void => {
    say('');
    tick();
    onRead(code, how);
  };
  const see = (seen: Seen, how: How): void => {
    if (seen.is === 'code') read(seen.code, how);
    else say(sentenceFor(seen), how === 'camera');
  };
  return (
    <section class="scanner" aria-label="Tag reader">
      <p class="prompt">{prompt}</p>
      {typing ? (
        <>
          <Typed onTaken={(code) => read(code, 'typed')} />
          <Said said={said} />
        </>
      ) : (
        <Viewfinder paused={paused} said={said} onSeen={(seen) => see(seen, 'camera')} />
      )}
      <div class="ways">
        <Photo onSeen={(seen) => see(seen, 'photo')} onSay={say} />
        <button type="button" onClick={() => setTyping(!typing)}>
          {typing ? 'Use the camera' : 'Type the code'}
        </button>
      </div>
    </section>
  );
}

function sentenceFor(seen: Seen): string {
  if (seen.is === 'damaged') return DAMAGED;
  if (seen.is === 'nothing')
    return 'No tag was found in this photo. Take it closer, with the whole QR code sharp and in it.';
  return seen.is === 'foreign' ? seen.sentence : '';
}

/** A sentence about the last picture; one about the camera goes again by itself. */
function useSaid(): { said: string; say: (sentence: string, passing?: boolean) => void } {
  const [said, setSaid] = useState('');
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  useEffect(() => () => clearTimeout(timer.current), []);
  const say = (sentence: string, passing = false): void => {
    clearTimeout(timer.current);
    setSaid(sentence);
    if (passing) timer.current = setTimeout(() => setSaid(''), SAID_MS);
  };
  return { said, say };
}

function Photo({ onSeen, onSay }: { onSeen: (seen: Seen) => void; onSay: (text: string) => void }) {
  const [busy, setBusy] = useState(false);
  const choose = async (input: HTMLInputElement): Promise<void> => {
    const file = input.files?.[0];
    if (!file) return;
    setBusy(true);
    onSay('Looking for a tag in the photo …');
    try {
      onSeen(await readPhoto(file));
    } catch (problem) {
      onSay(problem instanceof Error ? problem.message : String(problem));
    }
    input.value = ''; // the same photo may be chosen again
    setBusy(false);
  };
  return (
    <label class="button photo">
      Photo
      <input
        class="out-of-sight"
        type="file"
        accept="image/*"
        aria-label="Take or choose a photo of a tag"
        disabled={busy}
        onChange={(event) => choose(event.currentTarget)}
      />
    </label>
  );
}
