// The camera: asked for, opened, given back. Every way it can fail has a word, and the screen a
// sentence for it.

export type Trouble = 'refused' | 'none' | 'busy' | 'insecure';

/** What a person can do about a camera that is not there. */
export const TROUBLE_SENTENCES: Record<Trouble, string> = {
  refused:
    'Bucktail may not use the camera here. Open the settings of this site beside the address, ' +
    'allow the camera, and try again. On an iPhone: Settings, Apps, the browser, Camera.',
  none: 'No camera was found on this device.',
  busy: 'The camera does not answer: another app may be using it. Close that app and try again.',
  insecure: 'The camera works only where the address starts with https.',
};

/** Rear camera, and as fine as it gives without being asked for more than is of use. */
const WANTED: MediaStreamConstraints = {
  audio: false,
  video: {
    facingMode: { ideal: 'environment' },
    width: { ideal: 1920 },
    height: { ideal: 1080 },
  },
};

export async function openCamera(): Promise<MediaStream> {
  if (!navigator.mediaDevices?.getUserMedia) throw new DOMException('', 'SecurityError');
  return navigator.mediaDevices.getUserMedia(WANTED);
}

export function troubleOf(problem: unknown): Trouble {
  const name = problem instanceof DOMException ? problem.name : '';
  if (name === 'SecurityError') return 'insecure';
  if (name === 'NotAllowedError') return 'refused';
  if (name === 'NotFoundError' || name === 'OverconstrainedError') return 'none';
  return 'busy';
}

export function giveBack(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop();
}

// the torch stands in the published specification of the image capture constraints, not in the
// types of the browser
interface TorchTrack {
  getCapabilities?: () => { torch?: boolean };
  applyConstraints(wanted: { advanced: { torch: boolean }[] }): Promise<void>;
}

function torchTrack(stream: MediaStream): TorchTrack | undefined {
  return stream.getVideoTracks()[0] as unknown as TorchTrack | undefined;
}

export function hasTorch(stream: MediaStream): boolean {
  return torchTrack(stream)?.getCapabilities?.().torch === true;
}

/** Resolves with whether the torch is lit now. */
export async function lightTorch(stream: MediaStream, on: boolean): Promise<boolean> {
  try {
    await torchTrack(stream)?.applyConstraints({ advanced: [{ torch: on }] });
    return on;
  } catch {
    return false;
  }
}
