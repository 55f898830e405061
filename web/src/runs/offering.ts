// A scanned part as the judge sees it, read from this phone.
import { groundOfPart } from '../parts/grounds.ts';
import { stepsOf } from '../parts/steps.ts';
import { named } from '../places/words.ts';
import { openedPhone } from '../shell/state.ts';
import { row, rows } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { tagOnFilm } from '../tags/attaching.ts';
import { handOf, type Run } from './current.ts';
import type { Offered, SoFar } from './judge.ts';

const text = (value: unknown): string | null => (typeof value === 'string' ? value : null);

export async function offeredPart(part: Row): Promise<Offered> {
  const card = await openedPhone().card(part.id);
  if (!card) throw new Error('This part is not whole on this phone. Open its screen once.');
  const { state } = card;
  return {
    id: part.id,
    name: named(part),
    hand: text(state.hand),
    station: text(state.station),
    assemblies: upwards(text(state.assembly)),
    ground: groundOfPart(state),
    steps: stepsOf(state),
    lines: linesOf(part.id),
    tagOnFilm: tagOnFilm(state),
  };
}

function linesOf(part: string): Offered['lines'] {
  return rows('line').flatMap((line) => {
    const strip = line.strips[part];
    return strip ? [{ id: line.id, name: line.name, strip }] : [];
  });
}

/** A place and those it lies in, by id. */
export function upwards(place: string | null): string[] {
  const way: string[] = [];
  for (let at = row(place); at && !way.includes(at.id); at = row(at.place)) way.push(at.id);
  return way;
}

export function soFarOf(run: Run): SoFar {
  const { plan } = run;
  const assembly = plan.what === 'step' ? row(plan.assembly)?.name : undefined;
  return {
    parts: new Set(run.entries.map((entry) => entry.thing)),
    hand: handOf(run),
    filmTagsSafe: run.filmTagsSafe,
    assemblyName: assembly ?? '',
    // times of the record are those of the workshop's clock
    now: Date.now() + openedPhone().offset,
  };
}
