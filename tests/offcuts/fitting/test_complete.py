"""What fits is claimed: against the same sweep at far finer angles, on the outline as it is.

The sweep itself is held against others in test_sweep.py.
"""

from __future__ import annotations

from random import Random

import pytest

from bucktail.offcuts.fitting import Curve, Way, measure
from bucktail.offcuts.fitting.curve import Piece
from running.fitting import missed
from running.outlines import outlines

#: the most that may be missed of rectangles with 0.5 to 1 mm to spare
MOST_MISSED = 0.002


def counted(seed: int, number: int, least: int, most: int | None, way: Way) -> tuple[int, int]:
    """Asked and missed over `number` fresh outlines."""
    draw = Random(seed)
    counts = [
        missed(made, measure(made), 12, draw, way, least, most)
        for _, made in outlines(seed, number)
    ]
    return sum(one for one, _ in counts), sum(other for _, other in counts)


@pytest.mark.parametrize("way", ["any", "along"])
def test_no_ordinary_size_is_missed(way: Way) -> None:
    asked, gone = counted(21, 8, 1000, None, way)
    assert asked > 60 and gone == 0


@pytest.mark.parametrize("way", ["any", "along"])
def test_next_to_nothing_is_missed_with_half_a_millimetre_to_spare(way: Way) -> None:
    asked, gone = counted(22, 8, 500, 1000, way)
    assert asked > 60 and gone <= 1


@pytest.mark.long
@pytest.mark.parametrize("seed", range(4))
def test_at_most_two_in_a_thousand_are_missed(seed: int) -> None:
    assert counted(400 + seed, 250, 1000, None, "any")[1] == 0
    asked, gone = counted(500 + seed, 250, 500, 1000, "any")
    assert asked > 2000 and gone <= asked * MOST_MISSED


def test_a_curve_that_lies_two_millimetres_low_is_caught() -> None:
    _, made = next(outlines(23, 1))
    curve = measure(made)
    low = tuple(
        Piece.of([p.angle, p.w0, max(p.h0 - 2000, 1), 0, 0, p.w1, max(p.h1 - 2000, 1), 0, 0])
        for p in curve.any
    )
    asked, gone = missed(made, Curve(1, low, ()), 60, Random(1), "any", 500, 1000)
    assert gone > asked / 3


def test_a_curve_is_short() -> None:
    knots = [measure(made).knots for _, made in outlines(24, 20)]
    assert sum(knots) / len(knots) <= 14
