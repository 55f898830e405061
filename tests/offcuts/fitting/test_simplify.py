"""A simplified outline lies inside the given one, close to it, and is sound."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import Polygon

from bucktail.offcuts.fitting.simplify import MANY, TOLERANCE_UM, simplified
from running.outlines import outlines

Ring = list[tuple[float, float]]


def shape(rings: list[Ring]) -> Polygon:
    """For shapely."""
    return Polygon(rings[0], rings[1:])


def circle(radius: float, points: int, x: float = 0, y: float = 0) -> Ring:
    """A round ring, um, anticlockwise."""
    turns = [2 * math.pi * n / points for n in range(points)]
    return [(x + radius * math.cos(turn), y + radius * math.sin(turn)) for turn in turns]


@pytest.mark.parametrize("seed", range(3))
def test_it_lies_inside_and_close(seed: int) -> None:
    for _, made in outlines(40 + seed, 40):
        given = [[(x / 1000, y / 1000) for x, y in ring] for ring in made.rings]
        fewer = shape(simplified(given))
        assert fewer.is_valid
        assert fewer.difference(shape(given)).area < 1
        assert shape(given).hausdorff_distance(fewer) < TOLERANCE_UM * 2


def test_a_round_plate_with_a_round_hole_loses_most_of_its_points() -> None:
    plate = [circle(150_000, 720), circle(40_000, 360)[::-1]]
    fewer = simplified(plate)
    assert len(fewer[0]) < 180 and len(fewer[1]) < 120
    assert shape(fewer).difference(shape(plate)).area < 1
    assert shape(plate).area - shape(fewer).area < TOLERANCE_UM * 2 * math.pi * 190_000


def test_straight_sides_stay_where_they_are() -> None:
    ell = [(0.0, 0.0), (9e5, 0.0), (9e5, 2e5), (3e5, 2e5), (3e5, 7e5), (0.0, 7e5)]
    assert simplified([[*ell, *[(0.0, 7e5 - n * 1e4) for n in range(1, 9)]]]) == [ell]


def test_what_has_too_many_corners_is_taken_in_further() -> None:
    toothed = [
        point
        for n, point in enumerate(circle(500_000, 1900))
        for point in ([point] if n % 2 else [(point[0] * 0.98, point[1] * 0.98)])
    ]
    fewer = simplified([toothed])
    assert len(fewer[0]) <= MANY
    assert shape(fewer).difference(Polygon(toothed)).area < 1
    assert shape(fewer).area > 0.9 * Polygon(toothed).area
