// Frame after frame from the camera to the reader, one at a time, for as long as it is wanted.
import type { RefObject } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { looksAtFrame, outlined } from './looking.ts';
import { look } from './reader.ts';
import { type Seen, seenIn, Watch } from './seen.ts';

/** Frames are taken no faster than this: more would only warm the phone. */
const PACE_MS = 70;

const HAVE_CURRENT_DATA = 2;

/** Calls `onSeen` with what is new in the picture, and `onFailed` once if reading cannot go on. */
export function useReading(
  video: RefObject<HTMLVideoElement | null>,
  active: boolean,
  onSeen: (seen: Seen) => void,
  onFailed: (problem: unknown) => void,
): void {
  const watch = useRef(new Watch());
  const told = useRef({ onSeen, onFailed });
  told.current = { onSeen, onFailed };
  useEffect(() => {
    if (!active) return;
    let going = true;
    const go = async (): Promise<void> => {
      for (let turn = 0; going; turn += 1) {
        const begun = performance.now();
        const seen = await seenNow(video.current, turn);
        if (!going) return;
        const news = seen && watch.current.next(seen, performance.now());
        if (news) told.current.onSeen(news);
        await pause(PACE_MS - (performance.now() - begun));
      }
    };
    go().catch((problem) => going && told.current.onFailed(problem));
    return () => {
      going = false;
      watch.current.pause();
    };
  }, [active, video]);
}

async function seenNow(video: HTMLVideoElement | null, turn: number): Promise<Seen | null> {
  if (!video || video.readyState < HAVE_CURRENT_DATA || !video.videoWidth) return null;
  const frame = { width: video.videoWidth, height: video.videoHeight };
  const shown = { width: video.clientWidth, height: video.clientHeight };
  const picture = await createImageBitmap(video);
  return seenIn(await look(picture, looksAtFrame(frame, outlined(frame, shown), turn)));
}

function pause(ms: number): Promise<void> {
  return new Promise((done) => setTimeout(done, Math.max(ms, 0)));
}
