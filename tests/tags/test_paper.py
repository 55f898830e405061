"""Papers and grids: what is understood, and that every listed one can be printed on."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bucktail.tags.draw import SIZES, CannotPrint
from bucktail.tags.paper import (
    COMMON_GRIDS,
    SHEETS_MM,
    USUAL_GRIDS,
    Grid,
    grid_on,
    margins_mm,
    roll_mm,
)
from bucktail.tags.sheet import Printing, plan

EVERY = [(sheet, grid) for sheet, grids in COMMON_GRIDS.items() for grid in grids]
EVERY += [(sheet, grid) for (sheet, _), grid in USUAL_GRIDS.items()]


@pytest.mark.parametrize(("sheet", "grid"), EVERY, ids=lambda each: getattr(each, "name", each))
def test_listed_grids_fit_their_sheet_and_read_back(sheet: str, grid: Grid) -> None:
    across, down = margins_mm(sheet, grid)
    assert grid.span_mm[0] + 2 * across == pytest.approx(SHEETS_MM[sheet][0])
    assert grid.span_mm[1] + 2 * down == pytest.approx(SHEETS_MM[sheet][1])
    assert across >= 0 and down >= 0
    read = grid_on(sheet, "normal", grid.name)
    assert (read.name, read.span_mm, read.cut) == (grid.name, grid.span_mm, False)


@pytest.mark.parametrize("sheet", SHEETS_MM)
@pytest.mark.parametrize("size", SIZES)
def test_every_size_has_a_usual_grid_with_room_for_the_bar(sheet: str, size: str) -> None:
    laid = plan(Printing(size, sheet))
    assert laid.grid == USUAL_GRIDS[(sheet, size)] and laid.bar_in_margin


def test_columns_and_rows_alone_find_a_common_sheet_or_divide_a_plain_one() -> None:
    assert grid_on("a4", "normal", "3x8") == Grid(3, 8, 70, 37)
    assert grid_on("letter", "normal", "3X10").name == "3x10:66.7x25.4+3.2x0"
    divided = grid_on("a4", "normal", "2x3")
    assert (divided.width_mm, divided.height_mm, divided.cut) == (93.0, 91.0, True)
    assert margins_mm("a4", divided) == (12.0, 12.0)


def test_measures_of_your_own() -> None:
    assert grid_on("a4", "normal", "2x3:90×80mm") == Grid(2, 3, 90, 80)
    assert grid_on("a4", "normal", " 2x3:90x80+1.5x2.25 ") == Grid(2, 3, 90, 80, 1.5, 2.25)


@pytest.mark.parametrize(
    "wanted", ["3", "x", "3x", "axb", "3x7:", "3x7:63.5", "3x7:1x1+2", "-1x2", "0x3", "3x7:6e1x3"]
)
def test_other_grids_are_refused_with_examples(wanted: str) -> None:
    with pytest.raises(CannotPrint, match=r"3x7:63\.5x38\.1\+2\.5x0"):
        grid_on("a4", "normal", wanted)


def test_a_grid_larger_than_the_sheet_is_refused() -> None:
    with pytest.raises(CannotPrint, match=r"210\.2 x 37 mm and A4 is 210 x 297 mm"):
        grid_on("a4", "normal", "3x1:70x37+0.1x0")


@pytest.mark.parametrize(
    ("paper", "size"), [("50x25mm", (50, 25)), (" 50.5X25 ", (50.5, 25)), ("8×300mm", (8, 300))]
)
def test_single_labels(paper: str, size: tuple[float, float]) -> None:
    assert roll_mm(paper) == size


@pytest.mark.parametrize("paper", ["", "50", "50x", "x25", "A5", "50x25in", "50x25x10", "nan x 5"])
def test_unknown_papers_are_refused(paper: str) -> None:
    with pytest.raises(CannotPrint, match="is not known"):
        roll_mm(paper)


@pytest.mark.parametrize("paper", ["7.9x25", "25x301mm", "0x0"])
def test_labels_no_printer_takes_are_refused(paper: str) -> None:
    with pytest.raises(CannotPrint, match="8 to 300 mm"):
        roll_mm(paper)


@given(st.text(max_size=20))
def test_any_text_is_a_paper_or_a_clear_refusal(text: str) -> None:
    for read in (roll_mm, lambda wanted: grid_on("a4", "bin", wanted)):
        try:
            read(text)
        except CannotPrint as error:
            assert str(error).endswith(".")
