"""The ten-symbol tag code: making one, checking one, and suggesting what a person meant.

A code is eight random symbols followed by two check symbols, each symbol standing for five
bits: 0-9 and A-Z without I, L, O and U. The check symbols come from a Reed-Solomon code over
GF(32), the field of the polynomial x^5 + x^2 + 1, whose words are the multiples of
g(x) = (x - a)(x - a^2), with a = 2 (the element x). Reading a code from left to right gives the
coefficients from x^9 down to x^0, so the eight random symbols come first, unchanged.

Two consecutive roots give a least distance of three between codes (I. S. Reed and G. Solomon,
"Polynomial Codes over Certain Finite Fields", J. SIAM 8(2), 1960; the bound is that of any
cyclic code with consecutive roots). So every single and every double wrong symbol is refused,
and with them every swap of two symbols. Three or more wrong symbols pass once in 1,024.

One wrong symbol could be worked out, but about one double error in four lies one symbol away
from some other valid code. A repair is therefore only ever *suggested*, only among codes that
exist, and never when a camera reads.

Nothing here draws random numbers or reads a clock: randomness is passed in.
"""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable
from dataclasses import dataclass

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
DATA_SYMBOLS = 8
CODE_SYMBOLS = 10
FIELD_POLYNOMIAL = 0b100101
MOST_TRIES = 64

_VALUE = {symbol: value for value, symbol in enumerate(ALPHABET)}
_LOOK_ALIKE = {"O": "0", "I": "1", "L": "1"}
# spaces and hyphens people put between groups, listed so that the phone drops exactly the same
_DROPPED = frozenset(" \t\r\n\u00a0\u202f-\u2010\u2011\u2012\u2013\u2014\u2212")
_ASCII_UPPER = {ord(low): low.upper() for low in "abcdefghijklmnopqrstuvwxyz"}


class NoUnusedCode(RuntimeError):
    """No unused code turned up within the allowed number of tries."""


@dataclass(frozen=True)
class Checked:
    """What a typed code turned out to be.

    `code` holds the ten symbols, or is empty when there is a problem; then `reason` is one of
    empty, symbol, length, check and `sentence` says in plain words what to do.
    """

    code: str
    reason: str = ""
    sentence: str = ""

    @property
    def ok(self) -> bool:
        """True when `code` is a well-formed tag code (it need not exist)."""
        return not self.reason


@dataclass(frozen=True)
class Suggestion:
    """A code that exists and may be the one meant; a person must tap it to take it.

    `why` is one of same, last, first, one-wrong, swapped, one-missing, one-extra.
    """

    code: str
    why: str


def times(left: int, right: int) -> int:
    """Multiply two elements of GF(32), each 0-31, in the field of x^5 + x^2 + 1."""
    product = 0
    while right:
        if right & 1:
            product ^= left
        left <<= 1
        if left & 0b100000:
            left ^= FIELD_POLYNOMIAL
        right >>= 1
    return product


_ROOTS = (2, times(2, 2))


def syndromes(values: Iterable[int]) -> tuple[int, int]:
    """Evaluate the word (values 0-31, left to right) at both roots; (0, 0) means a valid code."""
    first = second = 0
    for value in values:
        first = times(first, _ROOTS[0]) ^ value
        second = times(second, _ROOTS[1]) ^ value
    return first, second


def with_check_symbols(data: str) -> str:
    """Complete eight data symbols to a ten-symbol code.

    Raises ValueError when `data` is not eight symbols of ALPHABET.
    """
    if len(data) != DATA_SYMBOLS or any(symbol not in _VALUE for symbol in data):
        raise ValueError(f"{DATA_SYMBOLS} symbols of {ALPHABET} are needed, not {data!r}")
    generator = (_ROOTS[0] ^ _ROOTS[1], times(_ROOTS[0], _ROOTS[1]))  # below the leading 1
    high = low = 0
    for symbol in data:  # long division by g(x), one coefficient at a time
        factor = _VALUE[symbol] ^ high
        high = low ^ times(factor, generator[0])
        low = times(factor, generator[1])
    return data + ALPHABET[high] + ALPHABET[low]


def is_code(text: str) -> bool:
    """True for exactly ten symbols of ALPHABET whose check symbols agree; nothing is folded."""
    if len(text) != CODE_SYMBOLS or any(symbol not in _VALUE for symbol in text):
        return False
    return syndromes(_VALUE[symbol] for symbol in text) == (0, 0)


def fold_typed(text: str) -> str:
    """Undo the harmless differences in what people type.

    Upper case, O to 0, I and L to 1, spaces and hyphens gone. Other look-alikes (5 and S, 8 and
    B, 2 and Z) are all symbols in use: the check symbols tell those apart.
    """
    upper = text.translate(_ASCII_UPPER)
    return "".join(_LOOK_ALIKE.get(ch, ch) for ch in upper if ch not in _DROPPED)


