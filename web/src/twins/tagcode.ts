/**
 * The tag-code check, the twin of server/bucktail/tags/code.py and payload.py: ten symbols, of
 * which the last two are Reed-Solomon check symbols over GF(32), the field of x^5 + x^2 + 1 with
 * roots a and a^2. Both run tests/vectors/tagcode.json. The phone makes no codes: tags come from
 * the workshop's computer, which alone can keep them unique.
 */

export const ALPHABET = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
export const CODE_SYMBOLS = 10;

/** Why a text is not a tag code; '' when it is one. `foreign` comes only from a QR symbol. */
export type Reason = '' | 'empty' | 'symbol' | 'length' | 'check' | 'foreign';

/** Either ten symbols in `code`, or a `reason` and a plain `sentence` that says what to do. */
export type Checked = { code: string; reason: Reason; sentence: string };

export type Why = 'same' | 'last' | 'first' | 'one-wrong' | 'swapped' | 'one-missing' | 'one-extra';

/** A code that exists and may be the one meant; a person must tap it to take it. */
export type Suggestion = { code: string; why: Why };

const LOOK_ALIKE: Readonly<Record<string, string>> = { O: '0', I: '1', L: '1' };
const DROPPED = /[ \t\r\n\u00a0\u202f\-\u2010\u2011\u2012\u2013\u2014\u2212]/g;
const ADDRESS = /^https?:\/\/[^/?#]/i;
const TAG_ENDING = /^https?:\/\/[^/?#]+(?:\/[^?#]*)?\/tag\/([^/?#]*)\/?$/i;
const AROUND = /^[ \t\r\n]+|[ \t\r\n]+$/g;

/** Multiply two elements of GF(32), each 0-31. */
function times(left: number, right: number): number {
  let product = 0;
  for (let bit = 0; bit < 5; bit += 1) {
    if ((right >> bit) & 1) product ^= left;
    left <<= 1;
    if (left & 0b100000) left ^= 0b100101;
  }
  return product;
}

/** True for exactly ten symbols of the alphabet whose check symbols agree; nothing is folded. */
export function isCode(text: string): boolean {
  if (text.length !== CODE_SYMBOLS) return false;
  let first = 0;
  let second = 0;
  for (const symbol of text) {
    const value = ALPHABET.indexOf(symbol);
    if (value < 0) return false;
    first = times(first, 2) ^ value;
    second = times(second, 4) ^ value;
  }
  return first === 0 && second === 0;
}

/** Upper case, O to 0, I and L to 1, spaces and hyphens gone; other look-alikes stay. */
export function foldTyped(text: string): string {
  return text
    .replace(/[a-z]/g, (letter) => letter.toUpperCase())
    .replace(DROPPED, '')
    .replace(/[OIL]/g, (letter) => LOOK_ALIKE[letter] ?? letter);
}

/** The code as it is printed and read out: two groups of five. */
export function grouped(code: string): string {
  return `${code.slice(0, 5)} ${code.slice(5)}`;
}

/** A character as it can be shown in a sentence: itself, or U+XXXX when it has no ink. */
function shown(character: string): string {
  const point = character.codePointAt(0) ?? 0;
  const noInk =
    point <= 0x20 ||
    (point >= 0x7f && point <= 0xa0) ||
    (point >= 0x2000 && point <= 0x200f) ||
    (point >= 0x2028 && point <= 0x202f) ||
    (point >= 0x2060 && point <= 0x206f) ||
    (point >= 0xd800 && point <= 0xdfff) ||
    point === 0xfeff;
  return noInk ? `U+${point.toString(16).toUpperCase().padStart(4, '0')}` : character;
}

function problem(reason: Reason, sentence: string): Checked {
  return { code: '', reason, sentence };
}

function lengthSentence(count: number): string {
  const off = Math.abs(CODE_SYMBOLS - count);
  const verb = off === 1 ? 'is' : 'are';
  const what = count < CODE_SYMBOLS ? 'missing' : 'too many';
  return `A tag has 10 symbols and this has ${count}: ${off} ${verb} ${what}.`;
}

/** Judge a typed code: the folded ten symbols, or the first problem in plain words. */
export function check(text: string): Checked {
  const folded = foldTyped(text);
  const symbols = [...folded];
  if (symbols.length === 0) {
    return problem('empty', 'Type the ten symbols on the tag, two groups of five.');
  }
  for (const [index, symbol] of symbols.entries()) {
    if (!ALPHABET.includes(symbol)) {
      const where = `“${shown(symbol)}” in place ${index + 1}`;
      return problem('symbol', `${where} is never used on a tag. Look at that place again.`);
    }
  }
  if (symbols.length !== CODE_SYMBOLS) return problem('length', lengthSentence(symbols.length));
  if (isCode(folded)) return { code: folded, reason: '', sentence: '' };
  return problem(
    'check',
    'These ten symbols do not belong together: at least one is wrong. ' +
      'Compare both groups of five with the tag.',
  );
}

/** Judge what a QR reader returned: a bare code exactly as printed, or an address .../tag/CODE. */
export function readPayload(text: string): Checked {
  const held = text.replace(AROUND, '');
  if (held === '') return problem('empty', 'This QR code holds nothing. Scan the code on a tag.');
  const ending = TAG_ENDING.exec(held);
  if (ending) {
    const found = check(ending[1] ?? '');
    if (found.code) return found;
    const start = "This address ends like a tag's, but not with a tag.";
    return problem(found.reason, `${start} ${found.sentence}`);
  }
  if (isCode(held)) return { code: held, reason: '', sentence: '' };
  if (held.length === CODE_SYMBOLS && [...held].every((symbol) => ALPHABET.includes(symbol))) {
    return problem(
      'check',
      'This QR code has ten symbols as a tag has, but they do not belong together: ' +
        'it is not one of your tags.',
    );
  }
  if (ADDRESS.test(held)) {
    return problem('foreign', 'This QR code holds a web address that is not a tag.');
  }
  return problem('foreign', 'This QR code is not a tag: it holds something else.');
}

/**
 * Existing codes that `typed` may stand for, likeliest first, at most `limit`. Up to four symbols
 * the ends come first (people type the last four), from five on the beginnings.
 */
export function suggest(typed: string, knownCodes: Iterable<string>, limit = 5): Suggestion[] {
  const folded = foldTyped(typed);
  if ([...folded].length < 2 || limit < 1) return [];
  const ends: Why[] = folded.length <= 4 ? ['last', 'first'] : ['first', 'last'];
  const order: Why[] = ['same', ...ends, 'one-wrong', 'swapped', 'one-missing', 'one-extra'];
  const found: Suggestion[] = [];
  for (const code of new Set(knownCodes)) {
    const why = likeness(folded, code);
    if (why) found.push({ code, why });
  }
  found.sort((a, b) => order.indexOf(a.why) - order.indexOf(b.why) || (a.code < b.code ? -1 : 1));
  return found.slice(0, limit);
}

/** Why `folded` may mean `code`, or '' when it does not. */
function likeness(folded: string, code: string): Why | '' {
  if (folded.length < code.length) {
    const head = code.startsWith(folded);
    if (code.endsWith(folded) && (folded.length <= 4 || !head)) return 'last';
    if (head) return 'first';
    return lessOne(code, folded) ? 'one-missing' : '';
  }
  if (folded.length > code.length) return lessOne(folded, code) ? 'one-extra' : '';
  const differ = [...code].flatMap((symbol, place) => (symbol === folded[place] ? [] : [place]));
  const [left = 0, right = 0] = differ;
  if (differ.length < 2) return differ.length === 1 ? 'one-wrong' : 'same';
  const swapped = folded[left] === code[right] && folded[right] === code[left];
  return differ.length === 2 && swapped ? 'swapped' : '';
}

/** True when leaving one symbol out of `longer` gives `shorter`. */
function lessOne(longer: string, shorter: string): boolean {
  if (longer.length !== shorter.length + 1) return false;
  return [...longer].some(
    (_, place) => longer.slice(0, place) + longer.slice(place + 1) === shorter,
  );
}
