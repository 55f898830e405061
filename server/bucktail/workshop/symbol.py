"""QR symbols for screens: the modules of a symbol, with its quiet zone."""

from __future__ import annotations

from qrcode.constants import ERROR_CORRECT_M
from qrcode.main import QRCode

QUIET = 2  # modules; a white margin of 2 read no worse than 4 on white stock


def modules(text: str, quiet: int = QUIET) -> list[list[bool]]:
    """`text` as a square of modules (True is dark), level M of ISO/IEC 18004."""
    symbol = QRCode(error_correction=ERROR_CORRECT_M, border=quiet)
    symbol.add_data(text)
    return [[bool(cell) for cell in row] for row in symbol.get_matrix()]


def rows_of_digits(text: str, quiet: int = 4) -> list[str]:
    """`text` as rows of "1" (dark) and "0", for a page to draw."""
    return ["".join("1" if cell else "0" for cell in row) for row in modules(text, quiet)]
