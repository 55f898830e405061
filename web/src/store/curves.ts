// What fits in odd outlines, as the workshop's computer measured it: copies that can be fetched
// again, in a database of their own, so that the one with what exists nowhere else never changes.
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { type Curve, curveFrom } from '../twins/curve.ts';
import { wholly } from './database.ts';
import type { Row } from './rows.ts';

/** Why it cannot be said what fits. */
export interface Unmeasured {
  readonly why: string;
}
export type Measured = Curve | Unmeasured;
/** A page of curves as it came: what the first line says, and a line of JSON for each. */
export interface CurvePage {
  last: number;
  more: boolean;
  waiting: number; // outlines that the workshop's computer has yet to measure
  lines: string[];
}

interface Tables extends DBSchema {
  curves: { key: string; value: { event: string; measured: Measured } };
  meta: { key: string; value: number };
}
// As with the phone's own database, this number never rises.
const DATABASE_VERSION = 1;
const PREFIX = 'curves-';
const NO_ROOM = 'This phone is too full to keep what fits in odd outlines.';

/** True for the rest of a database's name that is not a workshop's own. */
export const isCurves = (name: string): boolean => name.startsWith(PREFIX);

export class KeptCurves {
  /** The number of the newest that was fetched. */
  last = 0;
  /** Missing entries for whose sake all were fetched again since the app was opened. */
  readonly searched = new Set<string>();
  private found = new Map<string, Measured>();
  private db: IDBPDatabase<Tables> | null = null;

  constructor(private readonly workshop: string) {}

  /** What is measured of the outline that came with an entry; undefined where nothing is yet. */
  of(event: unknown): Measured | undefined {
    return this.found.get(event as string);
  }

  // Reads everything into memory: at the start, and when another tab fetched something. Without
  // these copies the phone still opens.
  async load(): Promise<void> {
    await this.read().catch((problem) => console.error(problem));
  }

  private async read(): Promise<void> {
    const { store } = (await this.opened()).transaction('meta');
    const last = (await store.get('last')) ?? 0;
    if (last === this.last && this.found.size) return;
    this.last = last;
    const all = await (await this.opened()).getAll('curves');
    this.found = new Map(all.map(({ event, measured }) => [event, measured]));
  }

  /** The entries among these rows whose outlines are not measured as far as this phone knows. */
  missing(rows: Iterable<Row>): string[] {
    return [...shown(rows)].filter((event) => !this.found.has(event));
  }

  // Takes a page over. What it says is kept before it counts.
  async take({ last, lines }: CurvePage): Promise<void> {
    const taken = lines.flatMap(readLine);
    const transaction = (await this.opened()).transaction(['curves', 'meta'], 'readwrite');
    await wholly(
      transaction,
      async () => {
        for (const one of taken) await transaction.objectStore('curves').put(one);
        await transaction.objectStore('meta').put(last, 'last');
      },
      NO_ROOM,
    );
    for (const { event, measured } of taken) {
      this.found.set(event, measured);
      this.searched.delete(event);
    }
    this.last = last;
  }

  // Lets go of what no offcut that is still there shows.
  async drop(rows: Iterable<Row>): Promise<void> {
    const used = shown(rows);
    const idle = [...this.found.keys()].filter((event) => !used.has(event));
    if (!idle.length) return;
    const transaction = (await this.opened()).transaction('curves', 'readwrite');
    await wholly(transaction, async () => {
      for (const event of idle) await transaction.store.delete(event);
    });
    for (const event of idle) this.found.delete(event);
  }

  private async opened(): Promise<IDBPDatabase<Tables>> {
    this.db ??= await openDB<Tables>(`bucktail-${PREFIX}${this.workshop}`, DATABASE_VERSION, {
      upgrade(db) {
        db.createObjectStore('curves', { keyPath: 'event' });
        db.createObjectStore('meta');
      },
    });
    return this.db;
  }
}

/** The entries whose outlines are shown by offcuts that are still there. */
function shown(rows: Iterable<Row>): Set<string> {
  const events = new Set<string>();
  for (const { sort, retired, fields } of rows) {
    if (sort === 'offcut' && !retired && fields.shape_from) events.add(String(fields.shape_from));
  }
  return events;
}

// A line of another version than this one knows says nothing.
function readLine(line: string): { event: string; measured: Measured }[] {
  try {
    const { event, curve } = JSON.parse(line) as { event: string; curve: { why?: unknown } };
    if (typeof curve.why === 'string') return [{ event, measured: { why: curve.why } }];
    const measured = curveFrom(curve);
    return measured && typeof event === 'string' ? [{ event, measured }] : [];
  } catch {
    return [];
  }
}
