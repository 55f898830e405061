"""Paper: sheets of labels by columns x rows and millimetres, and rolls of single labels.

Label sheets are named by what a ruler shows, columns x rows and width x height, such as
3x7:63.5x38.1+2.5x0 with the gaps between columns and between rows after the plus sign. A grid
is taken to stand in the middle of its sheet. The measures of common sheets listed here are
from memory: measure yours before a long run.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bucktail.tags.draw import CannotPrint

SHEETS_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
SHEET_NAMES = {"a4": "A4", "letter": "US Letter"}
LABEL_LEAST_MM, LABEL_MOST_MM = 8.0, 300.0
MARGIN_MM = 12.0  # around a grid that is only a division of a plain sheet, to be cut


@dataclass(frozen=True)
class Grid:
    """Labels on a sheet, all in millimetres; `cut` draws marks to cut along."""

    columns: int
    rows: int
    width_mm: float
    height_mm: float
    gap_x_mm: float = 0.0
    gap_y_mm: float = 0.0
    cut: bool = False

    @property
    def name(self) -> str:
        """Such as 3x7:63.5x38.1+2.5x0, which `grid_on` reads back."""
        name = f"{self.columns}x{self.rows}:{self.width_mm:g}x{self.height_mm:g}"
        gaps = f"+{self.gap_x_mm:g}x{self.gap_y_mm:g}"
        return name if gaps == "+0x0" else name + gaps

    @property
    def labels(self) -> int:
        """Labels on one sheet."""
        return self.columns * self.rows

    @property
    def span_mm(self) -> tuple[float, float]:
        """Width and height of the whole grid."""
        return (
            self.columns * self.width_mm + (self.columns - 1) * self.gap_x_mm,
            self.rows * self.height_mm + (self.rows - 1) * self.gap_y_mm,
        )


COMMON_GRIDS = {
    "a4": (
        Grid(3, 7, 63.5, 38.1, 2.5, 0),
        Grid(3, 8, 70, 37),
        Grid(2, 4, 99.1, 67.7, 2.5, 0),
        Grid(4, 12, 45.7, 21.2, 2.5, 0),
        Grid(5, 13, 38.1, 21.2, 2.5, 0),
        Grid(7, 27, 25.4, 10, 2.5, 0),
    ),
    "letter": (
        Grid(3, 10, 66.7, 25.4, 3.2, 0),
        Grid(2, 5, 101.6, 50.8, 4.8, 0),
        Grid(4, 20, 44.5, 12.7, 7.6, 0),
    ),
}
# where no grid is asked for: common label sheets, but for tiny tags a plain sheet to be cut,
# since few printers place a sheet well enough for labels 10 mm high
USUAL_GRIDS = {
    ("a4", "tiny"): Grid(7, 20, 26, 13, cut=True),
    ("a4", "normal"): COMMON_GRIDS["a4"][0],
    ("a4", "bin"): COMMON_GRIDS["a4"][2],
    ("letter", "tiny"): Grid(7, 19, 26, 13, cut=True),
    ("letter", "normal"): COMMON_GRIDS["letter"][0],
    ("letter", "bin"): COMMON_GRIDS["letter"][1],
}

_NUMBER = r"(\d{1,3}(?:\.\d{1,3})?)"
_ROLL = re.compile(rf"{_NUMBER}[x×]{_NUMBER}(?:mm)?", re.ASCII)
_GRID = re.compile(
    rf"(\d{{1,2}})[x×](\d{{1,2}})(?::{_NUMBER}[x×]{_NUMBER}(?:mm)?"
    rf"(?:\+{_NUMBER}[x×]{_NUMBER}(?:mm)?)?)?",
    re.ASCII,
)


def roll_mm(paper: str) -> tuple[float, float] | None:
    """Width and height of a single label such as 50x25mm; None when `paper` names a sheet.

    Raises CannotPrint for anything else, and for labels no printer takes.
    """
    wanted = paper.strip().lower()
    if wanted in SHEETS_MM:
        return None
    found = _ROLL.fullmatch(wanted)
    if not found:
        raise CannotPrint(
            f"The paper {paper!r} is not known. Say a4, letter, or for a label printer the "
            "width and height of one label, such as 50x25mm."
        )
    width, height = float(found[1]), float(found[2])
    if not all(LABEL_LEAST_MM <= side <= LABEL_MOST_MM for side in (width, height)):
        raise CannotPrint(
            f"A label of {width:g} x {height:g} mm cannot be printed: each side must be "
            f"{LABEL_LEAST_MM:g} to {LABEL_MOST_MM:g} mm."
        )
    return width, height


def grid_on(sheet: str, size: str, wanted: str = "") -> Grid:
    """The grid of labels on a sheet (a4 or letter) for a size of tag.

    `wanted` is empty for the usual one, CxR for a common sheet of labels or else an even
    division of the sheet, CxR:WxH or CxR:WxH+GXxGY for measures of your own. Raises CannotPrint
    when it is none of these or does not fit on the sheet.
    """
    if not wanted:
        return USUAL_GRIDS[(sheet, size)]
    found = _GRID.fullmatch(wanted.strip().lower())
    columns, rows = (int(found[1]), int(found[2])) if found else (0, 0)
    if not found or not columns or not rows:
        raise CannotPrint(
            f"The grid {wanted!r} is not understood. Say columns x rows, such as 3x7, and the "
            "label's measures when they are special, such as 3x7:63.5x38.1 or, with the gaps "
            "between labels, 3x7:63.5x38.1+2.5x0."
        )
    if found[3] is None:
        for grid in COMMON_GRIDS[sheet]:
            if (grid.columns, grid.rows) == (columns, rows):
                return grid
        return _divided(sheet, columns, rows)
    width, height, gap_x, gap_y = (float(found[group] or 0) for group in (3, 4, 5, 6))
    grid = Grid(columns, rows, width, height, gap_x, gap_y)
    span, page = grid.span_mm, SHEETS_MM[sheet]
    if span[0] > page[0] + 0.05 or span[1] > page[1] + 0.05:
        raise CannotPrint(
            f"The grid {grid.name} is {span[0]:g} x {span[1]:g} mm and {SHEET_NAMES[sheet]} is "
            f"{page[0]:g} x {page[1]:g} mm. Check columns, rows and gaps."
        )
    return grid


def _divided(sheet: str, columns: int, rows: int) -> Grid:
    """An even division of the sheet inside its margins, to tenths of a millimetre, to be cut."""
    width, height = SHEETS_MM[sheet]
    return Grid(
        columns,
        rows,
        int((width - 2 * MARGIN_MM) / columns * 10) / 10,
        int((height - 2 * MARGIN_MM) / rows * 10) / 10,
        cut=True,
    )


def margins_mm(sheet: str, grid: Grid) -> tuple[float, float]:
    """Left and top margin that put the grid in the middle of the sheet."""
    page, span = SHEETS_MM[sheet], grid.span_mm
    return max((page[0] - span[0]) / 2, 0.0), max((page[1] - span[1]) / 2, 0.0)
