// The unit reader, twin of server/bucktail/rules/lengths.py: the same nanometres, the same
// sentences, held together by tests/vectors/lengths.json. Whole numbers in BigInt until rounded.

export type Unit = 'in' | 'mm';
export type Length = { nm: number; text: string };
export type NotRead = { sentence: string };
/** A bare figure that is a listed thickness in the other unit only: ask, never guess. */
export type WhichUnit = { sentence: string; inch: Length; mm: Length };
/** A listed sheet thickness, as in generated/gauges.json. */
export type Listed = { readonly nm: number; readonly tolerance_nm: number };

type Figure = { above: bigint; below: bigint; unit: string | null; bare: string };

const NM_PER_IN = 25_400_000;
const NM_PER_MM = 1_000_000;
const NM_PER_64TH = 396_875;
const LONGEST_NM = 10_000 * NM_PER_MM;
const LONGEST_TEXT = 40;

const SPACES = ' \t\n\r\u00a0\u2002\u2003\u2007\u2009\u200a\u202f';
const SAME_AS: ReadonlyArray<readonly [string, string]> = [
  [SPACES, ' '],
  ['\u2044\u2215\u29f8', '/'],
  ['\u2010\u2011\u2012\u2013\u2212', '-'],
  ['\u2033\u201c\u201d\u02ba', '"'],
  ['\u2032\u2018\u2019\u02b9', "'"],
];
const GLYPHS = '½1/2 ⅓1/3 ⅔2/3 ¼1/4 ¾3/4 ⅕1/5 ⅖2/5 ⅗3/5 ⅘4/5 ⅙1/6 ⅚5/6 ⅛1/8 ⅜3/8 ⅝5/8 ⅞7/8 ⅒1/10';
const TIDY = new Map<string, string>([
  ...SAME_AS.flatMap(([marks, as]) => [...marks].map((mark) => [mark, as] as const)),
  ...GLYPHS.split(' ').map((each) => [each.slice(0, 1), ` ${each.slice(1)}`] as const),
]);

