"""Section stock: angle, channel and tube, by their sides and their wall.

A piece of section stock is cut in one dimension. How saw cuts and the dressing of ends use it up,
and the cut list, are reckoned on the phone without a network, and only there
(web/src/offcuts/sections); this computer keeps what was measured, says what it is on the printed
tag, and knows what a cut takes where the workshop has not said so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from bucktail.rules.lengths import Length, Unit, read_length, show_length
from bucktail.rules.sources import Source, TableRefused, load_table, source

Form = Literal["angle", "channel", "tube"]
Hand = Literal["left", "right", "none"]

SECTION_FORMS: tuple[Form, ...] = ("angle", "channel", "tube")
HANDS: tuple[Hand, ...] = ("left", "right", "none")

#: What a workshop may say of its sawing: the width of the cut, what is dressed off each sawn end,
#: the shortest piece that is worth keeping, and the narrowest of sheet.
ALLOWANCES = ("kerf", "dress_off", "shortest", "narrowest")
UNITS: tuple[Unit, ...] = ("in", "mm")


@dataclass(frozen=True, slots=True)
class Allowance:
    """One length (nm, with its text) that sawing takes, and what it stands on."""

    name: str
    unit: Unit
    nm: int
    text: str
    source: Source
    note: str


@cache
def allowances() -> tuple[Allowance, ...]:
    """What stands where the workshop has said nothing, for workshops in inches and in mm.

    Raises TableRefused for a row that is not a length, or where one of them is not given.
    """
    found = []
    for row in load_table("sawing").rows:
        unit: Unit = "mm" if row["unit"] == "mm" else "in"
        read = read_length(f"{row['value']} {row['unit']}", unit)
        if not isinstance(read, Length):
            raise TableRefused(f"sawing: {row['name']}: {read.sentence}")
        length = (read.nm, f"{row['value']} {unit}")
        found.append(Allowance(row["name"], unit, *length, source(row["source"]), row["note"]))
    if sorted((one.name, one.unit) for one in found) != sorted(
        (name, unit) for name in ALLOWANCES for unit in UNITS
    ):
        raise TableRefused(f"sawing: each of {', '.join(ALLOWANCES)} is given once for each unit")
    return tuple(found)


def section_words(state: Mapping[str, Any], unit: Unit) -> str:
    """The section of an offcut's state as the trade says it: "angle 1 x 3/4 in", "tube 1/2 in".

    Empty for sheet, and where nothing is told of the section. The wall is the thickness and stands
    elsewhere.
    """
    form, section = state.get("form"), state.get("section")
    if form not in SECTION_FORMS or not section:
        return ""
    sides = [show_length(side["nm"], unit, named=False) for side in section["sides"]]
    name = "square tube" if form == "tube" and section.get("square") else str(form)
    return f"{name} {' x '.join(sides)} {unit}"
