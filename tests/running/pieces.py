"""Pieces wanted, as their cards hold them: each from a sum, in the sizes that tests need."""

from __future__ import annotations

from typing import Any

from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.rulebook import version
from bucktail.sync.judging import kept_answer

METAL = {"alloy": "2024-T3", "clad": "yes"}
#: name -> the sum and what was typed for it
PIECES: dict[str, tuple[str, dict[str, str]]] = {
    "shim": (
        "shim",
        {"gap": ".032", "length": "6", "width": "5/8", "stack": ".032,.025", "diameter": "3/32"},
    ),
    "tiny shim": (
        "shim",
        {"gap": ".032", "length": "1/2", "width": "3/8", "stack": ".032,.025", "diameter": "3/32"},
    ),
    "stiffener": (
        "stiffener",
        {
            "legs": "5/8,5/8",
            "length": "12",
            "thickness": ".032",
            "stack": ".032,.040",
            "diameter": "1/8",
        },
    ),
    "long stiffener": (
        "stiffener",
        {
            "legs": "5/8,3/4,1,3/4",
            "length": "30",
            "thickness": ".032",
            "stack": ".032,.040",
            "diameter": "1/8",
        },
    ),
    "lap patch": (
        "patch",
        {"along": "6", "across": "8", "thickness": ".032", "diameter": "1/8", "grain": "across"},
    ),
    "flush patch": (
        "patch",
        {
            "form": "flush",
            "along": "1 1/2",
            "across": "2",
            "thickness": ".032",
            "diameter": "1/8",
            "grain": "along",
        },
    ),
    "splice": (
        "section-splice",
        {"legs": "1,2,1", "thickness": ".032", "diameter": "1/8", "damage": "1"},
    ),
}


def length(nm: int) -> dict[str, Any]:
    """A length as it is recorded."""
    return {"nm": nm, "text": f"{nm / 1e6:g} mm"}


def answered(name: str) -> tuple[str, dict[str, str], dict[str, Any]]:
    """The sum of one of PIECES, its inputs and its answer."""
    which, typed = PIECES[name]
    inputs = {**METAL, **typed}
    answer = reckon(which, inputs, "in")
    assert not isinstance(answer, Unread), answer.sentence
    return which, inputs, answer


def wanted(piece: str, **more: Any) -> dict[str, Any]:
    """The state of one of PIECES, as the phone records it from the answer; `more` replaces."""
    which, inputs, answer = answered(piece)
    what = which if which in ("shim", "stiffener", "patch") else "splice"
    body: dict[str, Any] = {
        "what": what,
        "name": f"A {piece}",
        "why": None,
        "alloy": "2024",
        "temper": "T3",
        "clad": "clad",
        "grain": answer["grain"],
        "count": 1,
        "holes": answer.get("holes"),
        "for_parts": [],
        "lines": [],
    }
    for key, side in (("thickness_mm", "thickness"), ("blank_a_mm", "a"), ("blank_b_mm", "b")):
        body[side] = length(round(answer[key] * 1e6))
    sums = [{"sum": which, "inputs": inputs, "unit": "in"}]
    return {"sort": "wanted", "tags": [], **body, "sums": sums, **more}


def recorded(piece: str, **more: Any) -> list[tuple[str, dict[str, Any]]]:
    """The same as events: (kind, body) of the piece and of the sum that is kept with it."""
    state = wanted(piece, **more)
    [kept] = state["sums"]
    body = {key: value for key, value in state.items() if key not in ("sort", "tags", "sums")}
    answer = kept_answer(answered(piece)[2])
    told = {**kept, "rulebook": version(), "answer": answer, "note": None}
    return [("piece.wanted.v1", body), ("sum.kept.v1", told)]
