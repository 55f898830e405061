// What is asked of the workshop's computer for a sheet of tags, and what comes back.
import { ask, OutOfReach } from '../sync/wire.ts';

export type Paper = 'a4' | 'letter' | 'roll';
export type TagSize = 'tiny' | 'normal' | 'bin';

/** The form as it stands: lengths in whole millimetres, an empty field null. */
export interface SheetWish {
  which: 'new' | 'again';
  count: number | null;
  size: TagSize;
  paper: Paper;
  width: number | null;
  height: number | null;
  dpi: '203' | '300' | '600';
  skip: number | null;
}

/** Sizes of the symbol with its white border, as server/bucktail/tags/draw.py has them. */
export const SIZES: { value: TagSize; label: string }[] = [
  { value: 'tiny', label: 'tiny, 10 to 12 mm: clips and small parts' },
  { value: 'normal', label: 'normal, 20 to 25 mm: most parts' },
  { value: 'bin', label: 'large, 40 to 60 mm: bins, shelves, sheets' },
];

/** The most tags of one sheet that a phone may ask for. */
export const MOST = 200;

/** What must be said first; '' where nothing is missing. The rest the workshop's computer judges. */
export function wrongWith(wish: SheetWish, blank: string[]): string {
  const again = wish.which === 'again' && blank.length > 0;
  if (!again && !(wish.count && wish.count <= MOST)) return `Say how many: 1 to ${MOST} at a time.`;
  if (wish.paper === 'roll' && !(wish.width && wish.height))
    return 'Give width and height of one label in whole millimetres.';
  return '';
}

/** The request; `blank` are the codes that are on nothing yet. */
export function wishOf(wish: SheetWish, blank: string[]): Record<string, unknown> {
  const { size, dpi, paper, width, height, skip } = wish;
  const roll = paper === 'roll';
  const again = wish.which === 'again' && blank.length > 0;
  return {
    ...(again ? { codes: blank.slice(0, MOST) } : { new: wish.count }),
    size,
    dpi: Number(dpi),
    paper: roll ? `${width}x${height}mm` : paper,
    skip: roll ? 0 : (skip ?? 0),
  };
}

export interface Printed {
  pdf: Blob;
  words: string;
}

/** Throws with a sentence for the screen where no sheet came of it. */
export async function printSheet(wish: Record<string, unknown>): Promise<Printed> {
  try {
    const answer = await ask('/api/tags/sheet', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify(wish),
    });
    const tags = Number(answer.headers.get('Bucktail-Tags'));
    const pages = Number(answer.headers.get('Bucktail-Pages'));
    const words = `${counted(tags, 'tag')} on ${counted(pages, 'page')}.`;
    return { pdf: await answer.blob(), words };
  } catch (problem) {
    if (!(problem instanceof OutOfReach)) throw problem;
    throw new OutOfReach(
      `${problem.message} Tags are printed within reach of it. New ones that were made all the ` +
        'same are offered here as blank ones, to print again.',
    );
  }
}

export function counted(number: number, noun: string): string {
  return number === 1 ? `1 ${noun}` : `${number} ${noun}s`;
}
