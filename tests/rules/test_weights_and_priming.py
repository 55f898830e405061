"""The mass of a sheet and the primer on it."""

from __future__ import annotations

from typing import Any

import pytest

from bucktail.rules.materials import sheet_metals
from bucktail.rules.reckon import Unread, reckon

SHEET = {"alloy": "2024-T3", "thickness": ".032"}
COAT = {"area": "4.8 m2", "coats": "2", "solids": "52%", "film": ".8mil", "transfer": "60%"}


def worked(name: str, **typed: str) -> dict[str, Any]:
    """The answer of a sum that can be read."""
    answer = reckon(name, typed, "in")
    assert not isinstance(answer, Unread), answer
    return answer


def test_length_and_width_or_the_area_give_the_same_mass() -> None:
    by_sides = worked("mass", **SHEET, length="1000 mm", width="500 mm")
    assert by_sides["mass_g"] == worked("mass", **SHEET, area="0.5 m2")["mass_g"] == 1129.792
    assert by_sides["area_m2"] == 0.5


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ({}, "length"),
        ({"length": "10"}, "length"),
        ({"width": "10"}, "length"),
        ({"length": "10", "width": "4", "area": "1 m2"}, "area"),
        ({"width": "4", "area": "1 m2"}, "area"),
    ],
)
def test_neither_or_both_is_refused_with_what_to_do(typed: dict[str, str], key: str) -> None:
    answer = reckon("mass", {**SHEET, **typed}, "in")
    assert isinstance(answer, Unread)
    assert answer.key == key and answer.sentence.startswith("Give ")


def test_every_listed_metal_has_a_mass_and_one_told_from_memory_says_so() -> None:
    for metal in sheet_metals():
        answer = worked("mass", alloy=metal.name, thickness="1 mm", area="1 m2")
        assert answer["mass_g"] == metal.density
        assert answer["verdict"] == ("check" if metal.metal == "steel" else "meets")
    assert worked("mass", alloy="2017-T3", thickness="1 mm", area="1 m2")["verdict"] == (
        "not covered"
    )


def test_the_parts_of_a_mix_make_the_whole() -> None:
    answer = worked("primer", **COAT, mix="4:1:1")
    assert sum(answer["parts_l"]) == pytest.approx(answer["volume_l"], abs=2e-6)
    assert answer["parts_l"][0] == pytest.approx(4 * answer["parts_l"][1], abs=4e-6)
    assert "parts_l" not in worked("primer", **COAT)


def test_less_solids_or_transfer_takes_more_primer_and_is_looked_at_again() -> None:
    usual = worked("primer", **COAT)
    assert usual["verdict"] == "meets"
    for changed in ({"solids": "26%"}, {"transfer": "30%"}):
        answer = worked("primer", **{**COAT, **changed})
        assert answer["volume_l"] == pytest.approx(2 * usual["volume_l"], abs=2e-6)
        assert answer["verdict"] == "check"


def test_the_film_of_all_coats_is_held_against_the_published_one() -> None:
    assert worked("primer", **COAT, primer="epoxy")["verdict"] == "meets"
    thick = worked("primer", **{**COAT, "film": "1.2mil"}, primer="epoxy")
    assert thick["verdict"] == "check" and "published film" in thick["why"]
    many = worked("primer", **{**COAT, "coats": "3"}, primer="epoxy")
    assert many["verdict"] == "check" and "film_most_mm" not in many


def test_the_dangers_of_primer_are_told() -> None:
    caution = worked("primer", **COAT)["caution"].lower()
    for danger in ("solvents", "isocyanates", "chromates", "respirator", "kit maker"):
        assert danger in caution
