"""What was typed for a sum, as values: part of the unit reader. Twin: web/src/twins/reading.ts.

A length is a Fraction of whole nanometres, an area one of square millimetres, an angle of degrees,
a percentage of one (52 % is 13/25). Bad text gives `NotRead` with a sentence that says what is
accepted; nothing raises.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from bucktail.rules.cells import cells
from bucktail.rules.evaluate import Value, decimal, written
from bucktail.rules.gauges import gauges
from bucktail.rules.lengths import (
    SPACES,
    Length,
    NotRead,
    Unit,
    WhichUnit,
    read_length,
    read_thickness,
    show_length,
)
from bucktail.rules.materials import sheet_metals
from bucktail.rules.sums import Takes

LONGEST_LIST = 12
#: how far a typed diameter may be from a listed one: half the last figure of 3.2 mm
RIVET_NEAR_NM = 50_000
LONGEST_TEXT = 200

_FIGURE = re.compile(r"([0-9]{1,7})?(?:[.,]([0-9]{0,9}))?")
_AFTER = re.compile(r"(?P<figure>[0-9.,]+) ?(?P<unit>(?:[^0-9.,].*)?)")
_ENDINGS: dict[str, dict[str, Fraction]] = {
    "angle": dict.fromkeys(("", "deg", "degrees", "\u00b0"), Fraction(1)),
    "count": {"": Fraction(1)},
    "number": {"": Fraction(1)},
    "percent": {"%": Fraction(1, 100), "percent": Fraction(1, 100)},
    "area": {
        "mm2": Fraction(1), "mm\u00b2": Fraction(1),
        "cm2": Fraction(100), "cm\u00b2": Fraction(100),
        "m2": Fraction(10**6), "m\u00b2": Fraction(10**6),
        "in2": Fraction(64516, 100), "in\u00b2": Fraction(64516, 100),
        "sq in": Fraction(64516, 100),
        "ft2": Fraction(9290304, 100), "ft\u00b2": Fraction(9290304, 100),
        "sq ft": Fraction(9290304, 100),
    },
}  # fmt: skip
#: what is accepted, by kind; the phone says the same
ACCEPTED: dict[str, str] = {
    "angle": "Write degrees, for example 90.",
    "count": "Write a whole number, for example 2.",
    "number": "Write a figure, for example 1.5.",
    "percent": "Write a percentage with its sign, for example 52%.",
    "area": "Write an area with its unit, for example 4.8 m2, 52 ft2 or 700 in2.",
    "mix": "Write the parts by volume, for example 4:1 or 4:1:1.",
    "list": "Write each with a comma between, for example {example}.",
    "most": "At most twelve, with a comma between.",
    "text": "Write a few words.",
    "long": "That is too much text.",
}


def sizes() -> tuple[int, ...]:
    """The rivet diameters that are listed, in nm, thinnest first."""
    table = cells("rivet_sizes")
    at = table.columns["diameter_in"]
    found = [row[at] for row in table.rows]
    return tuple(sorted(int(nm) for nm in found if isinstance(nm, Fraction)))


@cache
def metals() -> tuple[str, ...]:
    """Every metal that a table or the list of sheet metals names, alloy and temper joined."""
    named = [one.name for one in sheet_metals()]
    for table in ("splice_scope", "bend_radii", "bend_radii_inches", "strengths"):
        found = cells(table)
        named += [str(row[found.columns["metal"]]) for row in found.rows]
    return tuple(sorted(dict.fromkeys(named)))


def read(takes: Takes, typed: str, unit: Unit) -> Value | NotRead:
    """The value of what was typed for `takes`. The sentence of a `NotRead` names no field."""
    text = typed.strip(SPACES)
    if len(text) > LONGEST_TEXT:
        return NotRead(ACCEPTED["long"])
    match takes.kind:
        case "thicknesses" | "lengths" | "angles":
            return _list(takes, text, unit)
        case "word":
            return _word(takes, text)
        case "metal":
            return _metal(text)
        case "marking":
            metal = _metal(text)
            return text if isinstance(metal, NotRead) else metal
        case "text":
            return text or NotRead(ACCEPTED["text"])
        case "mix":
            return _mix(text)
        case _:
            return _one(takes.kind, takes, text, unit)


def _one(kind: str, takes: Takes, text: str, unit: Unit) -> Value | NotRead:
    match kind:
        case "thickness":
            return _thickness(text, unit)
        case "length":
            read_as = read_length(text, unit)
            return Fraction(read_as.nm) if isinstance(read_as, Length) else read_as
        case "rivet":
            return _rivet(text, unit)
        case _:
            return _figure(kind, takes, text)


def _thickness(text: str, unit: Unit) -> Value | NotRead:
    found = read_thickness(text, unit, gauges())
    if isinstance(found, WhichUnit):
        return NotRead(f"{found.sentence} Write {found.inch.text} or {found.mm.text}.")
    return Fraction(found.nm) if isinstance(found, Length) else found


def _rivet(text: str, unit: Unit) -> Value | NotRead:
    found = read_length(text, unit)
    if isinstance(found, NotRead):
        return found
    near = min(sizes(), key=lambda nm: abs(nm - found.nm))
    if abs(near - found.nm) > RIVET_NEAR_NM:
        return NotRead(rivets_accepted())
    return Fraction(near)


def rivets_accepted() -> str:
    """The listed rivet diameters in a sentence, in both units."""
    each = [f"{show_length(nm, 'in', named=False)} ({show_length(nm, 'mm')})" for nm in sizes()]
    return f"Rivet diameters are {', '.join(each[:-1])} and {each[-1]} in inches."


def _small(text: str) -> str:
    """Small letters, of the plain alphabet only: the phone does no more."""
    return re.sub("[A-Z]", lambda mark: mark[0].lower(), text)


def _figure(kind: str, takes: Takes, text: str) -> Value | NotRead:
    """A plain figure with an ending: degrees, a count, a percentage, an area."""
    parts = _AFTER.fullmatch(_small(text))
    shape = _FIGURE.fullmatch(parts["figure"]) if parts else None
    per = _ENDINGS[kind].get(parts["unit"].strip(SPACES)) if parts else None
    if shape is None or per is None or not (shape[1] or shape[2]):
        return NotRead(ACCEPTED[kind])
    after = shape[2] or ""
    value = Fraction(int((shape[1] or "0") + after), 10 ** len(after))
    whole = value.denominator == 1 or kind != "count"
    if not whole or not takes.least <= value <= takes.most or (value == 0 and takes.least == 0):
        lowest = f"from {takes.least}" if takes.least else "more than 0"
        return NotRead(f"{ACCEPTED[kind]} It may be {lowest} to {takes.most}.")
    return value * per


def _list(takes: Takes, text: str, unit: Unit) -> Value | NotRead:
    """A comma list. A decimal comma has no place in one."""
    single = {"thicknesses": "thickness", "lengths": "length", "angles": "angle"}[takes.kind]
    each = [one.strip(SPACES) for one in text.split(",")]
    if not all(each):
        return NotRead(ACCEPTED["list"].replace("{example}", takes.example))
    if len(each) > LONGEST_LIST:
        return NotRead(ACCEPTED["most"])
    found: list[Value] = []
    for one in each:
        value = _one(single, takes, one, unit)
        if isinstance(value, NotRead):
            return NotRead(f"\u201c{one}\u201d: {value.sentence}")
        found.append(value)
    return found


def _word(takes: Takes, text: str) -> Value | NotRead:
    word = _small(text).replace(" ", "-") if "-" in "".join(takes.choices) else _small(text)
    for choice in takes.choices:
        if word in (choice, choice.replace(" ", "-")):
            return choice
    return NotRead(f"Write one of: {', '.join(takes.choices)}.")


def _metal(text: str) -> Value | NotRead:
    large = re.sub("[a-z]", lambda mark: mark[0].upper(), text)
    tidy = "-".join(part for part in re.split(f"[-{SPACES}]+", large) if part)
    if tidy in metals():
        return tidy
    return NotRead(f"\u201c{text}\u201d is not on the list. Write one of: {', '.join(metals())}.")


def _mix(text: str) -> Value | NotRead:
    parts = re.fullmatch(r"([1-9][0-9]?)((?: ?: ?[1-9][0-9]?){1,3})", text)
    if not parts:
        return NotRead(ACCEPTED["mix"])
    return [Fraction(int(one)) for one in text.split(":")]


def read_as(takes: Takes, value: Value, unit: Unit) -> str:
    """How a value was understood, as it stands in the answer's `read_as`."""
    match takes.kind:
        case "thickness" | "thicknesses" | "length" | "lengths":
            return written(takes.kind, value, unit) or ""
        case "rivet":
            return written("length", value, unit) or ""
        case "angles" | "mix":
            each = [decimal(one, 3) for one in _fractions(value)]
            return " + ".join(each) + " deg" if takes.kind == "angles" else ":".join(each)
        case "angle":
            return f"{_figures(value)} deg"
        case "percent":
            return f"{decimal(_fractions(value)[0] * 100, 3)}%"
        case "area":
            return f"{decimal(_fractions(value)[0] / 10**6, 6)} m2"
        case "count" | "number":
            return _figures(value)
        case _:
            return str(value)


def _fractions(value: Value) -> list[Fraction]:
    each = value if isinstance(value, list) else [value]
    return [one for one in each if isinstance(one, Fraction)]


def _figures(value: Value) -> str:
    return decimal(_fractions(value)[0], 6)
