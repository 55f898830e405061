"""What a fit curve says of plain shapes, and how it is written down."""

from __future__ import annotations

import math

import pytest

from bucktail.offcuts.fitting import Curve, Piece, measure
from bucktail.offcuts.outline import outline

MM = 1_000_000
UM_PER_MM = 1000


def shape(*points: tuple[float, float]) -> Curve:
    """The curve of an outline in mm."""
    return measure(outline([(round(x * MM), round(y * MM)) for x, y in points]))


@pytest.fixture(scope="module")
def sheet() -> Curve:
    """300 x 200 mm."""
    return shape((0, 0), (300, 0), (300, 200), (0, 200))


@pytest.mark.parametrize(
    ("w", "h", "way", "fits"),
    [
        (299.7, 199.7, "any", True),
        (199.7, 299.7, "any", True),
        (300.1, 199, "any", False),
        (299.7, 199.7, "along", True),
        (199.7, 299.7, "along", False),
        (199.7, 299.7, "across", True),
        (300.1, 10, "along", False),
        (330, 33, "any", True),
        (360.6, 1, "any", False),
    ],
)
def test_a_plain_sheet(sheet: Curve, w: float, h: float, way: str, fits: bool) -> None:
    assert sheet.claims(round(w * UM_PER_MM), round(h * UM_PER_MM), way) is fits


def test_the_diagonal_of_a_sheet_is_found_at_its_angle(sheet: Curve) -> None:
    # a strip of width h from corner to corner at the angle t: w = (300 - h sin t) / cos t
    for degrees in (30, 32):
        sin, cos = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
        h = (200 * cos - 300 * sin) / (cos * cos - sin * sin)
        w = (300 - h * sin) / cos
        w_um, h_um = round((w - 0.4) * UM_PER_MM), round((h - 0.4) * UM_PER_MM)
        assert sheet.claims(w_um, h_um)
        assert not sheet.claims(w_um + 900, h_um + 900)


def test_of_an_ell_either_leg_is_found() -> None:
    ell = shape((0, 0), (400, 0), (400, 80), (120, 80), (120, 300), (0, 300))
    assert ell.claims(399_700, 79_700) and ell.claims(299_700, 119_700)
    assert not ell.claims(299_700, 121_000)
    assert ell.claims(119_700, 299_700, "along") and not ell.claims(299_700, 119_700, "along")


def test_along_the_grain_a_tall_narrow_leg_is_kept_beside_a_broad_one() -> None:
    broad = shape((0, 0), (400, 0), (400, 150), (120, 150), (120, 300), (0, 300))
    assert broad.claims(119_700, 299_700, "along") and broad.claims(1_000, 299_700, "along")
    assert broad.claims(399_700, 149_700, "along") and not broad.claims(121_000, 200_000, "along")


def test_a_hole_is_kept_clear_of() -> None:
    square = [(0, 0), (100, 0), (100, 100), (0, 100)]
    hole = [(45, 45), (55, 45), (55, 55), (45, 55)]
    holed = measure(
        outline([(x * MM, y * MM) for x, y in square], [[(x * MM, y * MM) for x, y in hole]])
    )
    assert holed.area_um2 == 9900 * UM_PER_MM**2
    assert holed.claims(99_700, 44_700) and not holed.claims(99_700, 45_100)


def test_a_curve_is_read_back_as_it_was_written(sheet: Curve) -> None:
    assert Curve.from_json(sheet.to_json()) == sheet
    assert sheet.to_json().startswith('{"along":[[0,')
    for text in ("{}", "[]", '{"v":2,"any":[],"along":[],"area_um2":1}'):
        with pytest.raises(ValueError, match="version"):
            Curve.from_json(text)


def test_a_piece_that_does_not_turn_is_nine_numbers() -> None:
    nine = [30_000_000, 1, 2, 3, 4, 5, 6, 7, 8]
    assert Piece.of(nine).numbers == nine
    assert Piece.of([*nine, 31_000_000]).numbers == [*nine, 31_000_000]
    with pytest.raises(ValueError, match="numbers"):
        Piece.of(nine[1:])


def test_a_rectangle_on_its_side_is_placed_within_the_sheet(sheet: Curve) -> None:
    for way in ("any", "across"):
        found = sheet.witness(150_000, 250_000, way)
        assert found is not None
        for x, y in found.corners:
            assert 0 <= x <= 300_000 and 0 <= y <= 200_000
    assert sheet.witness(290_000, 290_000) is None


def test_no_size_is_refused(sheet: Curve) -> None:
    for w, h, way in ((0, 5, "any"), (5, -1, "along"), (5, 5, "aslant")):
        with pytest.raises(ValueError, match="above zero"):
            sheet.claims(w, h, way)
