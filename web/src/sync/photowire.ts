// Photos to and from the workshop's computer.
import type { PhotoWire } from './photos.ts';
import { ask } from './wire.ts';

const SLOW_MS = 180_000; // a photo over a bad network in a far corner of the yard

export const photoHttp: PhotoWire = {
  async put(digest, bytes) {
    await ask(`/api/photos/${digest}`, {
      method: 'PUT',
      headers: { 'Content-Type': 'image/jpeg' },
      body: bytes,
      signal: AbortSignal.timeout(SLOW_MS),
    });
  },
  async missing() {
    const answer = await ask('/api/photos/missing');
    return ((await answer.json()) as { missing: string[] }).missing;
  },
};

// A photo's bytes from the workshop's computer. Throws OutOfReach, or Refused with the reason.
export async function fetchPhoto(digest: string): Promise<Blob> {
  return (await ask(`/api/photos/${digest}`, { signal: AbortSignal.timeout(SLOW_MS) })).blob();
}
