"""Codes to print, and PDFs turned into the dots a printer would put down."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
import zxingcpp

from bucktail.tags.code import new_code
from bucktail.tags.vectors import fixed_draws

Dots = npt.NDArray[np.uint8]


@pytest.fixture(scope="session")
def codes() -> list[str]:
    draw = fixed_draws("codes to print")
    made: list[str] = []
    while len(made) < 200:
        made.append(new_code(draw, made))
    return made


@dataclass(frozen=True)
class Symbol:
    """One symbol read back: its text, and the box in dots round it."""

    text: str
    left: int
    top: int
    right: int
    bottom: int


def to_dots(pdf: bytes, dpi: int) -> list[Dots]:
    """Every page in grey (0 black), one pixel a printer dot, as a printer driver rasterises."""
    pages: list[Dots] = []
    for page in (document := pypdfium2.PdfDocument(pdf)):
        width, height = (round(side * dpi / 72) for side in page.get_size())
        bitmap = pypdfium2.PdfBitmap.new_native(width, height, pdfium.FPDFBitmap_Gray)
        bitmap.fill_rect((255, 255, 255, 255), 0, 0, width, height)
        pdfium.FPDF_RenderPageBitmap(bitmap, page, 0, 0, width, height, 0, 0)
        pages.append(bitmap.to_numpy().reshape(height, width).copy())
    document.close()
    return pages


def symbols_on(dots: Dots) -> list[Symbol]:
    """Every QR symbol on a page, in reading order."""
    found = []
    for read in zxingcpp.read_barcodes(dots, formats=zxingcpp.BarcodeFormat.QRCode):
        corners = (
            read.position.top_left,
            read.position.top_right,
            read.position.bottom_left,
            read.position.bottom_right,
        )
        across, down = [corner.x for corner in corners], [corner.y for corner in corners]
        found.append(Symbol(read.text, min(across), min(down), max(across), max(down)))
    return sorted(found, key=lambda each: (round(each.top / 50), each.left))


@pytest.fixture(scope="session")
def rasterise() -> Callable[[bytes, int], list[Dots]]:
    return to_dots


@pytest.fixture(scope="session")
def read_symbols() -> Callable[[Dots], list[Symbol]]:
    return symbols_on
