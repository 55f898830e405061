// Typed figures of a shape: lengths, distances that may be nothing, and angles. Pure.
import { readLength, type Unit } from '../../twins/lengths.ts';

export type Problems = Record<string, string>;

/** Nothing, in any unit: a corner that lies on the edge it is measured from. */
const NOTHING = /^0*(?:[.,]0*)?\s*(?:in\.?|inch|inches|"|''|mm|cm)?$/i;
const ANGLE = /^(\d{1,3})?(?:[.,](\d{0,6}))?\s*(?:°|deg(?:rees)?)?$/i;
const MICRO = 1_000_000;

/** Reads what is typed, and keeps a sentence by its name for each that cannot be read. */
export class Figures {
  readonly problems: Problems = {};

  constructor(private readonly unit: Unit) {}

  /** A length in nm; null, with a sentence, where there is none. */
  length(name: string, text: string, wanting: string): number | null {
    const read = readLength(text, this.unit);
    if ('nm' in read) return read.nm;
    this.problems[name] = text.trim() ? read.sentence : wanting;
    return null;
  }

  /** The same for what may be 0. */
  distance(name: string, text: string, wanting: string): number | null {
    const typed = text.trim();
    return typed && /\d/.test(typed) && NOTHING.test(typed) ? 0 : this.length(name, text, wanting);
  }

  /** An angle of more than 0 and less than `most` degrees, in millionths of a degree. */
  angle(name: string, text: string, most: number, wanting: string): number | null {
    const [, whole = '', part = ''] = ANGLE.exec(text.trim()) ?? [];
    if (!whole && !part) {
      this.problems[name] = text.trim()
        ? `“${text.trim()}” cannot be read as an angle. Write degrees, for example 120 or 22.5.`
        : wanting;
      return null;
    }
    const angle = Number(whole) * MICRO + Number(part.padEnd(6, '0'));
    if (angle > 0 && angle < most * MICRO) return angle;
    this.problems[name] = `An angle here is more than 0 and less than ${most} degrees.`;
    return null;
  }

  get sound(): boolean {
    return Object.keys(this.problems).length === 0;
  }
}
