"""Bends and flats: the published channel, what adds up, and what cannot be bent."""

from __future__ import annotations

import math
from itertools import accumulate
from typing import Any

import pytest

from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.sums import MARKING

CHANNEL = {"thickness": ".040", "radius": ".16", "legs": "1.00,2.00,1.00", "angles": "90,90"}


def worked(name: str, **typed: str) -> dict[str, Any]:
    """The answer of a sum that can be read."""
    answer = reckon(name, typed, "in")
    assert not isinstance(answer, Unread), answer
    return answer


def refused(name: str, **typed: str) -> Unread:
    """What is said of inputs that make no sum."""
    answer = reckon(name, typed, "in")
    assert isinstance(answer, Unread), answer
    return answer


def inches(answer: dict[str, Any], key: str) -> list[float]:
    """A list of lengths in inches, to the published figures."""
    return [round(value / 25.4, 3) for value in answer[key]]


def test_the_channel_of_the_handbook() -> None:
    answer = worked("flat", **CHANNEL)
    assert inches(answer, "setbacks_mm") == [0.2, 0.2]
    assert inches(answer, "flats_mm") == [0.8, 1.6, 0.8]
    assert round(answer["developed_mm"] / 25.4, 3) == 3.758
    assert answer["verdict"] == "meets"
    assert MARKING in answer["caution"]


def test_lines_follow_one_another_from_the_first_edge_to_the_last() -> None:
    answer = worked("flat", **{**CHANNEL, "legs": "1,2,1.5,3", "angles": "90,45,120"})
    pairs = zip(answer["flats_mm"], [*answer["allowances_mm"], 0], strict=True)
    ends = list(accumulate(flat + allowance for flat, allowance in pairs))
    assert answer["bend_ends_mm"] == pytest.approx(ends[:-1])
    assert answer["developed_mm"] == pytest.approx(ends[-1])
    for start, middle, end in zip(
        answer["bend_starts_mm"], answer["bend_lines_mm"], answer["bend_ends_mm"], strict=True
    ):
        assert middle == pytest.approx((start + end) / 2)


def test_a_sight_line_is_a_radius_in_from_the_side_in_the_brake() -> None:
    near, far = worked("flat", **CHANNEL), worked("flat", **CHANNEL, brake="far")
    radius = 0.16 * 25.4
    for one, start in zip(near["sight_lines_mm"], near["bend_starts_mm"], strict=True):
        assert one == pytest.approx(start + radius)
    for one, end in zip(far["sight_lines_mm"], far["bend_ends_mm"], strict=True):
        assert one == pytest.approx(end - radius)


def test_one_angle_stands_for_all_and_a_wrong_number_is_refused() -> None:
    assert (
        worked("flat", **CHANNEL)["developed_mm"]
        == (worked("flat", **{**CHANNEL, "angles": "90"})["developed_mm"])
    )
    wrong = refused("flat", **{**CHANNEL, "angles": "90,90,90"})
    assert wrong.key == "angles" and "Bends between them: 2" in wrong.sentence
    assert refused("flat", **{**CHANNEL, "legs": "1,2,1,2"}).key == "angles"
    assert refused("flat", **{**CHANNEL, "legs": "2", "angles": "90"}).key == "legs"


def test_a_leg_shorter_than_its_setbacks_fails_and_says_which_and_by_how_much() -> None:
    answer = worked("flat", **{**CHANNEL, "legs": "1,.3,1"})
    assert answer["verdict"] == "fails"
    assert "Leg 2 is .100 in too short" in answer["why"]
    assert "Leg 1" not in answer["why"] and "Leg 3" not in answer["why"]
    last = worked("flat", **{**CHANNEL, "legs": "1,1,1,1,1,1,1,1,1,1,1,.1", "angles": "90"})
    assert "Leg 12 is" in last["why"]


def test_a_leg_of_just_its_setback_has_no_flat_and_does_not_fail() -> None:
    answer = worked("flat", **{**CHANNEL, "legs": ".2,2,1"})
    assert answer["flats_mm"][0] == 0 and answer["verdict"] == "meets"


@pytest.mark.parametrize("angle", [1, 15, 30, 45, 60, 75, 90, 100, 120, 135, 150, 176, 179])
def test_setback_goes_by_half_the_angle_bent_through(angle: int) -> None:
    answer = worked("bend", thickness=".040", radius=".16", angle=str(angle))
    assert answer["k"] == pytest.approx(math.tan(math.radians(angle / 2)), abs=1e-6)
    assert answer["setback_mm"] == pytest.approx(answer["k"] * 5.08, abs=1e-4)
    assert answer["deduction_mm"] == pytest.approx(
        2 * answer["setback_mm"] - answer["allowance_mm"], abs=1e-5
    )


def test_the_chart_has_a_misprint_that_is_not_followed() -> None:
    # AC 43.13-1B, Table 4-7 prints 26.63 at 176 degrees
    answer = worked("bend", thickness=".040", radius=".16", angle="176")
    assert answer["k"] == pytest.approx(28.64, abs=0.005)


def test_bent_right_round_there_is_an_allowance_and_no_setback() -> None:
    answer = worked("bend", thickness=".040", radius=".16", angle="180")
    assert answer["allowance_mm"] == pytest.approx(2 * 7.088429, abs=1e-5)
    assert "setback_mm" not in answer and "deduction_mm" not in answer
    assert refused("bend", thickness=".040", radius=".16", angle="181").key == "angle"
    assert refused("flat", **{**CHANNEL, "angles": "180"}).key == "angles"


def test_the_other_coefficient_and_the_neutral_line_stand_beside() -> None:
    answer = worked("bend", thickness=".040", radius="1/8", angle="90")
    assert abs(answer["allowance_navy_mm"] - answer["allowance_mm"]) < answer["tolerance_mm"]
    neutral = worked("bend", thickness=".040", radius="1/8", angle="90", neutral=".4475")
    assert abs(neutral["allowance_mm"] - answer["allowance_mm"]) < answer["tolerance_mm"]
    assert "allowance_navy_mm" not in neutral


def test_a_sharp_corner_is_no_radius() -> None:
    assert "more than zero" in refused("bend", thickness=".040", radius="0", angle="90").sentence
