// A drawing file sent to the workshop's computer, which reads the outlines in it. Nothing is kept.
import { OutOfReach } from '../../sync/wire.ts';
import type { Unit } from '../../twins/lengths.ts';
import type { Point, Side } from '../outline/exact.ts';
import { capital, type Fault } from '../outline/faults.ts';
import type { Region, Ring } from '../outline/rings.ts';

/** What is chosen where the file leaves it open; empty where it is not. */
export interface Chosen {
  unit: '' | Unit;
  layer: string;
}
export interface Read {
  is: 'read';
  outlines: (Region & { unit: string })[];
  notes: string[];
  layers: string[];
}
export interface CannotBeUsed {
  is: 'refused';
  /** "unit" where the unit has to be said */
  word: string;
  sentence: string;
  faults: Fault[];
  rings: Ring[];
  layers: string[];
}

const LARGEST = 12 * 1024 * 1024;
const SLOW_MS = 60_000;

/** What is in the file, or why that cannot be used. Throws OutOfReach where nobody answers. */
export async function readDrawing(file: File, chosen: Chosen): Promise<Read | CannotBeUsed> {
  if (file.size > LARGEST)
    return refused({
      problem: 'too large',
      sentence: 'A DXF of at most 12 MB is read. Save the outline alone in a file.',
    });
  const form = new FormData();
  form.set('file', file);
  form.set('unit', chosen.unit);
  form.set('layer', chosen.layer);
  const init = { method: 'POST', body: form, signal: AbortSignal.timeout(SLOW_MS) };
  let told: Partial<Told> & Partial<Refusal>;
  try {
    told = await (await fetch('/api/offcuts/outline', init)).json();
  } catch {
    throw new OutOfReach('The workshop computer cannot be reached. It reads drawing files.');
  }
  if (!told?.outlines) return refused(told ?? {});
  const { outlines, notes = [], layers = {} } = told;
  return { is: 'read', outlines, notes, layers: Object.keys(layers) };
}

interface Told {
  outlines: (Region & { unit: string })[];
  notes: string[];
  layers: Record<string, number>;
}
interface Refusal {
  problem: string;
  sentence: string;
  at: Point[];
  sides: Side[];
  rings: Ring[];
  layers: Record<string, number>;
}

function refused(told: Partial<Refusal>): CannotBeUsed {
  const sentence = capital(told.sentence ?? 'The workshop computer could not read that file.');
  const { problem = '', at = [], sides = [], rings = [], layers = {} } = told;
  const faults = [{ code: problem, sentence, points: at, sides }];
  return { is: 'refused', word: problem, sentence, faults, rings, layers: Object.keys(layers) };
}
