"""Work out a sum from what was typed. Twin: web/src/twins/reckon.ts."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from bucktail.rules.cells import Book
from bucktail.rules.evaluate import Value, run
from bucktail.rules.lengths import NM_PER_MM, SPACES, NotRead, Unit, round_half_away
from bucktail.rules.reading import read, read_as
from bucktail.rules.rulebook import book, sum_named
from bucktail.rules.sums import REFUSED, Recorded, Sum, record

Flat: TypeAlias = float | int | str | list[float | int | str]

#: decimals of what a sum gives, by the end of its key; six elsewhere
PLACES = {"_mm": 6, "_deg": 4, "_g": 3, "_l": 6, "_m2": 6, "_d": 4, "_percent": 2}


@dataclass(frozen=True, slots=True)
class Unread:
    """What cannot be reckoned with: the input at fault ("" for the sum itself) and what to do."""

    key: str
    sentence: str


def reckon(
    name: str, typed: Mapping[str, str], unit: Unit, tables: Book | None = None
) -> dict[str, Flat] | Unread:
    """The answer to the sum `name`: flat, with verdict, why, source, caution and read_as.

    `typed` is text by key; `unit` is that of bare figures and of the sentences. Where the verdict
    is "not covered" the answer holds no figures. `tables` replaces the book (for tests).
    """
    one = sum_named(name)
    if one is None:
        return Unread("", f"There is no sum \u201c{name}\u201d.")
    values = read_all(one, typed, unit)
    if isinstance(values, Unread):
        return values
    recorded = record(one)
    outputs = run(recorded.program, values, tables or book(), unit)
    for take in one.takes:
        sentence = outputs.get(REFUSED + take.key)
        if sentence is not None:
            return Unread(take.key, str(sentence))
    return _flat(recorded, outputs, _read_as(one, values, unit))


def read_all(one: Sum, typed: Mapping[str, str], unit: Unit) -> dict[str, Value] | Unread:
    """Every input of the sum read, defaults filled in; or the first that cannot be."""
    known = {take.key for take in one.takes}
    for key in typed:
        if key not in known:
            return Unread(key, f"The sum {one.name} takes {', '.join(t.key for t in one.takes)}.")
    values: dict[str, Value] = {}
    for take in one.takes:
        text = typed.get(take.key, "").strip(SPACES) or take.default or ""
        if not text:
            if take.optional:
                continue
            return Unread(
                take.key, f"{take.label} is needed, for example {take.key}={take.example}."
            )
        value = read(take, text, unit)
        if isinstance(value, NotRead):
            return Unread(take.key, value.sentence)
        values[take.key] = value
    return values


def _read_as(one: Sum, values: Mapping[str, Value], unit: Unit) -> str:
    told = [take for take in one.takes if take.key in values]
    return "; ".join(f"{take.key} {read_as(take, values[take.key], unit)}" for take in told)


def _flat(recorded: Recorded, outputs: Mapping[str, Value], echo: str) -> dict[str, Flat]:
    answer: dict[str, Flat] = {}
    for key in ("verdict", "why", "source"):
        answer[key] = str(outputs[key] or "")
    answer["caution"] = recorded.caution
    answer["read_as"] = echo
    if answer["verdict"] == "not covered":
        return answer
    for gives in recorded.gives:
        value = outputs[gives.key]
        if isinstance(value, list):
            answer[gives.key] = [plain(gives.key, one) for one in value if one is not None]  # type: ignore[misc]
        elif value is not None:
            answer[gives.key] = plain(gives.key, value)
    return answer


def plain(key: str, value: Value) -> Flat:
    """One value as JSON has it: rounded as its key asks, whole numbers without a point."""
    if not isinstance(value, Fraction):
        return value if isinstance(value, bool) else str(value)
    ending = re.search(r"_[a-z0-9]+$", key)
    places = PLACES.get(ending[0], 6) if ending else 6
    exact = value / NM_PER_MM if key.endswith("_mm") else value
    scaled, one = round_half_away(exact * 10**places), int(10**places)
    return scaled // one if scaled % one == 0 else scaled / one
