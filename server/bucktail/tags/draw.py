"""The QR symbol of a tag: how large its squares are on a given printer, and drawing them.

Everything on paper is reckoned in printer dots, whole numbers counted from the top left corner
of the page, so that every square of a symbol is the same number of dots wide. A dot is 25.4 mm
divided by the printer's dots an inch (203, 300 or 600, taken as exactly that number: it is what
printer drivers rasterise at).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import qrcode
from fpdf import FPDF
from qrcode.constants import ERROR_CORRECT_H, ERROR_CORRECT_Q
from qrcode.util import MODE_8BIT_BYTE, MODE_ALPHA_NUM, QRData

from bucktail.tags.ink import fill
from bucktail.tags.payload import read_payload

MM_AN_INCH = 25.4
RESOLUTIONS = (203, 300, 600)
CODE_MODULES = 21  # version 1; at level H it takes ten characters (ISO/IEC 18004, from memory)
CODE_LEVEL = ERROR_CORRECT_H
# a longer payload at H needs smaller squares; on our frames address symbols read better at Q
ADDRESS_LEVEL = ERROR_CORRECT_Q

Matrix = tuple[tuple[bool, ...], ...]


class CannotPrint(ValueError):
    """A label cannot be printed as asked; the message says why and what would do."""


@dataclass(frozen=True)
class Size:
    """A size of tag, by the square its symbol and quiet zone have to fit into.

    `quiet` is the white border in modules: four by ISO/IEC 18004, two on tiny tags, which read
    no worse on white label stock in our own frames. `code_points` and `text_points` are the
    largest type used beside the symbol.
    """

    name: str
    square_least_mm: float
    square_most_mm: float
    module_least_mm: float
    quiet: int
    code_points: float
    text_points: float
    takes_address: bool


SIZES = {
    size.name: size
    for size in (
        Size("tiny", 10, 12, 0.33, 2, 9, 7, False),
        Size("normal", 20, 25, 0.5, 4, 16, 11, True),
        Size("bin", 40, 60, 1.1, 4, 32, 20, True),
    )
}


@dataclass(frozen=True)
class Symbol:
    """One symbol's measure on paper: modules a side, quiet modules, dots a module."""

    modules: int
    quiet: int
    dots: int
    dpi: int

    @property
    def side_dots(self) -> int:
        """Printed side with its quiet zone, in dots."""
        return (self.modules + 2 * self.quiet) * self.dots

    @property
    def side_mm(self) -> float:
        """Printed side with its quiet zone, in millimetres."""
        return self.side_dots * MM_AN_INCH / self.dpi

    @property
    def module_mm(self) -> float:
        """Side of one module in millimetres."""
        return self.dots * MM_AN_INCH / self.dpi


def dots_below(millimetres: float, dpi: int) -> int:
    """The most whole dots that fit into a length in millimetres."""
    return int(millimetres * dpi / MM_AN_INCH + 1e-6)


def dots_above(millimetres: float, dpi: int) -> int:
    """The fewest whole dots that are at least a length in millimetres."""
    return -int(-(millimetres * dpi / MM_AN_INCH - 1e-6) // 1)


def dots_near(millimetres: float, dpi: int) -> int:
    """A length in millimetres as the nearest whole dot."""
    return int(millimetres * dpi / MM_AN_INCH + 0.5)


def least_symbol(modules: int, quiet: int, module_least_mm: float, dpi: int) -> Symbol:
    """The smallest symbol whose modules are whole dots and at least `module_least_mm`."""
    return Symbol(modules, quiet, dots_above(module_least_mm, dpi), dpi)


def largest_symbol(size: Size, modules: int, square_mm: float, dpi: int) -> Symbol | None:
    """The largest symbol for this size of tag that fits a square; None when none does.

    The square counts up to the size's own most; a square below its least, or modules below the
    size's least module, are no symbol of that size.
    """
    if square_mm < size.square_least_mm - 1e-6:
        return None
    square = dots_below(min(square_mm, size.square_most_mm), dpi)
    dots = square // (modules + 2 * size.quiet)
    if dots < dots_above(size.module_least_mm, dpi):
        return None
    return Symbol(modules, size.quiet, dots, dpi)


def least_square_mm(size: Size, modules: int, dpi: int) -> float:
    """The smallest square that takes a symbol of this size of tag, in millimetres.

    Raises CannotPrint when the symbol needs more than the size allows.
    """
    least = least_symbol(modules, size.quiet, size.module_least_mm, dpi).side_mm
    if least > size.square_most_mm:
        raise CannotPrint(
            f"With this address the symbol has {modules} squares a side and needs "
            f"{least:.1f} mm, more than the {size.square_most_mm:.0f} mm of a {size.name} tag. "
            "Use a shorter address, a larger size, or the code alone."
        )
    return max(least, size.square_least_mm)


def payload(code: str, address: str = "") -> str:
    """What the symbol holds: the code alone, or `address`/tag/CODE.

    `address` is where the workshop answers, such as https://bench.local:8443. Raises
    CannotPrint when a camera could not take the result for this tag.
    """
    if not address:
        return code
    text = f"{address.rstrip('/')}/tag/{code}"
    if not text.isascii() or any(ch <= " " or ch == "\x7f" for ch in text):
        raise CannotPrint(
            "The address may hold only plain letters, figures and signs, without spaces."
        )
    if read_payload(text).code != code or not text.startswith(("http://", "https://")):
        raise CannotPrint(
            "The address must begin with https:// (or http://), in small letters, then the name "
            "of the workshop's computer, and have no ? or # in it, such as "
            "https://bench.local:8443"
        )
    return text


@lru_cache(maxsize=256)
def matrix(code: str, address: str = "") -> Matrix:
    """The modules of a tag's symbol, rows from the top, True where dark, no quiet zone.

    The bare code is version 1, level H, alphanumeric mode; an address is level Q, the version
    as long as it needs. Raises CannotPrint for an address no symbol can hold.
    """
    held = payload(code, address)
    symbol = qrcode.QRCode(error_correction=ADDRESS_LEVEL if address else CODE_LEVEL, border=0)
    before = held[: -len(code)]
    if before:
        symbol.add_data(QRData(before.encode("ascii"), mode=MODE_8BIT_BYTE), optimize=0)
    symbol.add_data(QRData(code.encode("ascii"), mode=MODE_ALPHA_NUM), optimize=0)
    try:
        symbol.make(fit=True)
    except (qrcode.exceptions.DataOverflowError, ValueError) as error:
        raise CannotPrint("The address is too long for a QR code: use a shorter one.") from error
    return tuple(tuple(bool(dark) for dark in row) for row in symbol.get_matrix())


def draw_symbol(pdf: FPDF, modules: Matrix, symbol: Symbol, left: int, top: int) -> None:
    """Draw the symbol, `left` and `top` being the corner of its quiet zone in dots."""
    dots = symbol.dots
    left, top = left + symbol.quiet * dots, top + symbol.quiet * dots
    fill(
        pdf,
        symbol.dpi,
        (
            (left + start * dots, top + row * dots, length * dots, dots)
            for row, cells in enumerate(modules)
            for start, length in _dark_runs(cells)
        ),
    )


def _dark_runs(cells: tuple[bool, ...]) -> list[tuple[int, int]]:
    """Runs of dark cells in a row as (first, how many)."""
    runs: list[tuple[int, int]] = []
    for place, dark in enumerate(cells):
        if not dark:
            continue
        if runs and sum(runs[-1]) == place:
            runs[-1] = (runs[-1][0], runs[-1][1] + 1)
        else:
            runs.append((place, 1))
    return runs