def shown(character: str) -> str:
    """A character as it can be shown in a sentence: itself, or U+XXXX when it has no ink."""
    point = ord(character)
    no_ink = (
        point <= 0x20
        or 0x7F <= point <= 0xA0
        or 0x2000 <= point <= 0x200F
        or 0x2028 <= point <= 0x202F
        or 0x2060 <= point <= 0x206F
        or 0xD800 <= point <= 0xDFFF
        or point == 0xFEFF
    )
    return f"U+{point:04X}" if no_ink else character


def check(text: str) -> Checked:
    """Judge a typed code: the folded ten symbols, or the first problem in plain words."""
    folded = fold_typed(text)
    if not folded:
        return Checked("", "empty", "Type the ten symbols on the tag, two groups of five.")
    for place, symbol in enumerate(folded, start=1):
        if symbol not in _VALUE:
            return Checked(
                "",
                "symbol",
                f"“{shown(symbol)}” in place {place} is never used on a tag. "
                "Look at that place again.",
            )
    if len(folded) != CODE_SYMBOLS:
        return Checked("", "length", _length_sentence(len(folded)))
    if not is_code(folded):
        return Checked(
            "",
            "check",
            "These ten symbols do not belong together: at least one is wrong. "
            "Compare both groups of five with the tag.",
        )
    return Checked(folded)


def _length_sentence(count: int) -> str:
    off = abs(CODE_SYMBOLS - count)
    verb = "is" if off == 1 else "are"
    what = "missing" if count < CODE_SYMBOLS else "too many"
    return f"A tag has 10 symbols and this has {count}: {off} {verb} {what}."


def grouped(code: str) -> str:
    """The code as it is printed and read out: two groups of five, such as 'ABCDE FGH12'."""
    return f"{code[:5]} {code[5:]}"


def new_code(draw: Callable[[int], int], taken: Container[str]) -> str:
    """Make a code that is not in `taken`.

    `draw(n)` returns a whole number from 0 to n - 1 from a good source of randomness (for real
    tags `secrets.randbelow`). A code already taken is drawn again, at most MOST_TRIES times;
    then NoUnusedCode is raised, since with 2^40 codes only a broken source gets there.
    """
    for _ in range(MOST_TRIES):
        code = with_check_symbols("".join(ALPHABET[_drawn(draw)] for _ in range(DATA_SYMBOLS)))
        if code not in taken:
            return code
    raise NoUnusedCode(
        f"No unused tag code turned up in {MOST_TRIES} tries. The computer's source of random "
        "numbers repeats itself: restart the computer and make the tags again."
    )


def _drawn(draw: Callable[[int], int]) -> int:
    value = draw(len(ALPHABET))
    if not 0 <= value < len(ALPHABET):
        raise ValueError(f"draw({len(ALPHABET)}) returned {value}, outside 0-{len(ALPHABET) - 1}")
    return value


def suggest(typed: str, known_codes: Iterable[str], limit: int = 5) -> list[Suggestion]:
    """Existing codes that `typed` may stand for, likeliest first, at most `limit`.

    From two symbols on: codes that end with them (people type the last four) or begin with
    them; up to four symbols the ends come first, from five on the beginnings. Around ten
    symbols also: one symbol wrong, two swapped, one missing, one too many. Never more than a
    suggestion: nothing is repaired without a tap.
    """
    folded = fold_typed(typed)
    if len(folded) < 2 or limit < 1:
        return []
    tails_first = len(folded) <= 4
    order = ["same", "last", "first"] if tails_first else ["same", "first", "last"]
    order += ["one-wrong", "swapped", "one-missing", "one-extra"]
    found = [Suggestion(code, why) for code in set(known_codes) if (why := _likeness(folded, code))]
    found.sort(key=lambda each: (order.index(each.why), each.code))
    return found[:limit]


def _likeness(folded: str, code: str) -> str:
    """Why `folded` may mean `code`, or '' when it does not."""
    if len(folded) < len(code):
        tail, head = code.endswith(folded), code.startswith(folded)
        if tail and (len(folded) <= 4 or not head):
            return "last"
        if head:
            return "first"
        return "one-missing" if _less_one(code, folded) else ""
    if len(folded) > len(code):
        return "one-extra" if _less_one(folded, code) else ""
    differ = [place for place, symbol in enumerate(code) if symbol != folded[place]]
    if len(differ) < 2:
        return "one-wrong" if differ else "same"
    left, right = differ[0], differ[1]
    swapped = folded[left] == code[right] and folded[right] == code[left]
    return "swapped" if len(differ) == 2 and swapped else ""


def _less_one(longer: str, shorter: str) -> bool:
    """True when leaving one symbol out of `longer` gives `shorter`."""
    return len(longer) == len(shorter) + 1 and any(
        longer[:place] + longer[place + 1 :] == shorter for place in range(len(longer))
    )
