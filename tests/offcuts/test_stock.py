"""Offcuts as their cards tell them: what may be cut, of which metal, for whom."""

from __future__ import annotations

from typing import Any

import pytest

from bucktail.offcuts.stock import (
    MetalWanted,
    grain_of,
    metal_of_piece,
    out_of_stock,
    outline_of,
    reservation,
    why_not_metal,
)
from running.oddstock import ell, odd
from running.sheetstock import inches, sheet

ALCLAD = MetalWanted("2024", "T3", "clad", inches(0.032)["nm"])


def state(**change: Any) -> dict[str, Any]:
    """The state of a sheet as the fold gives it."""
    return {**sheet(10, 5), "answers": [], "retired": None, **change}


def differs(about: str) -> dict[str, Any]:
    return {"answers": [{"about": about, "values": []}]}


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({}, ""),
        ({"retired": {"why": "scrapped"}}, "retired"),
        ({"cut": [{"remnants": [], "at": 1}]}, "cut up"),
        ({"form": "angle"}, "no sheet"),
        (differs("shape"), "has to be measured again"),
        (differs("thickness"), "has to be measured again"),
        (differs("name"), ""),
    ],
)
def test_what_is_out_of_stock(change: dict[str, Any], why: str) -> None:
    assert out_of_stock("me", state(**change), None) == why


def test_a_remnant_is_as_sure_as_the_cut_it_came_of() -> None:
    cut = {"remnants": ["me"], "at": 50}
    sure = state(cut=[cut], flags=[])
    twice = state(cut=[cut, {"remnants": ["other"], "at": 60}], flags=[{"key": "cut", "flag": "x"}])
    assert out_of_stock("me", state(), sure) == ""
    assert out_of_stock("me", state(), twice) == "has to be measured again"
    assert out_of_stock("me", state(sized_at=60), twice) == "has to be measured again"
    assert out_of_stock("me", state(sized_at=61), twice) == ""
    assert out_of_stock("me", state(), state()) == "has to be measured again"
    assert out_of_stock("me", state(), state(retired={"why": "entered by mistake"})) == ""


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({}, ""),
        ({"alloy": "6061", "temper": "T6", "clad": "bare"}, "6061-T6, wanted 2024-T3"),
        ({"temper": "T4"}, "wanted 2024-T3"),
        ({"clad": "bare"}, "bare, wanted clad"),
        ({"clad": "unknown"}, "cladding not known, wanted clad"),
        ({"thickness": inches(0.04)}, "thicker"),
        ({"thickness": inches(0.025)}, "thinner"),
        ({"thickness": inches(0.0325)}, ""),
        (differs("alloy"), "metal unknown, wanted 2024-T3"),
    ],
)
def test_why_it_is_not_the_metal_wanted(change: dict[str, Any], said: str) -> None:
    assert why_not_metal(state(**change), ALCLAD).endswith(said)
    assert bool(why_not_metal(state(**change), ALCLAD)) == bool(said)


@pytest.mark.parametrize(
    "change", [{"known_by": "unknown"}, {"measured": "over film"}, {"alloy": None, "temper": None}]
)
def test_what_nobody_is_sure_of_is_not_for_structure(change: dict[str, Any]) -> None:
    assert why_not_metal(state(**change), MetalWanted()) != ""
    assert why_not_metal(state(**change), MetalWanted(structure=False)) == ""


def test_grain_outline_reservation_and_the_metal_of_a_piece() -> None:
    assert (grain_of(state()), grain_of(state(grain="b"))) == ("a", "b")
    assert grain_of(state(grain="unknown")) == grain_of(state(**differs("grain"))) == "unknown"
    whole = outline_of(state())
    assert whole is not None and whole.outer[2] == (inches(10)["nm"], inches(5)["nm"])
    odd_one = outline_of(odd(ell(200, 150, 60, 50)))
    assert odd_one is not None and len(odd_one.outer) == 6
    bow = {**ell(200, 150, 60, 50), "outer": [[0, 0], [9, 0], [0, 9], [9, 9]]}
    assert outline_of(state(shape=bow)) is None
    assert outline_of(state(shape={"kind": "length", "length": inches(9)})) is None
    assert reservation(state()) == (None, "")
    assert reservation(state(reserved={"text": "rib", "part": None})) == ("", "rib")
    assert reservation(state(reserved={"text": "rib", "part": "p"})) == ("p", "rib")
    piece = {"alloy": "2024", "temper": "T3", "clad": "clad", "thickness": inches(0.032)}
    assert metal_of_piece(piece) == ALCLAD
