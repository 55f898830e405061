"""What the proof lets pass really stays in the metal, and what leaves it is not let pass."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from bucktail.offcuts.fitting.curve import DEGREE, Piece, Witness
from bucktail.offcuts.fitting.knots import Prover

#: um: 100 x 80 mm with a hole of 10 x 10 in the middle of its right half
OUTER = [(0.0, 0.0), (100_000.0, 0.0), (100_000.0, 80_000.0), (0.0, 80_000.0)]
HOLE = [(70_000.0, 35_000.0), (70_000.0, 45_000.0), (80_000.0, 45_000.0), (80_000.0, 35_000.0)]
METAL = Polygon(OUTER, [HOLE])
PROVER = Prover([OUTER, HOLE])


def piece(angle: float, start: tuple[int, ...], end: tuple[int, ...], angle1: float) -> Piece:
    """Angles in degrees; start and end: w, h, x, y."""
    return Piece.of([round(angle * DEGREE), *start, *end, round(angle1 * DEGREE)])


@pytest.mark.parametrize(
    ("name", "move", "stays"),
    [
        ("still", piece(0, (9_000, 9_000, 10, 10), (9_000, 9_000, 10, 10), 0), True),
        ("grows", piece(0, (60_000, 70_000, 9, 9), (69_900, 70_000, 9, 9), 0), True),
        ("grows into the hole", piece(0, (60_000, 70_000, 9, 9), (70_100, 70_000, 9, 9), 0), False),
        ("slides over the hole", piece(0, (5_000, 5_000, 60_000, 38_000),
                                       (5_000, 5_000, 90_000, 38_000), 0), False),
        ("slides past the hole", piece(0, (5_000, 5_000, 60_000, 29_000),
                                       (5_000, 5_000, 90_000, 29_000), 0), True),
        ("turns in the open", piece(0, (20_000, 9_000, 30_000, 30_000),
                                    (20_000, 9_000, 30_000, 30_000), 40), True),
        ("turns out at the edge", piece(0, (20_000, 9_000, 10, 10),
                                        (20_000, 9_000, 10, 10), 3), False),
        ("swings out and in", piece(-60, (60_000, 500, 38_000, 62_000),
                                    (60_000, 500, 38_000, 62_000), 60), False),
        ("outside", piece(0, (9_000, 9_000, 200_000, 0), (9_000, 9_000, 200_000, 0), 0), False),
        ("in the hole", piece(0, (9_000, 9_000, 70_500, 35_500),
                              (9_000, 9_000, 70_500, 35_500), 0), False),
        ("round the hole", piece(0, (90_000, 70_000, 5_000, 5_000),
                                 (90_000, 70_000, 5_000, 5_000), 0), False),
    ],
)  # fmt: skip
def test_moves(name: str, move: Piece, stays: bool) -> None:
    assert PROVER.proves(move) is stays, name


LENGTH = st.integers(50, 60_000)
PLACE = st.integers(0, 90_000)
STAND = st.tuples(LENGTH, LENGTH, PLACE, PLACE)


@settings(max_examples=600)
@given(STAND, STAND, st.floats(0, 180), st.floats(-25, 25))
def test_what_is_proved_stays_in_at_every_moment(
    start: tuple[int, ...], end: tuple[int, ...], angle: float, turn: float
) -> None:
    move = piece(angle, start, end, angle + turn)
    if not PROVER.proves(move):
        return
    for n in range(41):
        share = n / 40
        w, h, x, y = (a + (b - a) * share for a, b in zip(start, end, strict=True))
        stand = Witness(w, h, x, y, (move.angle + (move.angle1 - move.angle) * share) / DEGREE)
        assert shapely.covers(METAL, Polygon(stand.corners))


@settings(max_examples=300)
@given(STAND, st.floats(0, 180))
def test_a_rectangle_well_inside_is_proved(stand: tuple[int, ...], angle: float) -> None:
    move = piece(angle, stand, stand, angle)
    place = Witness(*map(float, stand), move.angle / DEGREE)
    grown = Polygon(place.corners).buffer(1, join_style="mitre")
    if METAL.covers(grown):
        assert PROVER.proves(move)
    if not METAL.covers(Polygon(place.corners)):
        assert not PROVER.proves(move)


def test_the_bound_on_turning_is_needed() -> None:
    """A long rectangle that fits at both ends of a turn and at its middle sticks out between."""
    channel = [(0.0, 0.0), (100_000.0, 0.0), (100_000.0, 2_000.0), (0.0, 2_000.0)]
    turn = math.degrees(math.atan2(1_500, 90_000))
    move = piece(0, (90_000, 400, 100, 10), (90_000, 400, 100, 10), turn)
    assert Prover([channel]).proves(move)
    wider = piece(0, (90_000, 600, 100, 10), (90_000, 600, 100, 10), turn)
    assert not Prover([channel]).proves(wider)
