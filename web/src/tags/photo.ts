// Reads a tag in a photo, on the phone. A photo may be far larger than a phone can hold as pixels, so
// it is never opened at its full size: first small as a whole, then larger in overlapping tiles.
import { type Look, type Size, tiles, whole, within } from './looking.ts';
import { look } from './reader.ts';
import { type Seen, seenIn } from './seen.ts';

/** The file is not a picture that this browser can open; the message is for the screen. */
export class Unreadable extends Error {}

const UNREADABLE =
  'This browser cannot open that file as a picture. Take the photo as JPEG (on an iPhone: ' +
  'Settings, Camera, Formats, Most Compatible), or choose another one.';

const SMALL = 1600;
/** At most about 16 million pixels, 64 MB, while a photo is looked at. */
const LARGE = 4096;
const TILE = 1400;

/** What a photo holds: the tag, or what is in the way of one. Throws Unreadable and NoReader. */
export async function readPhoto(file: Blob): Promise<Seen> {
  const address = URL.createObjectURL(file);
  try {
    const image = await opened(address);
    const size = { width: image.naturalWidth, height: image.naturalHeight };
    const small = within(size, SMALL);
    const first = await seenAt(image, small, [{ box: whole(small), scale: 1, denoise: true }]);
    if (first.is === 'code' || Math.max(size.width, size.height) <= SMALL) return first;
    const large = within(size, LARGE);
    const closer = await seenAt(image, large, tiles(large, TILE));
    return closer.is === 'nothing' ? first : closer;
  } finally {
    URL.revokeObjectURL(address);
  }
}

async function opened(address: string): Promise<HTMLImageElement> {
  const image = new Image();
  const loaded = new Promise((done, failed) => {
    image.onload = done;
    image.onerror = failed;
  });
  image.src = address;
  try {
    await loaded;
  } catch {
    throw new Unreadable(UNREADABLE);
  }
  if (!image.naturalWidth) throw new Unreadable(UNREADABLE);
  return image;
}

async function seenAt(image: HTMLImageElement, size: Size, looks: Look[]): Promise<Seen> {
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(image, {
      resizeWidth: size.width,
      resizeHeight: size.height,
      resizeQuality: 'high',
    });
  } catch {
    throw new Unreadable(UNREADABLE);
  }
  return seenIn(await look(picture, looks));
}
