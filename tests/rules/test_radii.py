"""How tight a sheet may be bent: by table, by grain, and the largest where tables differ."""

from __future__ import annotations

from typing import Any

import pytest

from bucktail.rules.reading import metals
from bucktail.rules.reckon import Unread, reckon


def radius(**typed: str) -> dict[str, Any]:
    """The answer for 2024-T3 of .032 in bent across the grain, where nothing else is said."""
    usual = {"alloy": "2024-T3", "thickness": ".032", "grain": "across"}
    answer = reckon("radius", {**usual, **typed}, "in")
    assert not isinstance(answer, Unread), answer
    return answer


def test_across_the_grain_inside_all_tables_it_meets() -> None:
    answer = radius()
    assert (answer["min_mm"], answer["max_mm"], answer["cautious_mm"]) == (1.6256, 3.2512, 3.2512)
    assert answer["verdict"] == "meets"


@pytest.mark.parametrize("grain", ["along", "unknown"])
def test_along_or_unknown_grain_is_looked_at_again(grain: str) -> None:
    answer = radius(grain=grain)
    assert answer["verdict"] == "check" and "grain" in answer["why"]
    assert answer["cautious_mm"] == radius()["cautious_mm"]


def test_where_tables_differ_the_largest_is_the_cautious_one() -> None:
    answer = radius(alloy="5052-O")
    assert (answer["max_mm"], answer["aircraft_mm"], answer["cautious_mm"]) == (0, 0.762, 0.762)
    assert answer["verdict"] == "check" and "differ" in answer["why"]


def test_the_cautious_radius_is_never_below_any_table_that_lists_the_sheet() -> None:
    seen = 0
    for alloy in metals():
        for thickness in (".016", ".020", ".025", ".032", ".040", ".050", ".063", ".090", ".125"):
            answer = radius(alloy=alloy, thickness=f"{thickness} in")
            for key in ("min_mm", "max_mm", "producers_mm", "shop_mm", "aircraft_mm"):
                if key in answer:
                    assert answer["cautious_mm"] >= answer[key], (alloy, thickness, key)
                    seen += 1
    assert seen > 300


def test_between_columns_the_next_thicker_is_taken() -> None:
    answer = radius(thickness=".040")
    assert (answer["column_mm"], answer["max_mm"]) == (1.6256, 5.08)
    assert "next thicker" in answer["why"]


def test_a_metal_that_only_another_table_lists_is_looked_at_again() -> None:
    answer = radius(alloy="3003-H14", thickness=".125")
    assert answer["verdict"] == "check"
    assert "min_mm" not in answer and answer["cautious_mm"] == 3.175


@pytest.mark.parametrize(
    "typed",
    [
        {"alloy": "2024-T42"},
        {"alloy": "4130-N"},
        {"thickness": ".012"},
        {"thickness": ".300 in"},
        {"alloy": "2024-T4", "thickness": ".050"},
    ],
)
def test_what_no_table_lists_is_not_covered(typed: dict[str, str]) -> None:
    answer = radius(**typed)
    assert answer["verdict"] == "not covered"
    assert set(answer) == {"verdict", "why", "source", "caution", "read_as"}


@pytest.mark.parametrize(
    ("wanted", "verdict"),
    [(".063", "fails"), (".064", "check"), (".127", "check"), (".128", "meets"), (".5", "meets")],
)
def test_the_radius_that_is_meant_is_judged(wanted: str, verdict: str) -> None:
    assert radius(radius=wanted)["verdict"] == verdict
