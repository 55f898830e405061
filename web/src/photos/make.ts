// The photo as it is kept: a JPEG of at most 2560 px, made anew on this phone, so that it carries
// neither the place where it was taken nor anything else that the camera wrote into it.
import type { KeptPhoto } from '../store/database.ts';

export const LONGEST_PX = 2560;
const LARGEST_BYTES = 7 * 1024 * 1024; // the workshop's computer takes 8 MB
const QUALITIES = [0.86, 0.7, 0.5];

export class NotAPhoto extends Error {}

const UNREADABLE =
  'This picture cannot be read on this phone. Take it with the camera, or choose a JPEG or PNG.';
const TOO_MUCH =
  'This picture needs more memory than the phone has free. Close other apps, or take it smaller.';

/** Width and height that fit in LONGEST_PX each way, never enlarged; whole px, at least 1. */
export function fitted(width: number, height: number): [number, number] {
  const scale = Math.min(1, LONGEST_PX / Math.max(width, height));
  return [Math.max(1, Math.round(width * scale)), Math.max(1, Math.round(height * scale))];
}

// Throws NotAPhoto with a sentence where no photo can be made of it.
export async function makePhoto(file: Blob, now = Date.now()): Promise<KeptPhoto> {
  const address = URL.createObjectURL(file);
  const picture = new Image();
  try {
    // an image element turns the picture as the camera was held, and is decoded only once
    picture.src = address;
    await picture.decode().catch(() => {
      throw new NotAPhoto(UNREADABLE);
    });
    if (!picture.naturalWidth || !picture.naturalHeight) throw new NotAPhoto(UNREADABLE);
    const bytes = await asJpeg(picture);
    return { digest: await sha256(bytes), bytes, sent: false, at: now };
  } finally {
    picture.src = '';
    URL.revokeObjectURL(address);
  }
}

async function asJpeg(picture: HTMLImageElement): Promise<Blob> {
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = fitted(picture.naturalWidth, picture.naturalHeight);
  const context = canvas.getContext('2d', { alpha: false });
  if (!context) throw new NotAPhoto(TOO_MUCH);
  context.fillStyle = '#fff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.imageSmoothingQuality = 'high';
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  try {
    for (const quality of QUALITIES) {
      const bytes = await new Promise<Blob | null>((done) =>
        canvas.toBlob(done, 'image/jpeg', quality),
      );
      if (bytes?.type !== 'image/jpeg') break;
      if (bytes.size <= LARGEST_BYTES) return bytes;
    }
    throw new NotAPhoto(TOO_MUCH);
  } finally {
    // gives the memory back at once; some phones keep few canvases
    canvas.width = 0;
    canvas.height = 0;
  }
}

async function sha256(bytes: Blob): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', await bytes.arrayBuffer());
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
