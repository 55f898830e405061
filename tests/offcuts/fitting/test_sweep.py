"""The tallest rectangle of a width at one angle, against searches that share nothing with it."""

from __future__ import annotations

import math
from random import Random

import numpy as np
import pytest
import shapely
from shapely import affinity
from shapely.geometry import Polygon, box

from bucktail.offcuts.fitting import measure
from bucktail.offcuts.fitting.angles import DEGREE, Front, Sweeper
from bucktail.offcuts.outline import Outline, outline
from running.fitting import metal
from running.outlines import outlines

MM = 1_000_000


def swept(made: Outline, widths: list[float], angle: int) -> Front:
    """What the sweep finds at one angle (udeg)."""
    rings = [[(x / 1000, y / 1000) for x, y in ring] for ring in made.rings]
    front = Front.empty(widths, False)
    Sweeper(rings).sweep({angle: (0, len(widths))}, front)
    return front


def reached(shape: Polygon, w: float, x: float) -> float:
    """The tallest rectangle of width w whose left side stands at x, by cutting out its column."""
    low, high = shape.bounds[1] - 1, shape.bounds[3] + 1
    column = box(x, low, x + w, high)
    blocked = column.difference(shape)
    # what blocks, seen from the side: the free stretches of y between its parts
    spans = sorted(
        (part.bounds[1], part.bounds[3]) for part in shapely.get_parts(blocked) if part.area > 1e-6
    )
    best, top = 0.0, low
    for start, end in spans:
        best, top = max(best, start - top), max(top, end)
    return max(best, high - top)


@pytest.mark.parametrize("seed", range(6))
def test_no_column_holds_a_taller_one_and_the_place_given_holds_it(seed: int) -> None:
    draw = Random(seed)
    for _, made in outlines(seed, 4):
        angle = draw.choice([0, 90 * DEGREE, draw.randrange(180 * DEGREE)])
        turned = affinity.rotate(metal(made), -angle / DEGREE, origin=(0, 0))
        left, _, right, _ = turned.bounds
        widths = sorted((right - left) * draw.uniform(0.02, 0.98) for _ in range(6))
        front = swept(made, widths, angle)
        for w, h, u, v in zip(front.widths, front.heights, front.us, front.vs, strict=True):
            if h > 2:
                inner = box(u + 0.5, v + 0.5, u + w - 0.5, v + h - 0.5)
                assert turned.covers(inner)
            for _ in range(12):
                x = draw.uniform(left, right - w)
                assert reached(turned, w, x) <= h + 2


def test_a_rectangle_between_holes() -> None:
    # 100 x 100 with two holes: between them a passage 30 high and 100 wide
    holes = [[(20, 10), (80, 10), (80, 35), (20, 35)], [(20, 65), (80, 65), (80, 90), (20, 90)]]
    made = outline(
        [(0, 0), (100 * MM, 0), (100 * MM, 100 * MM), (0, 100 * MM)],
        [[(x * MM, y * MM) for x, y in hole] for hole in holes],
    )
    front = swept(made, [10_000.0, 20_000.0, 30_000.0, 61_000.0, 100_000.0], 0)
    assert [float(h) for h in front.heights] == [100_000, 100_000, 30_000, 30_000, 30_000]


def test_a_slope_is_reckoned_exactly() -> None:
    # in a right triangle with legs a and b the rectangle in the corner has h = b (1 - w / a)
    made = outline([(0, 0), (400 * MM, 0), (0, 300 * MM)])
    front = swept(made, [40_000.0, 100_000.0, 399_000.0], 0)
    for w, h in zip(front.widths, front.heights, strict=True):
        assert h == pytest.approx(300_000 * (1 - w / 400_000), abs=0.01)


def test_the_largest_rectangle_in_a_triangle_is_half_of_it() -> None:
    # classical: the largest rectangle in a triangle with its base on a side has half its area
    draw = Random(5)
    for _ in range(5):
        points = [(draw.randint(0, 500) * MM, draw.randint(0, 500) * MM) for _ in range(3)]
        try:
            made = outline(points)
        except ValueError:
            continue
        w, h = measure(made).largest()
        assert made.area_um2 * 0.49 < w * h <= made.area_um2 / 2


@pytest.mark.parametrize("ratio", [1.0, 1.5, 3.0, 8.0])
def test_the_longest_strip_in_a_sheet_is_laid_by_the_diagonal(ratio: float) -> None:
    a, b = 400.0, 400.0 / ratio
    corners = ((0, 0), (a, 0), (a, b), (0, b))
    made = outline([(round(x * MM), round(y * MM)) for x, y in corners])
    curve = measure(made)
    for degrees in np.linspace(0.2, 0.98, 8) * math.degrees(math.atan2(b, a)):
        cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        if cos * cos - sin * sin < 0.02:
            continue
        h = (b * cos - a * sin) / (cos * cos - sin * sin)
        w = (a - h * sin) / cos
        assert curve.claims(round(w * 1000 - 500), max(round(h * 1000 - 500), 1))


@pytest.mark.long
def test_the_largest_area_agrees_with_a_library_for_it() -> None:
    """Upright rectangles; the library works on a grid of cells, of which only whole ones count."""
    from largestinteriorrectangle import lir

    for _, made in outlines(31, 40):
        shape = metal(made)
        cell = max(made.size_nm) / 1000 / 400
        columns, rows = (int(one / 1000 // cell) for one in made.size_nm)
        xs, ys = np.meshgrid(np.arange(columns) * cell, np.arange(rows) * cell)
        grid = shapely.covers(shape, shapely.box(xs, ys, xs + cell, ys + cell))
        _, _, across, up = (int(one) for one in lir(np.ascontiguousarray(grid)))
        w, h = measure(made).largest("along")
        theirs = across * up * cell * cell
        # theirs lies on the grid, so it is at most a cell smaller each way than the largest
        slack = 300
        assert (w + slack) * (h + slack) >= theirs
        assert max(w - 2 * cell, 0) * max(h - 2 * cell, 0) <= theirs
