// A photo to look at: from the bytes on this phone, or else from the workshop's computer.
import { useEffect, useRef, useState } from 'preact/hooks';
import { openedPhone, version } from '../shell/state.ts';
import { fetchPhoto } from '../sync/photowire.ts';
import { OutOfReach, Refused } from '../sync/wire.ts';

export type Shown =
  | { is: 'loading' }
  | { is: 'here'; address: string }
  | { is: 'absent'; sentence: string };

export const NOT_HERE_YET = 'Photo not here yet: it is still on the device that took it.';
export const NO_NETWORK = 'This photo is on the workshop computer, which is out of reach just now.';

// The photo with an address for an <img>. One that is absent is looked for again whenever
// anything came in.
export function usePhoto(digest: string): Shown {
  const [shown, setShown] = useState<Shown>({ is: 'loading' });
  const [turn, setTurn] = useState(0);
  const absent = useRef(false);
  const now = version.value;
  useEffect(() => {
    if (absent.current) setTurn((last) => last + 1);
  }, [now]);
  useEffect(() => {
    let address = '';
    let current = true;
    void lookFor(digest).then((found) => {
      if (!current) return;
      absent.current = typeof found === 'string';
      if (typeof found === 'string') return setShown({ is: 'absent', sentence: found });
      address = URL.createObjectURL(found);
      setShown({ is: 'here', address });
    });
    return () => {
      current = false;
      if (address) URL.revokeObjectURL(address);
    };
  }, [digest, turn]);
  return shown;
}

async function lookFor(digest: string): Promise<Blob | string> {
  const own = await openedPhone().photos.bytes(digest);
  if (own) return own;
  try {
    return await fetchPhoto(digest);
  } catch (problem) {
    if (problem instanceof OutOfReach) return NO_NETWORK;
    if (problem instanceof Refused && problem.status !== 404) return problem.message;
    return NOT_HERE_YET;
  }
}
