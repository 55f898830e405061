// One exchange with the workshop's computer: send what is not sent, then fetch what changed.
import type { Identity, Sent } from '../store/database.ts';
import type { Phone } from '../store/phone.ts';
import { fetchCurves } from './curves.ts';
import { OutOfReach, Refused, type Wire } from './wire.ts';

const BATCH = 200;

export interface Exchanged {
  sent: number;
  fetched: number;
  aside: string[]; // reasons of what was set aside
  people: Record<string, string>;
  toMeasure: number; // outlines that the workshop's computer has still to measure
  measured: boolean; // what fits in some outline came in
  agreed: Pick<Identity, 'name' | 'unit' | 'sawing'> | null; // what the workshop is called now, its unit, what its saw takes
}

// Throws what the wire throws; what was answered for until then is settled, the rest stays.
export async function exchange(
  phone: Phone,
  wire: Wire,
  clock: () => number,
  onProgress: (done: Exchanged) => void = () => undefined,
): Promise<Exchanged> {
  const done: Exchanged = {
    sent: 0,
    fetched: 0,
    aside: [],
    people: {},
    toMeasure: 0,
    measured: false,
    agreed: null,
  };
  const once = async (): Promise<Exchanged> => {
    await sendAll(phone, wire, clock, done, onProgress);
    const newest = await fetchChanges(phone, wire, clock, done, onProgress);
    const allSent = (await phone.outboxCount()) === 0;
    const rows = () => phone.rows.values();
    const { waiting, came } = await fetchCurves(phone.curves, wire, newest, rows, allSent);
    Object.assign(done, { toMeasure: waiting, measured: came });
    return done;
  };
  try {
    return await once();
  } catch (problem) {
    if (!(problem instanceof Refused) || problem.word !== 'restored') throw problem;
    await phone.startOver();
    return await once();
  }
}

async function sendAll(
  phone: Phone,
  wire: Wire,
  clock: () => number,
  done: Exchanged,
  onProgress: (done: Exchanged) => void,
): Promise<void> {
  for (let batch = await phone.nextToSend(BATCH); batch.length; ) {
    const now = clock();
    const texts = batch.map((one) => one.text);
    const taken = await wire.push(texts, now, phone.seen);
    const answers: Sent[] = batch.map((one, at) => {
      const answer = taken[at];
      if (!answer || (answer.result !== 'aside' && answer.id !== one.id))
        throw new OutOfReach('The workshop computer answered for something else.');
      const aside = answer.result === 'aside' ? (answer.reason ?? 'no reason given') : null;
      if (aside !== null) done.aside.push(aside);
      const { position, effective_at: effective } = answer;
      return { ...one, position, effective, aside, at: now };
    });
    await phone.settle(answers);
    done.sent += answers.length;
    onProgress(done);
    batch = await phone.nextToSend(BATCH);
  }
}

async function fetchChanges(
  phone: Phone,
  wire: Wire,
  clock: () => number,
  done: Exchanged,
  onProgress: (done: Exchanged) => void,
): Promise<number> {
  let newest = 0;
  for (let more = true; more; ) {
    const [before, from] = [clock(), phone.from];
    const page = await wire.pull(from);
    const offset = page.now - Math.round((before + clock()) / 2);
    more = await phone.takePage(page, offset, from);
    done.fetched += page.cards.length;
    done.people = page.people;
    const { name, unit, sawing } = page;
    done.agreed = { name, unit, ...(sawing ? { sawing } : {}) };
    onProgress(done);
    newest = page.curves ?? 0;
  }
  return newest;
}
