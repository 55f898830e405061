"""Whether a blank fits, against a brute search that shares nothing with the formula.

Published: Mathematics Magazine 73 (2000), page 204: a rectangle with sides 9 and 4 does not fit in
one with sides 8 and 6, although area, diagonal, perimeter and width all say it could.
"""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bucktail.offcuts.rectangle import LONGEST_NM, Placement, fits, place
from bucktail.offcuts.vectors import tightest

IN = 25_400_000
MM = 1_000_000

SIDE = st.one_of(
    st.integers(1, 60),
    st.integers(1, 40).map(lambda n: n * IN // 8),
    st.integers(1, LONGEST_NM),
)
# sheets and blanks that are near one another, where an askew fit is possible
NEAR = st.tuples(st.integers(200, 5000), st.integers(200, 5000), st.floats(1, 1.5))

STEPS = 20_000
ANGLES = np.linspace(0, math.pi / 2, STEPS + 1)
COS, SIN = np.cos(ANGLES), np.sin(ANGLES)


def least_overhang(p: int, q: int, a: int, b: int) -> float:
    """By how much the blank sticks out at the best of a fine grid of angles; 0 or less: it fits."""
    over_a = p * COS + q * SIN - a
    over_b = p * SIN + q * COS - b
    return float(np.maximum(over_a, over_b).min())


def check_against_every_angle(p: int, q: int, a: int, b: int) -> None:
    overhang, size = least_overhang(p, q, a, b), math.hypot(p, q)
    step = math.pi / 2 / STEPS
    if fits(p, q, a, b):
        assert overhang <= size * step, "claimed, but sticks out at every angle"
    else:
        assert overhang > -size * 1e-12, "denied, but fits at an angle of the grid"


def test_the_printed_example_does_not_fit() -> None:
    assert not fits(9, 4, 8, 6)
    assert 9 * 4 < 8 * 6 and 9 + 4 < 8 + 6 and 9 * 9 + 4 * 4 < 8 * 8 + 6 * 6 and 4 < 6


@pytest.mark.parametrize("unit", [1, MM, IN])
def test_a_square_does_not_fit_in_a_smaller_square(unit: int) -> None:
    # here the inequality alone holds (0 >= 0); the width decides
    assert not fits(10 * unit, 10 * unit, 8 * unit, 8 * unit)


@pytest.mark.parametrize("unit", [1, MM, IN])
@pytest.mark.parametrize(("c", "s", "r"), [(4, 3, 5), (12, 5, 13), (15, 8, 17), (24, 7, 25)])
def test_an_askew_fit_to_the_nanometre_is_found_and_one_less_is_not(
    unit: int, c: int, s: int, r: int
) -> None:
    # at the angle whose cosine is c/r and sine s/r the blank 8 r x r needs exactly a x b
    p, q, a, b = 8 * r * unit, r * unit, (8 * c + s) * unit, (8 * s + c) * unit
    assert p > a > b
    assert fits(p, q, a, b) and fits(q, p, b, a)
    assert not fits(p, q, a, b - 1)
    assert not fits(p + 1, q, a, b)


@pytest.mark.parametrize("clearance", [0, 1, IN // 16])
def test_a_square_fit_to_the_nanometre_is_found_and_one_less_is_not(clearance: int) -> None:
    w, h = 4 * IN, 3 * IN
    a, b = w + 2 * clearance, h + 2 * clearance
    assert place(w, h, a, b, clearance) is not None
    assert place(w, h, b, a, clearance) is not None
    assert place(w + 1, h, a, b, clearance) is None
    assert place(w, h, a, b, clearance + 1) is None


@given(SIDE, SIDE, SIDE, SIDE)
def test_any_answer_agrees_with_a_search_over_the_angles(p: int, q: int, a: int, b: int) -> None:
    check_against_every_angle(p, q, a, b)


@settings(max_examples=300)
@given(NEAR, st.integers(1, 3000))
def test_near_fits_agree_with_a_search_over_the_angles(
    sheet: tuple[int, int, float], q: int
) -> None:
    a, b, longer = sheet
    check_against_every_angle(int(max(a, b) * longer), q, a, b)


@settings(max_examples=300)
@given(NEAR)
def test_the_tightest_blank_fits_and_the_next_does_not(sheet: tuple[int, int, float]) -> None:
    a, b, longer = sheet
    p = int(max(a, b) * longer) + 1
    q = tightest(p, a, b)
    assume(q > 0)
    assert fits(p, q, a, b) and not fits(p, q + 1, a, b)
    check_against_every_angle(p, q, a, b)
    check_against_every_angle(p, q + 1, a, b)


@given(st.integers(1, 60), st.integers(1, 60), SIDE, SIDE, st.integers(1, 40), st.integers(2, 40))
def test_what_fits_at_an_exact_angle_is_never_denied(
    p: int, q: int, a: int, b: int, m: int, n: int
) -> None:
    # cosine and sine as exact fractions from m and n, the blank's room reckoned without rounding
    cos, sin = Fraction(abs(n * n - m * m), n * n + m * m), Fraction(2 * m * n, n * n + m * m)
    if p * cos + q * sin <= a and p * sin + q * cos <= b:
        assert fits(p, q, a, b)


@given(st.integers(1, 60), st.integers(1, 60), st.integers(1, 60), st.integers(1, 60))
def test_another_form_of_the_condition_agrees(p: int, q: int, a: int, b: int) -> None:
    p, q, a, b = max(p, q), min(p, q), max(a, b), min(a, b)
    assume(p > a and p > q)
    other = Fraction(a + b, p + q) ** 2 + Fraction(a - b, p - q) ** 2 >= 2
    assert fits(p, q, a, b) == (q <= b and other)


@given(SIDE, SIDE, SIDE, SIDE, st.integers(0, 10**9), st.integers(0, 10**9))
def test_a_smaller_blank_or_a_larger_sheet_never_fits_worse(
    p: int, q: int, a: int, b: int, less: int, more: int
) -> None:
    if fits(p, q, a, b):
        assert fits(max(p - less, 1), q, a, b)
        assert fits(p, max(q - less, 1), a, b)
        assert fits(p, q, min(a + more, LONGEST_NM), b)
        assert fits(p, q, a, min(b + more, LONGEST_NM))


@given(*[st.integers(1, 390)] * 4)
def test_inch_and_millimetre_agree(p: int, q: int, a: int, b: int) -> None:
    assert fits(p * IN, q * IN, a * IN, b * IN) == fits(p * MM, q * MM, a * MM, b * MM)


@given(SIDE, SIDE, SIDE, SIDE)
def test_neither_blank_nor_sheet_has_a_first_side(p: int, q: int, a: int, b: int) -> None:
    assert fits(p, q, a, b) == fits(q, p, a, b) == fits(p, q, b, a)


def check_witness(found: Placement, w: int, h: int, a: int, b: int, clearance: int) -> None:
    """The corners lie in the sheet, the clearance away, and make the blank to a few nm."""
    xs, ys = [x for x, _ in found.corners], [y for _, y in found.corners]
    assert min(xs) >= clearance and max(xs) <= a - clearance
    assert min(ys) >= clearance and max(ys) <= b - clearance
    slip = 2 if found.laid == "askew" else 0
    sides = [math.dist(found.corners[n], found.corners[(n + 1) % 4]) for n in range(4)]
    for side, wanted in zip(sides, (w, h, w, h), strict=True):
        assert abs(side - wanted) <= slip
    for n in (0, 1):
        assert abs(math.dist(found.corners[n], found.corners[n + 2]) - math.hypot(w, h)) <= slip + 1
    (x0, y0), (x1, y1) = found.corners[:2]
    angle = math.degrees(math.atan2(abs(y1 - y0), abs(x1 - x0)))
    # a whole nanometre at the end of a very short side can be a large angle
    assert abs(angle - found.tenths / 10) <= 0.06 + math.degrees(2 / w)


@given(SIDE, SIDE, SIDE, SIDE, st.sampled_from([0, 1, MM, IN // 16]))
def test_the_placement_is_where_the_blank_really_lies(
    w: int, h: int, a: int, b: int, clearance: int
) -> None:
    found = place(w, h, a, b, clearance)
    room = min(a, b) - 2 * clearance
    possible = room > 0 and fits(w, h, a - 2 * clearance, b - 2 * clearance)
    assert (found is not None) == possible
    if found:
        check_witness(found, w, h, a, b, clearance)


@settings(max_examples=300)
@given(NEAR, st.sampled_from([1, 1000, MM]), st.integers(0, 3), st.integers(0, 9))
def test_a_blank_laid_askew_to_the_nanometre_lies_inside(
    sheet: tuple[int, int, float], unit: int, turn: int, clearance: int
) -> None:
    a, b = sheet[0] * unit, sheet[1] * unit
    p = int(max(a, b) * sheet[2]) + 1
    assume(p <= LONGEST_NM)
    q = tightest(p, a, b)
    assume(q > 0)
    w, h = (p, q) if turn & 1 else (q, p)
    found = place(w, h, a + 2 * clearance, b + 2 * clearance, clearance)
    assert found is not None and found.laid == "askew"
    check_witness(found, w, h, a + 2 * clearance, b + 2 * clearance, clearance)


@given(SIDE, SIDE, SIDE, SIDE)
def test_with_the_grain_asked_for_only_one_way_is_allowed(w: int, h: int, a: int, b: int) -> None:
    along_a = place(w, h, a, b, way="width along a")
    along_b = place(w, h, a, b, way="width along b")
    assert (along_a is not None) == (w <= a and h <= b)
    assert (along_b is not None) == (w <= b and h <= a)
    assert along_a is None or along_a.tenths == 0
    assert along_b is None or along_b.tenths == 900


@pytest.mark.parametrize(
    "wrong",
    [
        {"width": 0},
        {"height": -1},
        {"a": LONGEST_NM + 1},
        {"clearance": -1},
        {"least_useful": -1},
        {"way": "along the diagonal"},
    ],
)
def test_what_is_no_size_is_refused(wrong: dict[str, object]) -> None:
    sizes: dict[str, object] = {"width": 1, "height": 1, "a": 2, "b": 2}
    with pytest.raises(ValueError, match=r"side|clearance"):
        place(**{**sizes, **wrong})
