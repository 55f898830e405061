"""How large a symbol's squares are on a printer, and what the symbol holds.

The measures come from our own frames: the side of a symbol by printer and module, which sizes
of module read, and how many dots a module gets in 10 and 12 mm.
"""

from __future__ import annotations

import numpy as np
import pytest
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st

from bucktail.tags.code import with_check_symbols
from bucktail.tags.draw import (
    CODE_MODULES,
    RESOLUTIONS,
    SIZES,
    CannotPrint,
    dots_above,
    dots_below,
    dots_near,
    largest_symbol,
    least_square_mm,
    least_symbol,
    matrix,
    payload,
)
from bucktail.tags.payload import read_payload

CODE = with_check_symbols("0123WXYZ")

# (modules a side, least module) -> printed side in mm with a quiet zone of four modules at
# 203, 300 and 600 dots an inch
SIDES = {
    (21, 0.33): (10.9, 9.8, 9.8),
    (21, 0.50): (14.5, 14.7, 14.7),
    (29, 0.33): (13.9, 12.5, 12.5),
    (29, 0.50): (18.5, 18.8, 18.8),
    (33, 0.33): (15.4, 13.9, 13.9),
    (33, 0.50): (20.5, 20.8, 20.8),
}


@pytest.mark.parametrize(("wanted", "sides"), SIDES.items())
def test_the_smallest_side_by_printer(
    wanted: tuple[int, float], sides: tuple[float, float, float]
) -> None:
    modules, module_mm = wanted
    found = [least_symbol(modules, 4, module_mm, dpi).side_mm for dpi in RESOLUTIONS]
    assert [round(side, 1) for side in found] == list(sides)


@pytest.mark.parametrize(
    ("square", "dpi", "dots", "module_mm"),
    [(10, 300, 4, 0.339), (12, 300, 5, 0.423), (10, 203, 3, 0.375), (12, 203, 3, 0.375)],
)
def test_dots_a_module_on_tiny_tags(square: float, dpi: int, dots: int, module_mm: float) -> None:
    symbol = largest_symbol(SIZES["tiny"], CODE_MODULES, square, dpi)
    assert symbol and (symbol.dots, round(symbol.module_mm, 3), symbol.quiet) == (
        dots,
        module_mm,
        2,
    )


@pytest.mark.parametrize("dpi", RESOLUTIONS)
def test_modules_are_large_enough_in_every_size(dpi: int) -> None:
    for name, least in (("tiny", 0.33), ("normal", 0.5), ("bin", 1.1)):
        size = SIZES[name]
        for square in (size.square_least_mm, size.square_most_mm, 500):
            symbol = largest_symbol(size, CODE_MODULES, square, dpi)
            assert symbol and symbol.module_mm >= least
            assert symbol.side_mm <= min(square, size.square_most_mm) + 1e-6


@given(
    st.sampled_from(sorted(SIZES)),
    st.sampled_from(RESOLUTIONS),
    st.integers(1, 10).map(lambda version: 17 + 4 * version),
    st.floats(1, 100),
)
def test_the_largest_symbol_fits_and_the_next_would_not(
    name: str, dpi: int, modules: int, square: float
) -> None:
    size = SIZES[name]
    symbol = largest_symbol(size, modules, square, dpi)
    if symbol is None:
        try:
            assert square < least_square_mm(size, modules, dpi)
        except CannotPrint:
            assert least_symbol(modules, size.quiet, size.module_least_mm, dpi).side_mm > (
                size.square_most_mm
            )
        return
    usable = min(square, size.square_most_mm)
    assert symbol.side_mm <= usable + 1e-5
    assert (modules + 2 * size.quiet) * (symbol.dots + 1) * 25.4 / dpi > usable
    assert symbol.module_mm >= size.module_least_mm - 1e-6


@given(st.floats(0, 400), st.sampled_from(RESOLUTIONS))
def test_whole_dots(millimetres: float, dpi: int) -> None:
    exact = millimetres * dpi / 25.4
    below, near, above = (each(millimetres, dpi) for each in (dots_below, dots_near, dots_above))
    assert below - 1e-5 <= exact <= above + 1e-5 and above - below <= 1
    assert abs(near - exact) <= 0.5 + 1e-6


def picture(
    modules: tuple[tuple[bool, ...], ...],
) -> np.ndarray[tuple[int, int], np.dtype[np.uint8]]:
    dark = np.kron(np.array(modules, dtype=np.uint8), np.ones((4, 4), dtype=np.uint8))
    return np.pad(np.where(dark, 0, 255).astype(np.uint8), 16, constant_values=255)


def test_the_code_alone_is_version_1_level_h_alphanumeric() -> None:
    assert len(matrix(CODE)) == CODE_MODULES
    [read] = zxingcpp.read_barcodes(picture(matrix(CODE)))
    assert (read.text, read.extra["Version"], read.extra["ECLevel"]) == (CODE, "1", "H")


def test_every_code_fits_the_same_symbol(codes: list[str]) -> None:
    for code in codes[:60]:
        [read] = zxingcpp.read_barcodes(picture(matrix(code)))
        assert (read.text, len(matrix(code))) == (code, CODE_MODULES)


@pytest.mark.parametrize(
    ("address", "version"),
    [("http://10.0.0.9", "3"), ("https://bench.local:8443", "4"), ("https://a.bc/", "3")],
)
def test_an_address_symbol_opens_the_tag(address: str, version: str) -> None:
    [read] = zxingcpp.read_barcodes(picture(matrix(CODE, address)))
    assert read.text == f"{address.rstrip('/')}/tag/{CODE}" == payload(CODE, address)
    assert read_payload(read.text).code == CODE
    assert (read.extra["Version"], read.extra["ECLevel"]) == (version, "Q")


@pytest.mark.parametrize(
    ("address", "words"),
    [
        ("bench.local", "must begin with https://"),
        ("HTTPS://BENCH.LOCAL", "in small letters"),
        ("ftp://bench.local", "must begin with https://"),
        ("https://", "must begin with https://"),
        ("https://bench.local/?tag=", "no ? or #"),
        ("https://bench.local/#", "no ? or #"),
        ("https://bench local", "without spaces"),
        ("https://bänk.local", "plain letters"),
        ("https://bench.local\n", "without spaces"),
        ("https://" + "a" * 3000, "too long for a QR code"),
    ],
)
def test_an_address_no_camera_could_open_is_refused(address: str, words: str) -> None:
    with pytest.raises(CannotPrint, match=words.replace("?", r"\?")):
        matrix(CODE, address)


def test_a_long_address_that_needs_too_small_squares_is_refused() -> None:
    modules = len(matrix(CODE, "https://" + "workshop." * 20 + "local"))
    with pytest.raises(CannotPrint, match=r"needs .* mm, more than the 25 mm of a normal tag"):
        least_square_mm(SIZES["normal"], modules, 300)
    assert least_square_mm(SIZES["normal"], CODE_MODULES, 300) == 20
