"""The template of a piece wanted, from the state on its card.

Holes and bends come from the sum the piece came of, reckoned once more by the rules of today, and
only where that still gives the blank that is recorded; else the blank stands alone and says so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from bucktail.offcuts.template.drawing import BendLine, Blank, Grain, Template
from bucktail.offcuts.template.rows import Answer, bends_of, holes_of, nm, opening_of
from bucktail.offcuts.template.words import (
    Said,
    cautions,
    facts,
    hole_words,
    remarks,
    sheet_words,
    tidy,
)
from bucktail.rules.lengths import Unit
from bucktail.rules.reckon import Unread, read_all, reckon
from bucktail.rules.rulebook import sum_named, version

State = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class _Reckoned:
    """The sum that a piece came of, and the drill of its rivet."""

    name: str
    answer: Answer
    drill: Answer


def template_of(state: State, unit: Unit, made: str, code: str = "") -> Template:
    """The template of a wanted piece.

    `state` is that of its card; `unit` says which unit stands first; `made` is the date as it is
    to be printed; `code` is its tag's ten symbols, or empty.
    """
    reckoned = _reckoned(state)
    fails = reckoned is not None and reckoned.answer.get("verdict") == "fails"
    laid = None if fails else reckoned
    first = _blank(state, unit, laid)
    blanks = (first, *_filler(state, unit, laid))
    said = Said(
        state=state,
        unit=unit,
        blank=first,
        answer=reckoned.answer if reckoned else {},
        drill=laid.drill if laid else {},
    )
    return Template(
        name=tidy(state["name"]),
        blanks=blanks,
        facts=facts(said),
        remarks=remarks(said),
        cautions=cautions(said),
        code=code,
        made=made,
        rules=version(),
        unit=unit,
        hole_size=hole_words(first, said.drill, unit),
    )


def _reckoned(state: State) -> _Reckoned | None:
    """The latest sum of the piece that still gives its blank."""
    for kept in reversed(state.get("sums") or []):
        one = sum_named(kept["sum"])
        if one is None or not one.piece:
            continue
        answer = reckon(one.name, kept["inputs"], kept["unit"])
        if isinstance(answer, Unread) or not _same_blank(answer, state):
            continue
        values = read_all(one, kept["inputs"], kept["unit"])
        read = {} if isinstance(values, Unread) else values
        return _Reckoned(one.name, answer, _drill(read.get("diameter")))
    return None


def _same_blank(answer: Answer, state: State) -> bool:
    return all(
        nm(answer, key) == state[side]["nm"]
        for key, side in (("thickness_mm", "thickness"), ("blank_a_mm", "a"), ("blank_b_mm", "b"))
    )


def _drill(diameter: object) -> Answer:
    """What the rules say of the hole of a rivet; empty where they do not cover it."""
    if not isinstance(diameter, Fraction):
        return {}
    typed = f"{diameter.numerator / diameter.denominator / 1e6:f} mm"
    answer = reckon("hole", {"diameter": typed}, "mm")
    return {} if isinstance(answer, Unread) else answer


def _blank(state: State, unit: Unit, laid: _Reckoned | None) -> Blank:
    """The blank itself, with all that its sum places on it."""
    grain: Grain = state["grain"] if state["grain"] in ("a", "b") else ""
    plain = Blank(
        name=tidy(state["name"]),
        sheet=sheet_words(state, state["thickness"]["nm"], unit),
        a=state["a"]["nm"],
        b=state["b"]["nm"],
        grain=grain,
        bends=_told_bends(state),
    )
    if laid is None:
        return plain
    answer = laid.answer
    corner = nm(answer, "corner_radius_mm") or 0
    return Blank(
        name=plain.name,
        sheet=plain.sheet,
        a=plain.a,
        b=plain.b,
        grain=grain,
        corner=corner if 2 * corner < min(plain.a, plain.b) else 0,
        holes=holes_of(laid.name, answer, nm(laid.drill, "hole_mm")),
        bends=bends_of(answer) or plain.bends,
        opening=opening_of(answer),
    )


def _told_bends(state: State) -> tuple[BendLine, ...]:
    """Bends as they are recorded: the middle line only. One beyond the blank is left out."""
    told = state.get("bends") or []
    return tuple(
        BendLine(bend["at"]["nm"], bend["angle"], bend["radius"]["nm"])
        for bend in told
        if 0 < bend["at"]["nm"] < state["b"]["nm"]
    )


def _filler(state: State, unit: Unit, laid: _Reckoned | None) -> tuple[Blank, ...]:
    """The filler of a flush patch, cut from the skin's sheet."""
    if laid is None:
        return ()
    a, b = nm(laid.answer, "filler_a_mm"), nm(laid.answer, "filler_b_mm")
    thickness = nm(laid.answer, "filler_thickness_mm")
    if not a or not b or not thickness:
        return ()
    grain: Grain = state["grain"] if state["grain"] in ("a", "b") else ""
    name = f"Filler of {tidy(state['name'])}"
    return (Blank(name, sheet_words(state, thickness, unit), a, b, grain),)
