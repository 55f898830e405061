// Where in a picture a tag is looked for, and in which order. Pure: shared by the page, which knows
// what the outline covers, and by the worker, which does the looking.

export interface Size {
  width: number;
  height: number;
}
export interface Box extends Size {
  x: number;
  y: number;
}
/** One look: a part of the picture, drawn at `scale` before it is read. */
export interface Look {
  box: Box;
  scale: number;
  denoise: boolean;
}
/** A QR symbol in a picture. `damaged`: it was found but could not be read, and holds no text. */
export interface Sighting {
  text: string;
  damaged: boolean;
}
/** What the page asks of the worker: the picture is handed over, not copied. */
export interface Asked {
  id: number;
  picture: ImageBitmap;
  looks: Look[];
}
/** What the worker answers: the symbols of the first look that could be read, nearest the middle first. */
export interface Answered {
  id: number;
  sightings: Sighting[];
  problem: string;
}

/** Side of the outline as a share of the shorter side of the window the picture is shown in. */
export const OUTLINE = 0.62;
/** How much further than the outline a look reaches: nobody holds a tag exactly. */
const SLACK = 1.3;
/** Longest side, in pixels, that a part of the picture is enlarged to. */
const MOST = 1000;
/** Every third frame looks closer still: below 1.5 pixels a square only that finds anything. */
const CLOSER_EVERY = 3;

/** The part of a frame that the outline covers, the frame filling its window as `cover` does. */
export function outlined(frame: Size, shown: Size): Box {
  const scale = Math.max(shown.width / frame.width, shown.height / frame.height) || 1;
  const side = (Math.min(shown.width, shown.height) * OUTLINE) / scale;
  return middle(frame, side);
}

function middle(frame: Size, side: number): Box {
  const width = Math.round(Math.min(frame.width, side));
  const height = Math.round(Math.min(frame.height, side));
  return {
    x: Math.round((frame.width - width) / 2),
    y: Math.round((frame.height - height) / 2),
    width,
    height,
  };
}

/** The looks at one frame of the camera: the outline enlarged for small tags, then the whole frame. */
export function looksAtFrame(frame: Size, outline: Box, turn: number): Look[] {
  const box = middle(frame, outline.width * SLACK);
  const looks = [enlarged(box, 2), { box: whole(frame), scale: 1, denoise: false }];
  if (turn % CLOSER_EVERY === CLOSER_EVERY - 1)
    looks.splice(1, 0, enlarged(middle(frame, outline.width * 0.6), 3));
  return looks;
}

function enlarged(box: Box, most: number): Look {
  const scale = Math.max(1, Math.min(most, MOST / Math.max(box.width, box.height)));
  return { box, scale, denoise: true };
}

export function whole(frame: Size): Box {
  return { x: 0, y: 0, width: frame.width, height: frame.height };
}

/** The largest size of this shape whose longer side is at most `longest`; never larger than it is. */
export function within(size: Size, longest: number): Size {
  const scale = Math.min(1, longest / Math.max(size.width, size.height));
  return {
    width: Math.max(1, Math.round(size.width * scale)),
    height: Math.max(1, Math.round(size.height * scale)),
  };
}

/** A large photo in overlapping squares of at most `side` pixels, so that a small tag is found. */
export function tiles(size: Size, side: number): Look[] {
  const looks: Look[] = [];
  for (const y of starts(size.height, side))
    for (const x of starts(size.width, side)) {
      const width = Math.min(side, size.width);
      const height = Math.min(side, size.height);
      looks.push({ box: { x, y, width, height }, scale: 1, denoise: false });
    }
  return looks;
}

/** Where tiles start along one side: a third of each overlaps its neighbour at least. */
function starts(length: number, side: number): number[] {
  if (length <= side) return [0];
  const count = Math.ceil((length - side) / (side * (2 / 3))) + 1;
  return Array.from({ length: count }, (_, at) => Math.round((at * (length - side)) / (count - 1)));
}
