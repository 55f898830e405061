// The camera's picture with the outline over it, or the sentence that says why there is none.
import { useEffect, useRef, useState } from 'preact/hooks';
import { hasTorch, lightTorch, TROUBLE_SENTENCES } from './camera.ts';
import { Outline } from './Outline.tsx';
import { warmUp } from './reader.ts';
import type { Seen } from './seen.ts';
import { useCamera } from './useCamera.ts';
import { useReading } from './useReading.ts';

interface Props {
  paused: boolean;
  /** A sentence about what was seen last. */
  said: string;
  onSeen: (seen: Seen) => void;
  /** What is held into the picture. */
  what?: string;
}

export function Viewfinder({ paused, said, onSeen, what = 'tag' }: Props) {
  const video = useRef<HTMLVideoElement>(null);
  const [failed, setFailed] = useState('');
  const { camera, again } = useCamera(video);
  const live = camera.is === 'live';
  useEffect(warmUp, []);
  useReading(video, live && !paused && !failed, onSeen, (problem) =>
    setFailed(problem instanceof Error ? problem.message : String(problem)),
  );
  const trouble = camera.is === 'live' || camera.is === 'asking' ? '' : camera.is;
  const sentence = failed || (trouble && TROUBLE_SENTENCES[trouble]);
  const retry = (): void => {
    if (failed) setFailed('');
    else again();
  };
  return (
    <>
      <div class={`viewfinder${live ? ' live' : ''}`}>
        <video ref={video} muted playsInline autoplay aria-label="What the camera sees" />
        {!sentence && <Outline what={`one ${what}`} />}
        {camera.is === 'asking' && (
          <p class="asking" role="status">
            Starting the camera. If the browser asks, allow it.
          </p>
        )}
        {sentence && (
          <div class="trouble" role="alert">
            <p>{sentence}</p>
            <p>A photo or the typed code does as well.</p>
            {trouble !== 'insecure' && (
              <button type="button" onClick={retry}>
                Try again
              </button>
            )}
          </div>
        )}
        {!sentence && <Said said={said} />}
      </div>
      {sentence && <Said said={said} />}
      {live && !failed && (
        <div class="beneath">
          <p>Hold the {what} inside the outline.</p>
          {hasTorch(camera.stream) && <Torch stream={camera.stream} />}
        </div>
      )}
    </>
  );
}

/** Over the lower edge of the picture, so that nothing moves under the finger. */
export function Said({ said }: { said: string }) {
  return (
    <div class="said" aria-live="polite">
      {said && <p class="note">{said}</p>}
    </div>
  );
}

function Torch({ stream }: { stream: MediaStream }) {
  const [lit, setLit] = useState(false);
  return (
    <button
      type="button"
      aria-pressed={lit}
      onClick={async () => setLit(await lightTorch(stream, !lit))}
    >
      {lit ? 'Light off' : 'Light'}
    </button>
  );
}
