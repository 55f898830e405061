"""What is wrong with an outline is found, exactly, and where; and nothing is wrong with a good one.

Independent: shapely's own validity test (the OGC Simple Features rules).
"""

from __future__ import annotations

import math
import time
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from bucktail.offcuts.outline import (
    MOST_HOLES,
    MOST_POINTS,
    OutlineFaulty,
    doubled_area,
    faults,
    inside,
    outline,
    tidied,
)
from running.outlines import outlines

MM = 1_000_000
SQUARE = [(0, 0), (100 * MM, 0), (100 * MM, 100 * MM), (0, 100 * MM)]


def square(x: float, y: float, side: float) -> list[tuple[int, int]]:
    """A square hole, mm."""
    corners = ((x, y), (x + side, y), (x + side, y + side), (x, y + side))
    return [(round(a * MM), round(b * MM)) for a, b in corners]


def spiked(points: int) -> list[tuple[int, int]]:
    """A comb of long thin teeth: every side reaches over the same stretch of y."""
    teeth = [(n * MM, (n % 2) * 900 * MM + MM) for n in range(points - 2)]
    return [((points - 3) * MM, 0), *reversed(teeth), (0, 0)][::-1]


CASES = {
    "bow tie": ("crossed", [(0, 0), (9, 9), (9, 0), (0, 9)], [], (4, 4)),
    "out and back": ("flat", [(0, 0), (9, 9), (4, 4)], [], None),
    "two points": ("few", [(0, 0), (9, 0)], [], (0, 0)),
    "a point twice": ("twice", [(0, 0), (9, 0), (9, 0), (0, 9)], [], (9, 0)),
    "closed again": ("twice", [(0, 0), (9, 0), (0, 9), (0, 0)], [], (0, 0)),
    "a corner on a side": ("touching", [(0, 0), (8, 0), (8, 8), (4, 0), (0, 8)], [], (4, 0)),
    "back along a side": ("crossed", [(0, 0), (8, 0), (8, 4), (8, 0), (0, 8)], [], None),
    "on one line": ("crossed", [(0, 0), (4, 0), (9, 0), (6, 0)], [], None),
}


@pytest.mark.parametrize("name", CASES)
def test_each_fault_is_named_with_its_place(name: str) -> None:
    code, ring, holes, at = CASES[name]
    with pytest.raises(OutlineFaulty) as caught:
        outline([(x * MM, y * MM) for x, y in ring], holes)
    found = caught.value.faults
    assert code in {fault.code for fault in found}
    assert all(fault.sentence.endswith(".") and fault.points for fault in found)
    if at:
        near = [math.dist(point, (at[0] * MM, at[1] * MM)) for f in found for point in f.points]
        assert min(near) < MM


