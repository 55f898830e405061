"""The unit reader: what was typed at the bench, as a length in whole nanometres.

An inch is 25 400 000 nm exactly (the international inch, 25.4 mm), so 1/64 in is 396 875 nm and
every shop fraction and every three-figure decimal is a whole number. A fraction is always inches.
A bare decimal follows the workshop's unit. Everything is reckoned with exact fractions and rounded
once, by `round_half_away`.

web/src/twins/lengths.ts is the same reader for the phone; tests/vectors/lengths.json holds both to
the same answers, sentences included.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, Protocol

Unit = Literal["in", "mm"]

NM_PER_IN = 25_400_000
NM_PER_MM = 1_000_000
NM_PER_64TH = 396_875
LONGEST_NM = 10_000 * NM_PER_MM
THICKEST_NM = NM_PER_IN
LONGEST_TEXT = 40

SPACES = " \t\n\r\u00a0\u2002\u2003\u2007\u2009\u200a\u202f"
_SAME_AS = {
    **dict.fromkeys(SPACES, " "),
    **dict.fromkeys("\u2044\u2215\u29f8", "/"),
    **dict.fromkeys("\u2010\u2011\u2012\u2013\u2212", "-"),
    **dict.fromkeys("\u2033\u201c\u201d\u02ba", '"'),
    **dict.fromkeys("\u2032\u2018\u2019\u02b9", "'"),
}
_GLYPHS = {
    "\u00bd": "1/2",
    "\u2153": "1/3",
    "\u2154": "2/3",
    "\u00bc": "1/4",
    "\u00be": "3/4",
    "\u2155": "1/5",
    "\u2156": "2/5",
    "\u2157": "3/5",
    "\u2158": "4/5",
    "\u2159": "1/6",
    "\u215a": "5/6",
    "\u215b": "1/8",
    "\u215c": "3/8",
    "\u215d": "5/8",
    "\u215e": "7/8",
    "\u2152": "1/10",
}
_TIDY = str.maketrans({**_SAME_AS, **{glyph: f" {text}" for glyph, text in _GLYPHS.items()}})

_NM_PER: dict[str, int] = {"in": NM_PER_IN, "mm": NM_PER_MM, "cm": 10 * NM_PER_MM, "mil": 25_400}
_UNIT_WORDS = {
    **dict.fromkeys(("in", "in.", "inch", "inches", '"', "''"), "in"),
    **dict.fromkeys(("mm", "mm.", "millimetre", "millimetres", "millimeter", "millimeters"), "mm"),
    **dict.fromkeys(("cm", "cm."), "cm"),
    **dict.fromkeys(("mil", "mils", "thou"), "mil"),
}
_WHOLE = re.compile(r"(?P<number>[0-9., /-]*?) ?(?P<unit>[a-z\"'][a-z.\"']*)?")
_FRACTION = re.compile(r"(?:([0-9]{1,4})(?: ?- ?| ))?([0-9]{1,4}) ?/ ?([0-9]{1,4})")
_DECIMAL = re.compile(r"([0-9]{1,7})?(?:[.,]([0-9]{0,9}))?")
_TWO_WAYS = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")
_TWO_UNITS = re.compile(r"[0-9] ?[a-z\"'][a-z.\"']* ?[0-9]")
_EXPONENT = re.compile(r"[0-9] ?e ?[-+]?[0-9]")

ACCEPTED = "Write inches as 1/32, 1 1/8 or .032 in, or millimetres as 0.8 mm."
NEGATIVE = "A length cannot be below zero. " + ACCEPTED
ZERO = "A length must be more than zero. " + ACCEPTED
TOO_LONG = "That is longer than 10 m (32 ft). Check the figure and its unit."
TOO_THICK = "That is thicker than any sheet (1 in, 25.4 mm). Check the figure and its unit."
NO_DENOMINATOR = "A fraction cannot have 0 below its line. " + ACCEPTED
NOT_A_PART = "After a whole number the fraction must be less than 1, as in 1 1/8."
INCH_FRACTION = "A fraction is always inches. Write other units as a decimal, for example 0.5 mm."
TWO_WAYS = "A comma before three figures can be read two ways. Use a point, or leave the comma out."
TWO_UNITS = "Give one length in one unit. " + ACCEPTED
EXPONENT = "Write the figure out in full. " + ACCEPTED


class Listed(Protocol):
    """A listed sheet thickness, as far as the reader needs it; see rules.gauges.Gauge."""

    @property
    def nm(self) -> int: ...
    @property
    def tolerance_nm(self) -> int: ...


@dataclass(frozen=True, slots=True)
class Length:
    """A length: whole nanometres, and the text as it was typed."""

    nm: int
    text: str


@dataclass(frozen=True, slots=True)
class NotRead:
    """What was typed is no length; the sentence says what to write instead."""

    sentence: str


@dataclass(frozen=True, slots=True)
class WhichUnit:
    """A bare figure that lands on a listed thickness in the other unit only: ask, never guess."""

    sentence: str
    inch: Length
    mm: Length


@dataclass(frozen=True, slots=True)
class _Figure:
    value: Fraction
    unit: str | None
    bare: str


def round_half_away(value: Fraction) -> int:
    """The one rounding: to the nearest whole number, a half away from zero (2.5 gives 3)."""
    whole = (abs(value.numerator) * 2 + value.denominator) // (2 * value.denominator)
    return whole if value >= 0 else -whole


def read_length(text: str, unit: Unit) -> Length | NotRead:
    """Read a typed length.

    `unit` is the workshop's unit and decides only for a bare decimal or whole number.
    Units that may be written: in (inch, inches, the double prime), mm, cm, mil (thou). A decimal
    comma is read as a point. Answers `NotRead` with a sentence for anything that is not one length
    above zero and up to 10 m; it never raises for bad text.
    """
    figure = _figure(text)
    if isinstance(figure, NotRead):
        return figure
    return _length(figure, figure.unit or unit, text.strip(SPACES))


def read_thickness(text: str, unit: Unit, listed: Iterable[Listed]) -> Length | NotRead | WhichUnit:
    """Read a sheet thickness: as `read_length`, up to 1 in, but ask where the unit is in doubt.

    Where a bare figure lands on no listed thickness in the workshop's unit and does in the other,
    the answer is `WhichUnit` with both readings. `listed` is rules.gauges.gauges().
    """
    figure = _figure(text)
    if isinstance(figure, NotRead):
        return figure
    read = _length(figure, figure.unit or unit, text.strip(SPACES))
    if figure.unit is None:
        inch = _length(figure, "in", f"{figure.bare} in")
        mm = _length(figure, "mm", f"{figure.bare} mm")
        if isinstance(inch, Length) and isinstance(mm, Length):
            own, other = (inch, mm) if unit == "in" else (mm, inch)
            if not lands(own.nm, listed := tuple(listed)) and lands(other.nm, listed):
                return WhichUnit(
                    f"Which did you mean, {inch.text} or {mm.text}? "
                    f"Only {other.text} is a listed sheet thickness.",
                    inch,
                    mm,
                )
    if isinstance(read, Length) and read.nm > THICKEST_NM:
        return NotRead(TOO_THICK)
    return read


def lands(nm: int, listed: Iterable[Listed]) -> bool:
    """True where `nm` is within the tolerance of at least one listed thickness."""
    return any(abs(nm - gauge.nm) <= gauge.tolerance_nm for gauge in listed)


def show_length(nm: int, unit: Unit, named: bool = True) -> str:
    """A length as it is shown: inches in 64ths where exact, else in four decimals; mm in two.

    `named` adds the unit. `nm` is 0 or more; raises ValueError below.
    """
    if nm < 0:
        raise ValueError("a length to show is not below zero")
    if unit == "mm":
        figure = _decimal(nm, NM_PER_MM, most=2, least=0)
    elif nm % NM_PER_64TH == 0:
        figure = _shop_fraction(nm // NM_PER_64TH)
    else:
        figure = _decimal(nm, NM_PER_IN, most=4, least=3).removeprefix("0")
    return f"{figure} {unit}" if named else figure


def show_thickness(nm: int, unit: Unit, named: bool = True) -> str:
    """A sheet thickness as the trade writes it: .032 in (three or four decimals) or 0.8 mm."""
    if nm < 0:
        raise ValueError("a thickness to show is not below zero")
    if unit == "mm":
        figure = _decimal(nm, NM_PER_MM, most=3, least=1)
    else:
        figure = _decimal(nm, NM_PER_IN, most=4, least=3).removeprefix("0")
    return f"{figure} {unit}" if named else figure


def _figure(text: str) -> _Figure | NotRead:
    """The figure and its unit as typed, or the sentence that says why it cannot be read."""
    typed = text.strip(SPACES)
    if not typed:
        return NotRead("Nothing is written. " + ACCEPTED)
    if len(typed) > LONGEST_TEXT:
        return NotRead("That is too much text for a length. " + ACCEPTED)
    tidy = re.sub(" +", " ", typed.translate(_TIDY)).strip(" ")
    tidy = "".join(mark.lower() if mark.isascii() else mark for mark in tidy)
    if re.match(r"- ?[0-9.,]", tidy):
        return NotRead(NEGATIVE)
    if _EXPONENT.search(tidy):
        return NotRead(EXPONENT)
    if _TWO_UNITS.search(tidy):
        return NotRead(TWO_UNITS)
    parts = _WHOLE.fullmatch(tidy)
    word = parts["unit"] if parts else None
    if parts is None or not parts["number"] or (word and word not in _UNIT_WORDS):
        return NotRead(f"\u201c{typed}\u201d cannot be read as a length. {ACCEPTED}")
    unit = _UNIT_WORDS[word] if word else None
    return _fraction(parts["number"], unit) or _decimal_figure(parts["number"], unit, typed)


def _fraction(number: str, unit: str | None) -> _Figure | NotRead | None:
    """A shop fraction, always inches; None where `number` is not written as one."""
    match = _FRACTION.fullmatch(number)
    if match is None:
        return None
    whole, above, below = match[1], int(match[2]), int(match[3])
    if unit not in (None, "in"):
        return NotRead(INCH_FRACTION)
    if below == 0:
        return NotRead(NO_DENOMINATOR)
    if whole is not None and above >= below:
        return NotRead(NOT_A_PART)
    return _Figure(int(whole or 0) + Fraction(above, below), "in", number)


def _decimal_figure(number: str, unit: str | None, typed: str) -> _Figure | NotRead:
    match = _DECIMAL.fullmatch(number)
    if match is None or not (match[1] or match[2]):
        return NotRead(f"\u201c{typed}\u201d cannot be read as a length. {ACCEPTED}")
    if _TWO_WAYS.fullmatch(number):
        return NotRead(TWO_WAYS)
    after = match[2] or ""
    value = Fraction(int((match[1] or "0") + after), 10 ** len(after))
    return _Figure(value, unit, number)


def _length(figure: _Figure, unit: str, text: str) -> Length | NotRead:
    nm = round_half_away(figure.value * _NM_PER[unit])
    if nm <= 0:
        return NotRead(ZERO)
    if nm > LONGEST_NM:
        return NotRead(TOO_LONG)
    return Length(nm, text)


def _shop_fraction(sixty_fourths: int) -> str:
    whole, rest = divmod(sixty_fourths, 64)
    if rest == 0:
        return str(whole)
    part = Fraction(rest, 64)
    return (f"{whole} " if whole else "") + f"{part.numerator}/{part.denominator}"


def _decimal(nm: int, nm_per: int, most: int, least: int) -> str:
    """`nm` in units of `nm_per`, rounded to `most` decimals, zeros dropped down to `least`."""
    scaled = str(round_half_away(Fraction(nm * 10**most, nm_per))).rjust(most + 1, "0")
    whole, after = scaled[:-most], scaled[-most:].rstrip("0").ljust(least, "0")
    return f"{whole}.{after}" if after else whole
