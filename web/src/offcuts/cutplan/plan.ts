// Asking the workshop's computer for a cut plan: several pieces over all offcuts. It works on it
// beside everything else, so it is asked after until it is done.
import { ask, OutOfReach, read } from '../../sync/wire.ts';
import type { Point } from '../../twins/fit.ts';

/** One piece on one offcut (nm): its corners, and from where to where it runs from the datum. */
export interface Cut {
  readonly want: string;
  readonly nth: number;
  readonly corners: readonly Point[];
  readonly along: Point;
  readonly off: Point;
}
export interface Sheet {
  readonly stock: string;
  readonly datum: { readonly start: Point; readonly end: Point; readonly edge: boolean };
  readonly cuts: readonly Cut[];
  readonly straight: boolean;
}
export interface Plan {
  readonly sheets: readonly Sheet[];
  readonly not_placed: readonly {
    readonly want: string;
    readonly count: number;
    readonly reason: string;
  }[];
  readonly stopped: boolean;
}
export interface Planning {
  readonly id: string;
  readonly state: 'working' | 'done' | 'cancelled' | 'failed';
  readonly done: number;
  readonly of: number;
  readonly placed: number;
  readonly plan: Plan | null;
}

const PATH = '/api/offcuts/plan';

/** Begin a plan for these pieces wanted. A null kerf is what the workshop says its saw takes. */
export async function beginPlan(pieces: readonly string[], kerf_nm: number | null) {
  return answered(
    await ask(PATH, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify({ pieces, kerf_nm }),
    }),
  );
}

export async function lookAtPlan(id: string): Promise<Planning> {
  return answered(await ask(`${PATH}/${id}`));
}

export async function cancelPlan(id: string): Promise<Planning> {
  return answered(await ask(`${PATH}/${id}`, { method: 'DELETE' }));
}

async function answered(answer: Response): Promise<Planning> {
  const told = await read<Partial<Planning>>(answer.json());
  const sheets = told.plan?.sheets;
  const sound = typeof told.id === 'string' && typeof told.state === 'string';
  if (!sound || (told.state === 'done' && !Array.isArray(sheets)))
    throw new OutOfReach('The workshop computer answered something else.');
  return told as Planning;
}