@pytest.mark.parametrize(
    ("code", "holes"),
    [
        ("outside", [square(200, 10, 5)]),
        ("crossed", [square(95, 10, 10)]),
        ("overlap", [square(10, 10, 50), square(20, 20, 5)]),
        ("crossed", [square(10, 10, 20), square(20, 20, 20)]),
        ("touching", [[(0, 50 * MM), (10 * MM, 40 * MM), (10 * MM, 60 * MM)]]),
        ("few", [[]]),
        ("holes", [square(n % 20 * 4 + 1, n // 20 * 4 + 1, 1) for n in range(MOST_HOLES + 1)]),
    ],
)
def test_what_is_wrong_with_holes(code: str, holes: list[list[tuple[int, int]]]) -> None:
    found = faults(SQUARE, holes)
    assert code in {fault.code for fault in found}
    assert all(fault.points or fault.code in ("few", "holes") for fault in found)


def test_sides_that_cross_are_both_drawn() -> None:
    fault = faults([(0, 0), (9 * MM, 9 * MM), (9 * MM, 0), (0, 9 * MM)])[0]
    assert fault.points == ((4_500_000, 4_500_000),)
    assert set(fault.sides) == {((0, 0), (9 * MM, 9 * MM)), ((9 * MM, 0), (0, 9 * MM))}
    assert "Side 1 of the outline crosses side 3 of the outline." in fault.sentence


def test_a_sliver_and_an_outline_in_the_wrong_unit() -> None:
    sliver = [(0, 0), (400 * MM, 0), (400 * MM, MM // 10), (0, MM // 10)]
    assert [fault.code for fault in faults(sliver)] == ["sliver"]
    huge = [(x * 200, y * 200) for x, y in SQUARE]
    assert [fault.code for fault in faults(huge)] == ["far"]
    narrow = [(0, 0), (400 * MM, 0), (400 * MM, MM), (0, MM)]
    assert faults(narrow) == []


def test_no_number_of_points_takes_long() -> None:
    many = [(round(900 * MM * math.cos(n)), round(900 * MM * math.sin(n))) for n in range(100_000)]
    start = time.process_time()
    assert [fault.code for fault in faults(many)] == ["many"]
    assert time.process_time() - start < 1
    worst = spiked(MOST_POINTS)
    start = time.process_time()
    assert faults(worst) == []
    crossed = [*worst[:50], worst[401], *worst[51:401], worst[50], *worst[402:]]
    assert "crossed" in {fault.code for fault in faults(crossed)}
    assert time.process_time() - start < 20


def test_a_good_outline_is_moved_and_turned() -> None:
    hole = square(40, 40, 10)
    given_backwards = [(x - 7, y + 9) for x, y in reversed(SQUARE)]
    made = outline(given_backwards, [[(x - 7, y + 9) for x, y in hole]])
    assert sorted(made.outer) == sorted(SQUARE) and made.size_nm == (100 * MM, 100 * MM)
    assert doubled_area(made.outer) > 0 > doubled_area(made.holes[0])
    assert made.area_um2 == 9_900 * 10**6


def test_points_that_mean_nothing_are_left_out() -> None:
    ring = [(0, 0), (0, 0), (3, 0), (9, 0), (9, 9), (5, 9), (0, 9), (0, 4), (0, 0)]
    assert set(tidied(ring)) == {(0, 0), (9, 0), (9, 9), (0, 9)}
    assert tidied([(1, 1), (1, 1)]) == ((1, 1),)
    # out and back stays: it is a fault to be told, not to be mended
    assert len(tidied([(0, 0), (9, 0), (9, 9), (9, 0), (5, 5)])) == 5


RINGS = st.lists(st.tuples(st.integers(0, 12), st.integers(0, 12)), min_size=3, max_size=9)


@settings(max_examples=400)
@given(RINGS)
def test_one_ring_is_judged_as_another_library_judges_it(ring: list[tuple[int, int]]) -> None:
    ring = [(x * MM, y * MM) for x, y in ring]
    found, other = faults(ring), Polygon(ring)
    codes = {fault.code for fault in found}
    if not found:
        assert other.is_valid
        assert abs(doubled_area(ring)) / 2 == pytest.approx(other.area)
    elif not codes & {"touching", "twice", "sliver"}:
        # a ring that only touches itself in a point is valid there and refused here
        assert not other.is_valid


@settings(max_examples=200)
@given(RINGS, RINGS)
def test_a_hole_is_judged_as_another_library_judges_it(
    ring: list[tuple[int, int]], hole: list[tuple[int, int]]
) -> None:
    ring, hole = ([(x * MM, y * MM) for x, y in one] for one in (ring, hole))
    if not faults(ring, [hole]):
        assert Polygon(ring, [hole]).is_valid


@pytest.mark.parametrize("seed", range(3))
def test_invented_offcuts_are_sound_and_as_large_as_they_are(seed: int) -> None:
    for _, made in outlines(seed, 40):
        other = Polygon(made.outer, made.holes)
        assert other.is_valid
        assert made.area_um2 == pytest.approx(other.area / 10**6, abs=1)


def test_inside_agrees_with_another_library() -> None:
    draw = Random(4)
    for _, made in outlines(5, 20):
        other = Polygon(made.outer)
        for _ in range(50):
            point = tuple(draw.randint(-MM, one + MM) for one in made.size_nm)
            assert (
                inside(made.outer, point)
                == other.contains_properly(Polygon([point, point, point]).centroid)
                or other.boundary.distance(Polygon([point, point, point]).centroid) < 2
            )
