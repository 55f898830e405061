// The page's end of the worker that reads tags. There is one for the whole app; it is started when a
// tag is first looked for and stays, because starting the decoder takes longer than a read.
import type { Answered, Asked, Look, Sighting } from './looking.ts';

/** The part that reads tags could not be started or failed; the message is for the screen. */
export class NoReader extends Error {}

const SENTENCE =
  'The part that reads tags is not on this device yet, or cannot run here. ' +
  'Type the code, or come back within reach of the workshop computer and try again.';

type Waiting = { done: (sightings: Sighting[]) => void; failed: (problem: NoReader) => void };

let worker: Worker | null = null;
let asked = 0;
const waiting = new Map<number, Waiting>();

function started(): Worker {
  if (worker) return worker;
  worker = new Worker(new URL('./reader.worker.ts', import.meta.url), { type: 'module' });
  worker.onmessage = (event: MessageEvent<Answered>) => {
    const { id, sightings, problem } = event.data;
    const one = waiting.get(id);
    waiting.delete(id);
    if (problem) {
      one?.failed(new NoReader(SENTENCE));
      stop(); // the next look starts it anew
    } else one?.done(sightings);
  };
  worker.onerror = stop;
  return worker;
}

function stop(): void {
  worker?.terminate();
  worker = null;
  for (const one of waiting.values()) one.failed(new NoReader(SENTENCE));
  waiting.clear();
}

/** Start the decoder ahead of the first look. */
export function warmUp(): void {
  started();
}

/** Read the symbols in a picture, which is handed over and gone afterwards. Throws NoReader. */
export function look(picture: ImageBitmap, looks: Look[]): Promise<Sighting[]> {
  asked += 1;
  const question: Asked = { id: asked, picture, looks };
  return new Promise((done, failed) => {
    waiting.set(question.id, { done, failed });
    started().postMessage(question, [picture]);
  });
}
