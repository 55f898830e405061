"""Where a shape may lie inside an outline without being turned, against what can be seen."""

from __future__ import annotations

from itertools import islice
from random import Random

import numpy as np
import pytest
import shapely

from bucktail.offcuts.innerfit import (
    Border,
    Inside,
    convex_parts,
    rectangle_regions,
    regions,
    rings_of,
    turned,
)
from bucktail.offcuts.outline import outline
from running.blanks import MM, polygon
from running.outlines import outlines

SHEET = outline([(0, 0), (100 * MM, 0), (100 * MM, 60 * MM), (0, 60 * MM)])


def test_a_rectangle_in_a_rectangle() -> None:
    [ring] = rectangle_regions(Border(rings_of(SHEET)), 30 * MM, 20 * MM)
    assert sorted(ring.tolist()) == [[0, 0], [0, 40 * MM], [70 * MM, 0], [70 * MM, 40 * MM]]


@pytest.mark.parametrize("sides", [(101, 20), (20, 61), (200, 200), (100, 60)])
def test_what_is_too_large_has_no_region(sides: tuple[int, int]) -> None:
    width, height = sides
    assert rectangle_regions(Border(rings_of(SHEET)), width * MM, height * MM) == []


def test_every_place_of_a_region_lies_inside_and_no_other() -> None:
    draw = Random(6)
    inside = outside = 0
    for _, metal in islice(outlines(6, 40), 40):
        angle = draw.randrange(360_000_000)
        rings = [turned(ring, angle) for ring in rings_of(metal)]
        whole = shapely.Polygon(rings[0], rings[1:])
        seen = Inside(whole)
        width, height = draw.randrange(10, 120) * MM, draw.randrange(10, 120) * MM
        found = rectangle_regions(Border(rings), width, height)
        region = shapely.Polygon()
        for ring in found:
            region = region.symmetric_difference(shapely.Polygon(ring))
        low, high = rings[0].min(axis=0), rings[0].max(axis=0)
        sides = np.array([(0, 0), (width, 0), (width, height), (0, height)], dtype=float)
        for _ in range(150):
            at = np.array([draw.uniform(*pair) for pair in zip(low, high, strict=True)])
            if not region.is_empty and region.boundary.distance(shapely.Point(at)) < 1000:
                continue
            mine = region.contains(shapely.Point(at))
            assert mine == seen.holds([sides], at)
            inside, outside = inside + mine, outside + (not mine)
    assert inside > 100 and outside > 1000


def test_parts_are_convex_and_make_up_the_whole() -> None:
    for _, metal in islice(outlines(9, 20), 20):
        whole = polygon(metal)
        parts = [shapely.Polygon(part) for part in convex_parts(whole)]
        assert all(part.convex_hull.area == pytest.approx(part.area) for part in parts)
        assert sum(part.area for part in parts) == pytest.approx(whole.area)
        assert shapely.union_all(parts).symmetric_difference(whole).area < 1e-6 * whole.area


def test_a_shape_in_parts_lies_where_every_part_does() -> None:
    ell = shapely.Polygon([(0, 0), (40, 0), (40, 10), (10, 10), (10, 30), (0, 30)])
    parts = convex_parts(shapely.transform(ell, lambda points: points * MM))
    assert len(parts) == 2
    [ring] = regions(Border(rings_of(SHEET)), parts)
    assert ring.min(axis=0).tolist() == [0, 0]
    assert ring.max(axis=0).tolist() == [60 * MM, 30 * MM]
