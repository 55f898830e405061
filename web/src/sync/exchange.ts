// One exchange with the workshop's computer: send what is not sent, then fetch what changed.
import type { Sent } from '../store/database.ts';
import type { Phone } from '../store/phone.ts';
import { Refused, type Wire } from './wire.ts';

const BATCH = 200;

export interface Exchanged {
  sent: number;
  fetched: number;
  aside: string[]; // reasons of what was set aside
  people: Record<string, string>;
  agreed: { name: string; unit: 'in' | 'mm' } | null; // what the workshop is called now, its unit
}

export async function exchange(
  phone: Phone,
  wire: Wire,
  clock: () => number,
  onProgress: (done: Exchanged) => void = () => undefined,
): Promise<Exchanged> {
  const done: Exchanged = { sent: 0, fetched: 0, aside: [], people: {}, agreed: null };
  for (let batch = await phone.nextToSend(BATCH); batch.length; ) {
    const now = clock();
    const taken = await wire.push(
      batch.map((one) => one.text),
      now,
    );
    const answers: Sent[] = batch.map((one, at) => {
      const answer = taken[at];
      if (!answer || (answer.result !== 'aside' && answer.id !== one.id))
        throw new Error('The workshop computer answered for something else.');
      const aside = answer.result === 'aside' ? (answer.reason ?? 'no reason given') : null;
      if (aside !== null) done.aside.push(aside);
      return { ...one, position: answer.position, aside, at: now };
    });
    await phone.settle(answers);
    done.sent += answers.length;
    onProgress(done);
    batch = await phone.nextToSend(BATCH);
  }
  await fetchChanges(phone, wire, clock, done, onProgress);
  return done;
}

async function fetchChanges(
  phone: Phone,
  wire: Wire,
  clock: () => number,
  done: Exchanged,
  onProgress: (done: Exchanged) => void,
): Promise<void> {
  for (let more = true; more; ) {
    const asked = clock();
    try {
      const page = await wire.pull(await phone.head());
      await phone.takeCards(page.cards, page.head, page.now - Math.round((asked + clock()) / 2));
      done.fetched += page.cards.length;
      done.people = page.people;
      done.agreed = { name: page.name, unit: page.unit };
      more = page.more;
      onProgress(done);
    } catch (problem) {
      if (!(problem instanceof Refused) || problem.word !== 'restored') throw problem;
      await phone.startOver();
      throw problem;
    }
  }
}
