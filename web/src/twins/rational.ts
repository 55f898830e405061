// Exact fractions, so that the phone and the workshop computer agree to the last figure.
export interface Rational {
  readonly n: bigint;
  readonly d: bigint; // above zero; the two have no common factor
}

function common(a: bigint, b: bigint): bigint {
  let [x, y] = [a < 0n ? -a : a, b];
  while (y) [x, y] = [y, x % y];
  return x;
}

export function rational(n: bigint, d = 1n): Rational {
  const by = common(n, d < 0n ? -d : d) || 1n;
  return d < 0n ? { n: -n / by, d: -d / by } : { n: n / by, d: d / by };
}

export const whole = (value: number): Rational => ({ n: BigInt(value), d: 1n });
export const isRational = (value: unknown): value is Rational =>
  typeof value === 'object' && value !== null && 'n' in value && 'd' in value;

export const add = (a: Rational, b: Rational): Rational =>
  rational(a.n * b.d + b.n * a.d, a.d * b.d);
export const sub = (a: Rational, b: Rational): Rational =>
  rational(a.n * b.d - b.n * a.d, a.d * b.d);
export const mul = (a: Rational, b: Rational): Rational => rational(a.n * b.n, a.d * b.d);
// null where b is zero
export const div = (a: Rational, b: Rational): Rational | null =>
  b.n === 0n ? null : rational(a.n * b.d, a.d * b.n);
export const compare = (a: Rational, b: Rational): number => {
  const [left, right] = [a.n * b.d, b.n * a.d];
  return left < right ? -1 : left > right ? 1 : 0;
};

export function floor(a: Rational): bigint {
  const cut = a.n / a.d;
  return a.n < 0n && cut * a.d !== a.n ? cut - 1n : cut;
}

export const ceil = (a: Rational): bigint => -floor({ n: -a.n, d: a.d });

// to the nearest whole number, a half away from zero
export function roundHalfAway(a: Rational): bigint {
  const size = ((a.n < 0n ? -a.n : a.n) * 2n + a.d) / (2n * a.d);
  return a.n < 0n ? -size : size;
}

// rounded to some decimals, as a number of JavaScript
export function toNumber(a: Rational, places: number): number {
  const per = 10n ** BigInt(places);
  return Number(roundHalfAway(mul(a, rational(per)))) / Number(per);
}

// at most some decimals, without zeros at the end: "1.3", "12", "0.5"
export function decimal(a: Rational, places: number): string {
  const scaled = roundHalfAway(mul(a, rational(10n ** BigInt(places))));
  const digits = (scaled < 0n ? -scaled : scaled).toString().padStart(places + 1, '0');
  const after = digits.slice(-places).replace(/0+$/, '');
  return `${scaled < 0n ? '-' : ''}${digits.slice(0, -places)}${after && `.${after}`}`;
}

const PLACES = 1_000_000_000n;
const UNIT = 10n ** 40n;
const PI = 31415926535897932384626433832795028841972n;

// tangent from 0 to less than 90 degrees to nine decimals, else null; twin of rules/tangent.py
export function tangent(degrees: Rational): Rational | null {
  if (degrees.n < 0n || degrees.n >= 90n * degrees.d) return null;
  const angle = (degrees.n * PI) / (180n * degrees.d);
  const [above, below] = [series(angle, angle, 1n), series(UNIT, angle, 0n)];
  return below > 0n ? rational((2n * above * PLACES + below) / (2n * below), PLACES) : null;
}

// the sine (from the angle itself, power 1) or the cosine (from one, power 0)
function series(first: bigint, angle: bigint, from: bigint): bigint {
  let [sum, term, power, sign] = [first, first, from, 1n];
  while (term) {
    term = (((term * angle) / UNIT) * angle) / (UNIT * (power + 1n) * (power + 2n));
    [power, sign] = [power + 2n, -sign];
    sum += sign * term;
  }
  return sum;
}
