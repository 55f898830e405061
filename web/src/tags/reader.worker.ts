// Reads QR symbols away from the page, so that the screen never waits for it. QR only: other kinds
// of code cost many times as long and gave the only false reads.
import { prepareZXingModule, type ReaderOptions, readBarcodes } from 'zxing-wasm/reader';
import wasmUrl from 'zxing-wasm/reader/zxing_reader.wasm?url';
import type { Answered, Asked, Look, Sighting } from './looking.ts';

const worker = self as unknown as DedicatedWorkerGlobalScope;

// the decoder is served by the workshop's computer and kept on the phone; nothing is fetched elsewhere
const ready = prepareZXingModule({
  overrides: {
    locateFile: (name: string, folder: string) =>
      name.endsWith('.wasm') ? wasmUrl : folder + name,
  },
  fireImmediately: true,
});

const OPTIONS: ReaderOptions = {
  formats: ['QRCode'],
  tryHarder: true,
  tryDownscale: true,
  tryRotate: false,
  tryInvert: false,
  returnErrors: true,
  maxNumberOfSymbols: 8,
  textMode: 'Plain',
};

const canvas = new OffscreenCanvas(1, 1);
const context = canvas.getContext('2d', { willReadFrequently: true });

async function lookOnce(picture: ImageBitmap, { box, scale, denoise }: Look): Promise<Sighting[]> {
  if (!context) throw new Error('no drawing surface');
  canvas.width = Math.round(box.width * scale);
  canvas.height = Math.round(box.height * scale);
  context.imageSmoothingQuality = 'high';
  const { width, height } = canvas;
  context.drawImage(picture, box.x, box.y, box.width, box.height, 0, 0, width, height);
  const pixels = context.getImageData(0, 0, width, height);
  const found = await readBarcodes(pixels, { ...OPTIONS, tryDenoise: denoise });
  const fromMiddle = found.map(({ text, isValid, position }) => {
    const x = (position.topLeft.x + position.bottomRight.x) / 2 - width / 2;
    const y = (position.topLeft.y + position.bottomRight.y) / 2 - height / 2;
    const sighting: Sighting = { text: isValid ? text : '', damaged: !isValid };
    return { sighting, away: x * x + y * y };
  });
  return fromMiddle.sort((a, b) => a.away - b.away).map(({ sighting }) => sighting);
}

/** Look after look until one reads a symbol; else whatever was seen damaged. */
async function look({ picture, looks }: Asked): Promise<Sighting[]> {
  let damaged: Sighting[] = [];
  for (const one of looks) {
    const sightings = await lookOnce(picture, one);
    if (sightings.some((sighting) => !sighting.damaged)) return sightings;
    if (sightings.length) damaged = sightings;
  }
  return damaged;
}

worker.addEventListener('message', async (event: MessageEvent<Asked>) => {
  const answer: Answered = { id: event.data.id, sightings: [], problem: '' };
  try {
    await ready;
    answer.sightings = await look(event.data);
  } catch (problem) {
    answer.problem = problem instanceof Error ? problem.message : String(problem);
  } finally {
    event.data.picture.close();
  }
  worker.postMessage(answer);
});
