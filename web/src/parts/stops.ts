// What stops before it is recorded: rivets whose length is to be confirmed, metal that is to stay
// bare, and a tag that goes with the film.
import { ask } from '../shell/feedback.tsx';
import { row } from '../shell/things.ts';
import type { Choice, Ground } from './choices.ts';
import { type Bare, bareIn } from './recording.ts';
import type { Steps } from './steps.ts';

// The bare places that are recorded all the same, none where there is nothing to stop for; null
// where the person stops here and nothing is to be recorded.
export async function mayRecord(
  ground: Ground,
  choices: Choice[],
  part: { id: string; name: string } | null,
  onFilm: string, // the tags that are on the film
): Promise<Bare[] | null> {
  const rivets = choices.some((choice) => choice.op === 'rivet' && choice.result !== 'none');
  const waiting = rivets ? (ground.waiting ?? []) : [];
  if (waiting.length && (await askWaiting(waiting)) !== 'anyway') return null;
  const bare = bareIn(ground, choices, part, (id) => {
    const found = row(id);
    return found && { name: found.name, steps: (found.fields.steps as Steps) ?? null };
  });
  if (bare.length && (await askBare(bare)) !== 'anyway') return null;
  const film = choices.some((choice) => choice.op === 'film' && choice.result !== 'none');
  if (film && onFilm && (await askFilm(part?.name ?? '', onFilm)) !== 'record') return null;
  return bare;
}

function askWaiting(waiting: string[]): Promise<string> {
  return ask(
    'Not ready to rivet',
    `${waiting.join(' ')} If they are set already, record it; it stays to be looked at.`,
    [
      { label: 'Do not rivet yet', answer: 'leave', main: true },
      { label: 'Record it anyway', answer: 'anyway' },
    ],
  );
}

function askBare(bare: Bare[]): Promise<string> {
  const names = [...new Set(bare.map((one) => one.name))].join(' and ');
  const where = bare.map((one) => one.where).join(', ');
  return ask(
    `Keep ${names} bare`,
    `Its steps say to keep it bare: ${where}. If it was done all the same, record it; a finding is opened with it, so that someone decides what becomes of the part.`,
    [
      { label: 'Leave it bare', answer: 'leave', main: true },
      { label: 'Record it anyway', answer: 'anyway' },
    ],
  );
}

function askFilm(name: string, tags: string): Promise<string> {
  return ask(
    'The tag is on the film',
    `${tags} is on the film of ${name}. Take it off with care and put it on the metal or tie it on, before the film is thrown away.`,
    [
      { label: 'The tag is safe: record film off', answer: 'record', main: true },
      { label: 'Not yet', answer: 'stop' },
    ],
  );
}
