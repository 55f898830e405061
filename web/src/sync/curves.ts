// Fetches what fits in odd outlines, once the workshop's computer has measured it.
import type { KeptCurves } from '../store/curves.ts';
import type { Row } from '../store/rows.ts';
import { OutOfReach, type Wire } from './wire.ts';

/** What is known after an exchange: outlines still to be measured, whether any came in. */
export interface CurvesFetched {
  waiting: number;
  came: boolean;
}

/**
 * Fetches what is new. These are copies: whatever keeps one from being kept here is no reason not to
 * go on; only that the computer is out of reach is thrown. `newest` is the number of the newest curve there, as the last pull said;
 * `rows` are all things of the phone. `sent` is false while something here is not sent yet, which
 * may be the very outline that lacks its curve.
 */
export async function fetchCurves(
  curves: KeptCurves,
  wire: Pick<Wire, 'curves'>,
  newest: number,
  rows: () => Iterable<Row>,
  sent: boolean,
): Promise<CurvesFetched> {
  const done: CurvesFetched = { waiting: 0, came: false };
  try {
    await fetchInto(done, curves, wire, newest, rows, sent);
  } catch (problem) {
    if (problem instanceof OutOfReach) throw problem;
    console.error(problem);
  }
  return done;
}

async function fetchInto(
  done: CurvesFetched,
  curves: KeptCurves,
  wire: Pick<Wire, 'curves'>,
  newest: number,
  rows: () => Iterable<Row>,
  sent: boolean,
): Promise<void> {
  if (newest === curves.last && !curves.missing(rows()).length) return;
  // a record that was restored counts from an earlier number
  await readOn(curves, wire, Math.min(curves.last, newest), done);
  // one that was dropped here and is shown again, or made while another record was there
  if (sent && done.waiting === 0) {
    const lost = curves.missing(rows()).filter((event) => !curves.searched.has(event));
    for (const event of lost) curves.searched.add(event);
    if (lost.length) await readOn(curves, wire, 0, done);
  }
  if (done.came) await curves.drop(rows());
}

async function readOn(
  curves: KeptCurves,
  wire: Pick<Wire, 'curves'>,
  from: number,
  done: CurvesFetched,
): Promise<void> {
  for (let after = from, more = true; more; ) {
    const page = await wire.curves(after);
    done.came ||= page.lines.length > 0;
    done.waiting = page.waiting;
    if (page.lines.length || page.last !== curves.last) await curves.take(page);
    more = page.more && page.last > after;
    after = page.last;
  }
}
