import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/vectors/tagcode.json';
import { ALPHABET, check, foldTyped, grouped, isCode, readPayload, suggest } from './tagcode';

const codes = vectors.codes.map((each) => each.code);

/** The code with other symbols at the given places. */
function replaced(code: string, changes: ReadonlyArray<readonly [number, string]>): string {
  const symbols = [...code];
  for (const [place, symbol] of changes) symbols[place] = symbol;
  return symbols.join('');
}

describe('the vectors written from Python', () => {
  test('there are enough of them to mean something', () => {
    expect(vectors.codes.length).toBeGreaterThanOrEqual(10);
    expect(new Set(vectors.check.map((each) => each.reason))).toEqual(
      new Set(['', 'empty', 'symbol', 'length', 'check']),
    );
    expect(vectors.payload.some((each) => each.reason === 'foreign')).toBe(true);
    expect(ALPHABET).toBe(vectors.alphabet);
  });
  test.each(vectors.codes)('$code is printed $grouped', (each) => {
    expect(grouped(each.code)).toBe(each.grouped);
    expect(isCode(each.code)).toBe(true);
  });
  test.each(vectors.fold)('folding $typed', (each) => {
    expect(foldTyped(each.typed)).toBe(each.folded);
  });
  test.each(vectors.check)('checking $typed', ({ typed, ...expected }) => {
    expect(check(typed)).toEqual(expected);
  });
  test.each(vectors.payload)('reading $text', ({ text, ...expected }) => {
    expect(readPayload(text)).toEqual(expected);
  });
  test.each(vectors.suggest.cases)('suggesting for $typed', (each) => {
    expect(suggest(each.typed, vectors.suggest.known, each.limit)).toEqual(each.found);
  });
});

describe('wrong symbols are refused', () => {
  test('every single wrong symbol, at every place', () => {
    let tried = 0;
    for (const code of codes) {
      for (let place = 0; place < code.length; place += 1) {
        for (const symbol of ALPHABET) {
          if (symbol === code[place]) continue;
          tried += 1;
          expect(isCode(replaced(code, [[place, symbol]]))).toBe(false);
        }
      }
    }
    expect(tried).toBe(codes.length * 310);
  });

  test('every pair of wrong symbols of one code, and every swap of all', () => {
    const code = codes[0] ?? '';
    let passed = 0;
    let tried = 0;
    for (let left = 0; left < 10; left += 1) {
      for (let right = left + 1; right < 10; right += 1) {
        for (const one of ALPHABET) {
          for (const two of ALPHABET) {
            if (one === code[left] || two === code[right]) continue;
            tried += 1;
            if (
              isCode(
                replaced(code, [
                  [left, one],
                  [right, two],
                ]),
              )
            )
              passed += 1;
          }
        }
        for (const each of codes) {
          const [a = '', b = ''] = [each[left], each[right]];
          if (
            a !== b &&
            isCode(
              replaced(each, [
                [left, b],
                [right, a],
              ]),
            )
          )
            passed += 1;
        }
      }
    }
    expect(tried).toBe(45 * 31 * 31);
    expect(passed).toBe(0);
  });

  test('half an emoji is refused with a sentence, not thrown', () => {
    expect(check('\ud83e').sentence).toContain('U+D83E');
  });
});
