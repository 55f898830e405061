// A piece at full size, drawn by the workshop's computer: what is asked of it and what comes back.
import { ask, OutOfReach, read } from '../sync/wire.ts';
import type { Unit } from '../twins/lengths.ts';

export type Paper = 'a4' | 'letter';
export type Form = 'pdf' | 'dxf' | 'svg';

export interface Template {
  form: Form;
  file: Blob;
  name: string;
  pages: number; // 0 where it is not for paper
}

/** The paper that goes with the workshop's unit, as server/bucktail/routes/templates.py has it. */
export const paperFor = (unit: Unit): Paper => (unit === 'in' ? 'letter' : 'a4');

export const addressOf = (piece: string, form: Form, paper: Paper): string =>
  `/api/wanted/${encodeURIComponent(piece)}/template.${form}?paper=${paper}`;

/** Throws with a sentence for the screen where no template came of it. */
export async function fetchTemplate(piece: string, form: Form, paper: Paper): Promise<Template> {
  try {
    const answer = await ask(addressOf(piece, form, paper));
    return {
      form,
      file: await read(answer.blob()),
      name: nameIn(answer.headers.get('Content-Disposition')) || `template.${form}`,
      pages: Number(answer.headers.get('Bucktail-Pages') ?? 0),
    };
  } catch (problem) {
    if (!(problem instanceof OutOfReach)) throw problem;
    throw new OutOfReach(`${problem.message} It draws the template: try again within its reach.`);
  }
}

/** The file name that the answer brings. */
export function nameIn(disposition: string | null): string {
  return /filename="([^"]+)"/.exec(disposition ?? '')?.[1] ?? '';
}

/** What to do with the file, in a sentence or two. */
export function readyWords({ form, pages }: Template): string {
  if (form !== 'pdf') return `The ${form.toUpperCase()} is at full size, in millimetres.`;
  const many = pages === 1 ? '1 page' : `${pages} pages`;
  return `${many}. Print at actual size (100 %), and measure the bars at the foot of every page.`;
}
