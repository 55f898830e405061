"""What stands beside a template: facts in short lines, remarks, cautions."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from bucktail.offcuts.template.drawing import Blank
from bucktail.offcuts.template.rows import Answer, nm
from bucktail.rules.lengths import Unit, show_length, show_thickness
from bucktail.rules.sums import CAUTION, MARKING

CHECKED_BARS = (
    "Measure both bars with a ruler. If one is not right, printing was scaled: "
    "print again at actual size (100 %)."
)

MOST_BENDS = 8  # in words; all are drawn
JOINING = (
    "To join two pages, cut one of them along its dashed line, lay it on the other so that the "
    "lines and the black triangles meet, and tape it down. Then measure the whole length."
)


@dataclass(frozen=True, slots=True)
class Said:
    """What the words are made from: the card's state, the answer of the sum, the rivet's drill."""

    state: Mapping[str, Any]
    unit: Unit
    blank: Blank
    answer: Answer
    drill: Answer


def both(length: int, unit: Unit) -> str:
    """A length in both units, the workshop's first: 6 in (152.4 mm)."""
    return f"{show_length(length, unit)} ({show_length(length, _other(unit))})"


def sides(a: int, b: int, unit: Unit) -> str:
    """Two sides in one unit, the thin space of the trade between: 6 in × 5/8 in."""
    return f"{show_length(a, unit)} × {show_length(b, unit)}"


def _other(unit: Unit) -> Unit:
    return "mm" if unit == "in" else "in"


def tidy(text: str) -> str:
    """A name on one line, without signs that no drawing can hold; "piece" where nothing is left."""
    kept = "".join(" " if one.isspace() else one for one in text if _can_be_shown(one))
    return " ".join(kept.split()) or "piece"


def _can_be_shown(sign: str) -> bool:
    """Not a control sign (a space for tabs and line ends), half of a pair, or no sign at all."""
    return sign.isspace() or unicodedata.category(sign) not in ("Cc", "Cf", "Cs", "Cn")


def sheet_words(state: Mapping[str, Any], thickness: int, unit: Unit) -> str:
    """Thickness in both units and the metal: .032 in (0.813 mm) 2024-T3 clad."""
    said = [tidy(one) for one in (state.get("alloy"), state.get("temper")) if one]
    metal = "-".join(said) or "metal not said"
    if state["clad"] == "clad":
        metal += " clad"
    thick = f"{show_thickness(thickness, unit)} ({show_thickness(thickness, _other(unit))})"
    return f"{thick}, {metal}"


def facts(said: Said) -> tuple[str, ...]:
    """What the piece is, line by line."""
    state, unit, blank = said.state, said.unit, said.blank
    lines = [
        f"Blank: {sides(blank.a, blank.b, unit)} ({sides(blank.a, blank.b, _other(unit))})",
        _grain(said),
    ]
    if state["count"] > 1:
        lines.append(f"Make {state['count']} of it.")
    lines += _hole_facts(said)
    lines += [
        f"Bend up {bend.angle}° on the line {both(bend.at, unit)} from the datum edge, inside "
        f"radius {both(bend.radius, unit)}."
        for bend in blank.bends[:MOST_BENDS]
    ]
    if len(blank.bends) > MOST_BENDS:
        lines.append(f"Bends: {len(blank.bends)} in all, the others stand on the drawing.")
    filler = nm(said.answer, "filler_a_mm"), nm(said.answer, "filler_b_mm")
    if filler[0] and filler[1] and said.drill:
        lines.append(f"Filler, on a page of its own: {sides(filler[0], filler[1], unit)}.")
    return tuple(lines)


def _grain(said: Said) -> str:
    if not said.blank.grain:
        return "Grain: may run either way."
    side = said.blank.a if said.blank.grain == "a" else said.blank.b
    return f"Grain: along the {show_length(side, said.unit)} side, as the arrow shows."


def _hole_facts(said: Said) -> list[str]:
    blank, unit, drill = said.blank, said.unit, said.drill
    told = said.state.get("holes")
    if not blank.holes:
        return [f"Holes: {told}, not placed here."] if told else []
    count = len(blank.holes)
    size = hole_words(blank, drill, unit)
    lines = [f"Holes: {count}{', ' if size else ''}{size}."]
    pilot = nm(drill, "pilot_mm")
    if pilot and drill.get("pilot_drill"):
        lines.append(f"Pilot first: drill {drill['pilot_drill']}, {both(pilot, unit)}.")
    return lines


def hole_words(blank: Blank, drill: Answer, unit: Unit) -> str:
    """The finished hole: drill 40, .098 in (2.49 mm). Empty where nobody said."""
    diameters = {hole.diameter for hole in blank.holes} - {None}
    words = [f"drill {drill['drill']}"] if drill.get("drill") else []
    words += [both(one, unit) for one in sorted(filter(None, diameters))]
    return ", ".join(words)


def remarks(said: Said) -> tuple[str, ...]:
    """Sentences of the sum, and what this template leaves open."""
    lines = []
    told, verdict = said.state.get("holes"), said.answer.get("verdict")
    if verdict == "fails":
        lines.append("As the rules stand it FAILS, so no hole is marked: do not cut it yet.")
    elif told and not said.blank.holes:
        lines.append("Where its holes are is not recorded: take them from the plans.")
    elif told and told != len(said.blank.holes):
        lines.append(
            f"The record says {told} holes, the sum places {len(said.blank.holes)}: look again."
        )
    if verdict == "check":
        lines.append("Check first.")
    if said.answer.get("why"):
        lines.append(str(said.answer["why"]))
    if len(said.blank.bends) > 1:
        lines.append(
            "Up is towards this face, all bends the same way, as for a channel. Where the plans "
            "show one bent the other way, turn the sheet for it."
        )
    elif said.blank.bends:
        lines.append("Up is towards this face.")
    if said.answer.get("source"):
        lines.append(f"Source: {said.answer['source']}.")
    return tuple(lines)


def cautions(_said: Said) -> tuple[str, ...]:
    """What is said on every template."""
    return (f"{MARKING} (Common practice.)", CAUTION)
