"""What cutting a blank spoils: offcut - blank - the largest useful rectangle that is left."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bucktail.offcuts.rectangle import LEAST_USEFUL_NM, Placement, place

IN = 25_400_000
UM = 1000
SQ_IN_UM2 = 25_400 * 25_400


def cut(w: int, h: int, a: int, b: int, clearance: int = 0, useful: int = 1) -> Placement:
    found = place(w * IN, h * IN, a * IN, b * IN, clearance, least_useful=useful * IN)
    assert found is not None
    return found


# worked by hand, in inches: blank, offcut, left, spoiled square inches
@pytest.mark.parametrize(
    ("blank", "offcut", "laid", "left", "spoiled"),
    [
        # 4 along the 12 leaves 8 x 6, spoils 72 - 12 - 48 = 12; 3 along it leaves 9 x 6, spoils 6
        ((4, 3), (12, 6), "width along b", (9, 6), 6),
        # a strip cut straight across spoils nothing
        ((4, 6), (12, 6), "width along a", (8, 6), 0),
        # the whole offcut used spoils nothing and leaves nothing
        ((12, 6), (12, 6), "width along a", (0, 0), 0),
        # square against square: either cut leaves 8 x 12
        ((4, 4), (12, 12), "width along a", (8, 12), 144 - 16 - 96),
    ],
)
def test_worked_by_hand(
    blank: tuple[int, int],
    offcut: tuple[int, int],
    laid: str,
    left: tuple[int, int],
    spoiled: int,
) -> None:
    found = cut(*blank, *offcut)
    assert found.laid == laid
    assert found.left == (left[0] * IN, left[1] * IN)
    assert found.spoiled == spoiled * SQ_IN_UM2


def test_a_remainder_too_narrow_to_use_is_spoiled() -> None:
    # a strip 1 in wide counts at a least width of 1 in, and not at 2 in
    assert cut(4, 5, 5, 5).spoiled == 0
    assert cut(4, 5, 5, 5, useful=2).spoiled == 5 * SQ_IN_UM2


def test_a_tight_small_offcut_spoils_less_than_a_bite_out_of_a_large_one() -> None:
    tight, large = cut(4, 3, 5, 4, useful=2), cut(4, 3, 24, 24, useful=2)
    assert tight.spoiled < large.spoiled


def test_the_clearance_is_used_up_round_the_blank() -> None:
    found = place(4 * IN, 6 * IN - IN // 8, 12 * IN, 6 * IN, IN // 16)
    assert found is not None
    assert found.left == (8 * IN - IN // 8, 6 * IN)


def test_laid_askew_the_corners_count_as_spoiled() -> None:
    found = cut(20, 1, 19, 16, useful=1)
    assert found.laid == "askew"
    width = found.left
    assert found.spoiled == (19 * 16 - 20) * SQ_IN_UM2 - width[0] // UM * (width[1] // UM)
    # the strip that is counted begins where the blank ends
    assert max(x for x, _ in found.corners) + (width[0] if width[1] == 16 * IN else 0) <= 19 * IN
    assert max(y for _, y in found.corners) + (width[1] if width[0] == 19 * IN else 0) <= 16 * IN


def best_left(w: int, h: int, a: int, b: int) -> int:
    """Largest upright rectangle left, over every place of the blank in whole steps."""
    best = 0
    for p, q in {(w, h), (h, w)}:
        for x, y in product(range(a - p + 1), range(b - q + 1)):
            best = max(best, x * b, (a - x - p) * b, a * y, a * (b - y - q))
    return best


@settings(max_examples=200)
@given(*[st.integers(1, 9)] * 4)
def test_no_other_place_square_on_the_sheet_spoils_less(w: int, h: int, a: int, b: int) -> None:
    found = place(w * UM, h * UM, a * UM, b * UM, least_useful=1)
    if found is None or found.laid == "askew":
        assert not ((w <= a and h <= b) or (w <= b and h <= a))
    else:
        assert found.left[0] // UM * (found.left[1] // UM) == best_left(w, h, a, b)
        assert found.spoiled == a * b - w * h - best_left(w, h, a, b)


@given(*[st.integers(1, 10**9)] * 4)
def test_what_is_spoiled_and_what_is_left_stay_inside_the_offcut(
    w: int, h: int, a: int, b: int
) -> None:
    found = place(w, h, a, b)
    if found:
        assert 0 <= found.spoiled <= (a // UM) * (b // UM)
        assert found.left == (0, 0) or (
            found.left[0] <= a and found.left[1] <= b and min(found.left) >= LEAST_USEFUL_NM
        )
