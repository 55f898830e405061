"""No claim of a fit curve is false: every rectangle claimed lies in the metal.

The normal run asks a few thousand times, the long run a million, of outlines with and without
holes at all angles, half of the questions within 0.3 mm of the curve. Two checkers that share
nothing with the kernel: shapely's exact predicates, and plain fractions.
"""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest

from bucktail.offcuts.fitting import Curve, measure
from bucktail.offcuts.fitting.curve import Piece
from bucktail.offcuts.outline import Outline
from running.fitting import check_claims, exactly_inside
from running.outlines import KINDS, outlines


def curves(seed: int, number: int) -> list[tuple[Outline, Curve]]:
    """Invented outlines, each with its curve."""
    return [(made, measure(made)) for _, made in outlines(seed, number)]


def test_nothing_false_is_claimed_of_fresh_outlines() -> None:
    draw = Random(11)
    counts = [check_claims(made, curve, 250, draw) for made, curve in curves(11, 10)]
    assert sum(one.claimed for one in counts) > 1000
    assert sum(one.false for one in counts) == 0


@pytest.mark.long
@pytest.mark.parametrize("seed", range(10))
def test_nothing_false_is_claimed_a_million_times(seed: int) -> None:
    draw = Random(seed)
    for made, curve in curves(1000 + seed, 50):
        assert check_claims(made, curve, 2000, draw).false == 0


def test_plain_fractions_say_the_same() -> None:
    draw = Random(3)
    for made, curve in curves(3, 6):
        for piece in draw.sample(curve.any, min(4, len(curve.any))):
            w = draw.randint(piece.w0, piece.w1)
            h = int(piece.h0 + (piece.h1 - piece.h0) * piece.share(w))
            place = curve.witness(w, max(h, 1))
            assert place and exactly_inside(made, place)
            # and they can say no
            assert not exactly_inside(made, replace(place, x=place.x + max(made.size_nm)))
            assert not exactly_inside(made, replace(place, w=max(made.size_nm) / 500))


def larger(curve: Curve, um: int) -> Curve:
    """The curve with every rectangle larger by so much, at the same corner."""
    rows = [
        tuple(
            Piece.of([p.angle, p.w0 + um, p.h0 + um, p.x0, p.y0, p.w1 + um, p.h1 + um, p.x1, p.y1])
            for p in row
        )
        for row in (curve.any, curve.along)
    ]
    return Curve(curve.area_um2, rows[0], rows[1])


def test_a_curve_that_claims_a_fifth_of_a_millimetre_too_much_is_caught() -> None:
    draw = Random(7)
    for made, curve in curves(7, 4):
        assert check_claims(made, larger(curve, 200), 400, draw).false > 0


def test_a_place_beside_the_one_that_fits_is_caught() -> None:
    draw = Random(8)
    for made, curve in curves(8, 4):
        rows = [
            tuple(replace(p, x0=p.x0 + 150, x1=p.x1 + 150, y0=p.y0 + 150) for p in row)
            for row in (curve.any, curve.along)
        ]
        assert check_claims(made, Curve(1, rows[0], rows[1]), 400, draw).false > 0


def test_the_invented_outlines_are_of_every_kind_some_with_holes() -> None:
    made = list(outlines(1, 150))
    assert {kind for kind, _ in made} == set(KINDS)
    assert sum(bool(one.holes) for _, one in made) > 15
    assert list(outlines(1, 5)) == made[:5]