const NM_PER: Record<string, number> = {
  in: NM_PER_IN,
  mm: NM_PER_MM,
  cm: 10_000_000,
  mil: 25_400,
};
const UNIT_WORDS = new Map<string, string>(
  [
    ['in', 'in', 'in.', 'inch', 'inches', '"', "''"],
    ['mm', 'mm', 'mm.', 'millimetre', 'millimetres', 'millimeter', 'millimeters'],
    ['cm', 'cm', 'cm.'],
    ['mil', 'mil', 'mils', 'thou'],
  ].flatMap(([unit = '', ...words]) => words.map((word) => [word, unit] as const)),
);
const WHOLE = /^([0-9., /-]*?) ?([a-z"'][a-z."']*)?$/;
const FRACTION = /^(?:([0-9]{1,4})(?: ?- ?| ))?([0-9]{1,4}) ?\/ ?([0-9]{1,4})$/;
const DECIMAL = /^([0-9]{1,7})?(?:[.,]([0-9]{0,9}))?$/;
const COMMA_TWO_WAYS = /^[1-9][0-9]{0,2},[0-9]{3}$/;
const MORE_UNITS = /[0-9] ?[a-z"'][a-z."']* ?[0-9]/;
const WITH_EXPONENT = /[0-9] ?e ?[-+]?[0-9]/;

const ACCEPTED = 'Write inches as 1/32, 1 1/8 or .032 in, or millimetres as 0.8 mm.';
const NEGATIVE = `A length cannot be below zero. ${ACCEPTED}`;
const ZERO = `A length must be more than zero. ${ACCEPTED}`;
const TOO_LONG = 'That is longer than 10 m (32 ft). Check the figure and its unit.';
const TOO_THICK = 'That is thicker than any sheet (1 in, 25.4 mm). Check the figure and its unit.';
const NO_DENOMINATOR = `A fraction cannot have 0 below its line. ${ACCEPTED}`;
const NOT_A_PART = 'After a whole number the fraction must be less than 1, as in 1 1/8.';
const INCH_FRACTION =
  'A fraction is always inches. Write other units as a decimal, for example 0.5 mm.';
const TWO_WAYS =
  'A comma before three figures can be read two ways. Use a point, or leave the comma out.';
const TWO_UNITS = `Give one length in one unit. ${ACCEPTED}`;
const EXPONENT = `Write the figure out in full. ${ACCEPTED}`;

/** above/below to the nearest whole number, a half away from zero; neither is below zero. */
function roundHalfAway(above: bigint, below: bigint): bigint {
  return (2n * above + below) / (2n * below);
}

/** Reads a typed length. `unit` is the workshop's and decides only for a bare decimal. */
export function readLength(text: string, unit: Unit): Length | NotRead {
  const figure = readFigure(text);
  return 'sentence' in figure ? figure : toLength(figure, figure.unit ?? unit, trimmed(text));
}

/** Reads a sheet thickness: up to 1 in, and a question where only the other unit is listed. */
export function readThickness(
  text: string,
  unit: Unit,
  listed: readonly Listed[],
): Length | NotRead | WhichUnit {
  const figure = readFigure(text);
  if ('sentence' in figure) return figure;
  const read = toLength(figure, figure.unit ?? unit, trimmed(text));
  if (figure.unit === null) {
    const inch = toLength(figure, 'in', `${figure.bare} in`);
    const mm = toLength(figure, 'mm', `${figure.bare} mm`);
    if ('nm' in inch && 'nm' in mm) {
      const [own, other] = unit === 'in' ? [inch, mm] : [mm, inch];
      if (!lands(own.nm, listed) && lands(other.nm, listed)) {
        const sentence = `Which did you mean, ${inch.text} or ${mm.text}? Only ${other.text} is a listed sheet thickness.`;
        return { sentence, inch, mm };
      }
    }
  }
  return 'nm' in read && read.nm > NM_PER_IN ? { sentence: TOO_THICK } : read;
}

/** True where `nm` is within the tolerance of at least one listed thickness. */
export function lands(nm: number, listed: readonly Listed[]): boolean {
  return gaugeOf(nm, listed) !== null;
}

/** The listed thickness `nm` belongs to, thinnest first: the nearest in whose tolerance it lies. */
export function gaugeOf<G extends Listed>(nm: number, listed: readonly G[]): G | null {
  const away = (gauge: G) => Math.abs(nm - gauge.nm);
  const near = listed.filter((gauge) => away(gauge) <= gauge.tolerance_nm);
  return near.reduce<G | null>((best, one) => (best && away(best) <= away(one) ? best : one), null);
}

/** A length as it is shown: inches in 64ths where exact, else in decimals; mm in two decimals. */
export function showLength(nm: number, unit: Unit, named = true): string {
  let figure: string;
  if (unit === 'mm') figure = decimal(nm, NM_PER_MM, 2, 0);
  else if (nm % NM_PER_64TH === 0) figure = shopFraction(nm / NM_PER_64TH);
  else figure = decimal(nm, NM_PER_IN, 4, 3).replace(/^0/, '');
  return named ? `${figure} ${unit}` : figure;
}

/** A sheet thickness as the trade writes it: .032 in, or 0.8 mm. */
export function showThickness(nm: number, unit: Unit, named = true): string {
  const figure =
    unit === 'mm' ? decimal(nm, NM_PER_MM, 3, 1) : decimal(nm, NM_PER_IN, 4, 3).replace(/^0/, '');
  return named ? `${figure} ${unit}` : figure;
}

function readFigure(text: string): Figure | NotRead {
  const typed = trimmed(text);
  if (typed === '') return { sentence: `Nothing is written. ${ACCEPTED}` };
  const marks = [...typed];
  if (marks.length > LONGEST_TEXT) {
    return { sentence: `That is too much text for a length. ${ACCEPTED}` };
  }
  const tidy = marks
    .map((mark) => TIDY.get(mark) ?? mark)
    .join('')
    .replace(/ +/g, ' ')
    .replace(/^ | $/g, '')
    .replace(/[A-Z]/g, (capital) => capital.toLowerCase());
  if (/^- ?[0-9.,]/.test(tidy)) return { sentence: NEGATIVE };
  if (WITH_EXPONENT.test(tidy)) return { sentence: EXPONENT };
  if (MORE_UNITS.test(tidy)) return { sentence: TWO_UNITS };
  const [, number = '', word] = WHOLE.exec(tidy) ?? [];
  const unit = word === undefined ? null : UNIT_WORDS.get(word);
  if (number === '' || unit === undefined) return notALength(typed);
  return readFraction(number, unit) ?? readDecimal(number, unit) ?? notALength(typed);
}

function notALength(typed: string): NotRead {
  return { sentence: `\u201c${typed}\u201d cannot be read as a length. ${ACCEPTED}` };
}

function readFraction(number: string, unit: string | null): Figure | NotRead | null {
  const match = FRACTION.exec(number);
  if (match === null) return null;
  const [, whole, top = '', bottom = ''] = match;
  const [above, below] = [BigInt(top), BigInt(bottom)];
  if (unit !== null && unit !== 'in') return { sentence: INCH_FRACTION };
  if (below === 0n) return { sentence: NO_DENOMINATOR };
  if (whole !== undefined && above >= below) return { sentence: NOT_A_PART };
  return { above: BigInt(whole ?? 0) * below + above, below, unit: 'in', bare: number };
}

function readDecimal(number: string, unit: string | null): Figure | NotRead | null {
  const [all, before = '', after = ''] = DECIMAL.exec(number) ?? [];
  if (all === undefined || before + after === '') return null;
  if (COMMA_TWO_WAYS.test(number)) return { sentence: TWO_WAYS };
  return { above: BigInt(before + after), below: 10n ** BigInt(after.length), unit, bare: number };
}

function toLength(figure: Figure, unit: string, text: string): Length | NotRead {
  const nm = Number(roundHalfAway(figure.above * BigInt(NM_PER[unit] ?? 0), figure.below));
  if (nm <= 0) return { sentence: ZERO };
  return nm > LONGEST_NM ? { sentence: TOO_LONG } : { nm, text };
}

function trimmed(text: string): string {
  return text.replace(new RegExp(`^[${SPACES}]+|[${SPACES}]+$`, 'g'), '');
}

function shopFraction(sixtyFourths: number): string {
  const whole = Math.floor(sixtyFourths / 64);
  let [above, below] = [sixtyFourths % 64, 64];
  if (above === 0) return `${whole}`;
  for (; above % 2 === 0; above /= 2) below /= 2;
  return `${whole > 0 ? `${whole} ` : ''}${above}/${below}`;
}

function decimal(nm: number, nmPer: number, most: number, least: number): string {
  const scaled = roundHalfAway(BigInt(nm) * 10n ** BigInt(most), BigInt(nmPer));
  const figures = scaled.toString().padStart(most + 1, '0');
  const after = figures.slice(-most).replace(/0+$/, '').padEnd(least, '0');
  return figures.slice(0, -most) + (after && `.${after}`);
}
