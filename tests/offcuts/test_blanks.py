"""Blanks of any shape: a yes is always real, and what is known to fit is found."""

from __future__ import annotations

import math
from itertools import islice
from random import Random

import pytest
from shapely import Polygon, affinity

from bucktail.offcuts.blanks import denied, granted, lay
from bucktail.offcuts.fitting import measure
from bucktail.offcuts.laying import QUARTER, Blank, Ground, Lying, turns_allowed
from bucktail.offcuts.outline import Outline, outline
from running.blanks import MM, planted, polygon, rectangle
from running.outlines import outlines

SQUARE = outline([(0, 0), (100 * MM, 0), (100 * MM, 100 * MM), (0, 100 * MM)])
HOLED = outline(
    [(0, 0), (200 * MM, 0), (200 * MM, 100 * MM), (0, 100 * MM)],
    [[(90 * MM, 40 * MM), (90 * MM, 60 * MM), (110 * MM, 60 * MM), (110 * MM, 40 * MM)]],
)
#: An L whose inside corner may lie round the hole of HOLED.
ELL = outline(
    [
        (0, 0),
        (150 * MM, 0),
        (150 * MM, 30 * MM),
        (30 * MM, 30 * MM),
        (30 * MM, 90 * MM),
        (0, 90 * MM),
    ]
)


def real(metal: Outline, blank: Outline, found: Lying, clearance: int = 0) -> bool:
    """Whether the blank, moved as answered, lies inside with its clearance."""
    ring = Polygon(found.ring)
    same = abs(ring.area - Polygon(blank.outer).area) < 10 * ring.length
    return same and polygon(metal).covers(ring.buffer(clearance - 5))


def test_a_blank_goes_round_a_hole() -> None:
    found = lay(Ground(HOLED), Blank(ELL))
    assert found is not None and real(HOLED, ELL, found)
    assert lay(Ground(HOLED), rectangle(150 * MM, 60 * MM)) is None


def test_a_ring_goes_round_a_hole_but_a_disc_does_not() -> None:
    outer = [(0, 0), (100 * MM, 0), (100 * MM, 90 * MM), (0, 90 * MM)]
    hole = [(20 * MM, 20 * MM), (20 * MM, 70 * MM), (80 * MM, 70 * MM), (80 * MM, 20 * MM)]
    with_hole, without = outline(outer, [hole]), outline(outer)
    found = lay(Ground(HOLED), Blank(with_hole))
    assert found is not None
    frame = polygon(with_hole)
    turned = affinity.rotate(frame, found.angle / 1e6, origin=(0, 0))
    laid = affinity.translate(turned, found.x, found.y)
    assert polygon(HOLED).covers(laid.buffer(-5))
    assert lay(Ground(HOLED), Blank(without), (0, QUARTER)) is None


def test_only_askew() -> None:
    long = outline([(0, 0), (130 * MM, 0), (130 * MM, 5 * MM), (0, 5 * MM)])
    found = lay(Ground(SQUARE), Blank(long))
    assert found is not None and real(SQUARE, long, found)
    assert lay(Ground(SQUARE), Blank(long), (0, QUARTER)) is None


def test_the_grain_allows_two_turns() -> None:
    assert turns_allowed("unknown", "any") is None
    assert turns_allowed("unknown", "along width") == ()
    assert turns_allowed("a", "along width") == turns_allowed("b", "along height")
    strip = outline([(0, 0), (180 * MM, 0), (180 * MM, 35 * MM), (0, 35 * MM)])
    ground, blank = Ground(HOLED), Blank(strip)
    along = lay(ground, blank, turns_allowed("a", "along width"))
    assert along is not None and along.angle in (0, 2 * QUARTER)
    assert lay(ground, blank, turns_allowed("b", "along width")) is None
    assert lay(ground, blank, ()) is None


@pytest.mark.parametrize("clearance", [1 * MM, 4 * MM])
def test_the_clearance_is_kept(clearance: int) -> None:
    room = 100 * MM - 2 * clearance
    fits, not_quite = (
        rectangle(room - 20_000, room - 20_000, clearance),
        rectangle(room + 20_000, room - 20_000, clearance),
    )
    found = lay(Ground(SQUARE), fits)
    assert found is not None
    assert polygon(SQUARE).exterior.distance(Polygon(found.ring)) >= clearance
    assert lay(Ground(SQUARE), not_quite) is None


@pytest.mark.parametrize("seed", [11, 12])
def test_planted_blanks_are_found_and_every_yes_is_real(seed: int) -> None:
    draw = Random(seed)
    asked = missed = 0
    before: Outline | None = None
    for _, metal in islice(outlines(seed, 30), 30):
        blank = planted(draw, metal, draw.choice((0.6, 2.0)), draw.choice((0.5, 0.97)))
        if blank is None:
            continue
        asked += 1
        found = lay(Ground(metal), Blank(blank))
        missed += found is None
        assert found is None or real(metal, blank, found)
        if before is not None:
            other = lay(Ground(before), Blank(blank))
            assert other is None or real(before, blank, other)
        before = metal
    assert asked > 20 and missed == 0


def test_the_curve_says_yes_and_no_as_the_search_does() -> None:
    draw = Random(5)
    said = {"yes": 0, "no": 0}
    kept = [(metal, measure(metal)) for _, metal in islice(outlines(5, 8), 8)]
    for metal, _ in kept:
        blank = planted(draw, metal, 1.0)
        if blank is None:
            continue
        ready, own = Blank(blank), measure(blank)
        for other, curve in kept:
            ground = Ground(other)
            if found := granted(curve, ground, ready, None):
                said["yes"] += 1
                assert real(other, blank, found)
                assert not denied(curve, ready, own, None)
            elif denied(curve, ready, own, None):
                said["no"] += 1
                assert lay(ground, ready) is None
    assert said["yes"] > 5 and said["no"] > 5


def test_two_thousand_points_are_answered_all_the_same() -> None:
    draw = Random(2)

    def rough(number: int, reach: int) -> Outline:
        out = [reach * (1 + 0.05 * draw.random()) for _ in range(number)]
        turn = 2 * math.pi / number
        return outline(
            [
                (round(far * math.cos(n * turn)), round(far * math.sin(n * turn)))
                for n, far in enumerate(out)
            ]
        )

    large, small = rough(1000, 300 * MM), rough(1000, 200 * MM)
    found = lay(Ground(large), Blank(small))
    assert found is not None and real(large, small, found)
    assert lay(Ground(small), Blank(large)) is None
