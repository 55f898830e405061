// The camera for as long as a screen shows it: given back when the screen goes, when the app is
// hidden, or when it is not wanted; taken again when it is.
import type { RefObject } from 'preact';
import { useEffect, useLayoutEffect, useState } from 'preact/hooks';
import { giveBack, openCamera, type Trouble, troubleOf } from './camera.ts';

export type CameraState = { is: 'asking' } | { is: 'live'; stream: MediaStream } | { is: Trouble };

function useVisible(): boolean {
  const [visible, setVisible] = useState(document.visibilityState === 'visible');
  useEffect(() => {
    const look = (): void => setVisible(document.visibilityState === 'visible');
    document.addEventListener('visibilitychange', look);
    return () => document.removeEventListener('visibilitychange', look);
  }, []);
  return visible;
}

export function useCamera(video: RefObject<HTMLVideoElement | null>): {
  camera: CameraState;
  again: () => void;
} {
  const [camera, setCamera] = useState<CameraState>({ is: 'asking' });
  const [turn, setTurn] = useState(0);
  const visible = useVisible();
  // at once, not after the next frame: an app that is hidden may get no other frame
  useLayoutEffect(() => {
    setCamera({ is: 'asking' });
    if (!visible) return;
    let wanted = true;
    let stream: MediaStream | null = null;
    const open = async (): Promise<void> => {
      try {
        stream = await openCamera();
        if (!wanted) return giveBack(stream);
        await show(stream, video.current);
        // unplugged, or taken by a telephone call
        stream.getVideoTracks()[0]?.addEventListener('ended', () => {
          if (wanted) setCamera({ is: 'busy' });
        });
        if (wanted) setCamera({ is: 'live', stream });
      } catch (problem) {
        if (wanted) setCamera({ is: troubleOf(problem) });
      }
    };
    void open();
    return () => {
      wanted = false;
      if (stream) giveBack(stream);
    };
  }, [visible, turn, video]);
  return { camera, again: () => setTurn((before) => before + 1) };
}

async function show(stream: MediaStream, video: HTMLVideoElement | null): Promise<void> {
  if (!video) return;
  video.srcObject = stream;
  await video.play().catch(() => undefined); // the picture comes when the browser lets it
}
