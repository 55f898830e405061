// The gauges that have a key of their own: sheet that is usual in this work. Any other is typed.
import type { Unit } from '../twins/lengths.ts';

const KEYS: Readonly<Record<Unit, readonly string[]>> = {
  in: '.016 .020 .025 .032 .036 .040 .050 .063 .080 .090 .100 .125'.split(' '),
  mm: '0.4 0.5 0.6 0.8 0.9 1.0 1.2 1.5 1.6 2.0 2.5 3.0'.split(' '),
};

/** Twelve, thinnest first, as bare figures in that unit. */
export const gaugeKeys = (unit: Unit): readonly string[] => KEYS[unit];
