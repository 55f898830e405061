"""Where to cut: the place that keeps what the workshop asks for, against many random ones."""

from __future__ import annotations

from itertools import islice
from random import Random

import numpy as np
import pytest
from shapely import Polygon

from bucktail.offcuts.innerfit import rings_of, rings_of_polygon
from bucktail.offcuts.laying import QUARTER, Ground
from bucktail.offcuts.outline import Outline, outline
from bucktail.offcuts.placing import best_places, hull_of
from bucktail.offcuts.worth import Size, Worth, frames_of
from running.blanks import MM, polygon, rectangle
from running.outlines import outlines
from running.touching import Ring, random_places

SHEET = outline([(0, 0), (300 * MM, 0), (300 * MM, 200 * MM), (0, 200 * MM)])


def looked_at_closely(metal: Outline, sizes: list[Size]) -> Worth:
    """The worth in many frames, of the outline as it is."""
    frames = frames_of([*range(0, QUARTER, 15_000_000), *Ground(metal).directions], 10)
    return Worth.of(rings_of(metal), sizes, frames)


def left(whole: Worth, ring: Ring) -> float:
    """The worth after a cut."""
    return float(whole.values(0, np.array(ring, dtype=float), np.zeros((1, 2)))[0])


def test_a_strip_is_kept_for_what_is_asked() -> None:
    strip = Size(290 * MM, 120 * MM)
    best, other = best_places(Ground(SHEET), rectangle(100 * MM, 70 * MM), [strip])
    assert (best.keeps, best.fitted) == (1, 1)
    assert left(looked_at_closely(SHEET, [strip]), best.lying.ring) == pytest.approx(strip.worth)
    assert polygon(SHEET).covers(Polygon(best.lying.ring))
    assert "still fits" in best.reason and "one piece" in best.reason
    assert best.kept >= other.kept
    assert np.hypot(best.lying.x - other.lying.x, best.lying.y - other.lying.y) > 35 * MM


def test_what_cannot_be_kept_is_said() -> None:
    nearly_all = Size(295 * MM, 195 * MM)
    small = Size(40 * MM, 40 * MM)
    best, *_ = best_places(Ground(SHEET), rectangle(150 * MM, 100 * MM), [nearly_all, small])
    assert (best.keeps, best.fitted) == (1, 2)
    assert best.reason.startswith("1 of the 2 sizes")
    [only] = best_places(Ground(SHEET), rectangle(299 * MM, 199 * MM), [small])
    assert only.reason.startswith("None of the 1") or "None" in only.reason
    assert best_places(Ground(SHEET), rectangle(301 * MM, 10 * MM), [small], (0,)) == []


def test_the_kerf_is_taken_from_what_stays() -> None:
    strip = Size(299 * MM, 130 * MM)
    blank = rectangle(100 * MM, 69 * MM)
    assert best_places(Ground(SHEET), blank, [strip])[0].keeps == 1
    assert best_places(Ground(SHEET), blank, [strip], kerf=2 * MM)[0].keeps == 0


def test_without_wishes_most_is_kept_in_one_piece() -> None:
    best, *_ = best_places(Ground(SHEET), rectangle(60 * MM, 50 * MM))
    assert best.fitted == 0 and best.pieces == 1
    assert best.left_um2 == pytest.approx((300 * 200 - 60 * 50) * MM, rel=1e-4)
    corners = [(0, 0), (300, 0), (300, 200), (0, 200)]
    near = min(np.hypot(x / MM - u, y / MM - v) for x, y in best.lying.ring for u, v in corners)
    assert near < 0.1


def test_the_best_of_many_random_places_is_hardly_better() -> None:
    draw = Random(8)
    sizes = [
        Size(draw.randrange(20, 300) * MM, draw.randrange(20, 160) * MM, draw.randrange(1, 5))
        for _ in range(10)
    ]
    shares = []
    for _, metal in islice(outlines(8, 40), 40):
        size = draw.choice(sizes)
        rings = random_places(draw, metal, size.width, size.height, 60)
        if not rings:
            continue
        best, *_ = best_places(Ground(metal), rectangle(size.width, size.height), sizes)
        assert polygon(metal).covers(Polygon(best.lying.ring))
        whole = looked_at_closely(metal, sizes)
        most = max(left(whole, ring) for ring in rings)
        if most > 0:
            shares.append(left(whole, best.lying.ring) / most)
        if len(shares) == 8:
            break
    assert len(shares) == 8
    assert sum(shares) / len(shares) >= 0.95


def test_worth_reckoned_by_corners_is_that_of_measuring_anew() -> None:
    draw = Random(4)
    sizes = [Size(draw.randrange(15, 150) * MM, draw.randrange(15, 100) * MM) for _ in range(8)]
    differing = compared = 0
    for _, metal in islice(outlines(4, 20), 20):
        rings = random_places(draw, metal, 40 * MM, 25 * MM, 4)
        whole = Worth.of(rings_of(metal), sizes, [0, 30_000_000])
        for ring in rings:
            hull = np.array(ring, dtype=float)
            quick = whole.still_fitting(0, hull, np.zeros((1, 2)))[0]
            taken = whole.take(0, hull, np.zeros(2)).fitting
            stays = polygon(metal).difference(Polygon(ring))
            anew = np.zeros(len(sizes), dtype=bool)
            for part in getattr(stays, "geoms", [stays]):
                if part.area > MM**2:
                    anew |= Worth.of(rings_of_polygon(part), sizes, [0, 30_000_000]).fitting
            compared += len(sizes)
            differing += int((quick != anew).sum())
            assert not (taken & ~quick).any()
    assert compared > 300 and differing <= compared // 100


def test_the_hull_has_the_kerf_on_every_side() -> None:
    hull = hull_of(rectangle(10 * MM, 5 * MM), MM)
    assert hull.min(axis=0).tolist() == pytest.approx([-MM, -MM])
    assert hull.max(axis=0).tolist() == pytest.approx([11 * MM, 6 * MM])
