// Joining a workshop: the code out of a link, and what is asked of the workshop's computer.
import { remember, remembered } from '../store/current.ts';
import type { Identity } from '../store/database.ts';
import { newId } from '../store/ids.ts';
import { Phone } from '../store/phone.ts';
import { ask, OutOfReach } from '../sync/wire.ts';
import { path } from './router.ts';
import { usePhone } from './state.ts';

const IN_LINK = /#pair=([0-9A-Za-z-]+)/;

/** The pairing code in a link or in what a symbol holds; empty where there is none. */
export function codeInLink(text: string): string {
  return IN_LINK.exec(text)?.[1] ?? '';
}

/** The code of the link this page was opened with, taken out of the address and the history. */
export function codeFromAddress(): string {
  const code = codeInLink(location.hash);
  if (code) {
    history.replaceState(null, '', '/pair');
    path.value = '/pair';
  }
  return code;
}

export interface Joining {
  code: string;
  person: string;
  device: string;
}

/** Pairs this browser. Throws an error whose message is for the screen. */
export async function join({ code, person, device }: Joining): Promise<void> {
  // the same browser keeps its number, so that pairing again does not make it another device
  const id = (await remembered('device')) ?? newId();
  await remember('device', id);
  const said = { answer: code, device: id, device_name: device, person_name: person };
  let told: Response;
  try {
    told = await ask('/api/pair', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify(said),
    });
  } catch (problem) {
    if (!(problem instanceof OutOfReach)) throw problem;
    throw new Error(
      `${problem.message} See that Bucktail runs on it and that this device is on the same ` +
        'network, then join again.',
    );
  }
  const identity = (await told.json()) as Identity;
  await usePhone(await Phone.create(identity));
}
