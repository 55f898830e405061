"""Sheets of tags as a PDF, and single labels one to a page for a label printer.

Pages are a whole number of printer dots, never larger than the paper, so that the corner of
every label, and with it every square of every symbol, falls on whole dots of the printer it was
made for. A sheet carries a bar of 100 mm: measured with a ruler it shows whether the printer
scaled the page. Returns bytes; writes no file and asks no clock.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from fpdf import FPDF
from fpdf.prefs import ViewerPreferences

from bucktail.tags.code import check, with_check_symbols
from bucktail.tags.draw import (
    CODE_MODULES,
    RESOLUTIONS,
    SIZES,
    CannotPrint,
    Size,
    dots_above,
    dots_below,
    dots_near,
    matrix,
)
from bucktail.tags.ink import POINTS_AN_INCH
from bucktail.tags.label import Shape, draw_label, shape
from bucktail.tags.lettering import Lettering
from bucktail.tags.paper import SHEET_NAMES, SHEETS_MM, Grid, grid_on, margins_mm, roll_mm
from bucktail.tags.ruler import BAR_ROOM_MM, draw_bar, draw_corners, draw_cut_marks
from bucktail.tags.typeset import LabelText

__all__ = [
    "MOST_LABELS",
    "LabelText",
    "Plan",
    "Printed",
    "Printing",
    "plan",
    "print_labels",
]

MOST_LABELS = 1000
UNPRINTABLE_MM = 4.5  # the border many sheet printers leave blank (common practice)
# on sheets whose labels leave no room for the bar
TRIAL_WORDS = "Print this page first, on plain paper: the crosses are the labels' corners."
_SAMPLE = with_check_symbols("00000000")


@dataclass(frozen=True)
class Printing:
    """How tags are to be printed.

    `size` is tiny, normal or bin; `paper` a4, letter or one label of a roll such as 50x25mm;
    `dpi` the printer's dots an inch; `grid` as `paper.grid_on` reads it, empty for the usual
    one; `skip` labels already used up on the first sheet; `address` where the workshop answers
    when the symbol is to hold .../tag/CODE instead of the code alone.
    """

    size: str = "normal"
    paper: str = "a4"
    dpi: int = 300
    grid: str = ""
    skip: int = 0
    address: str = ""


@dataclass(frozen=True)
class Plan:
    """The layout that `plan` found, in dots; a roll has no grid, columns or rows.

    `columns` and `rows` are the first and last edges of the labels on a sheet. `pad` (across,
    down) keeps what is printed inside each label off the sheet's unprintable border.
    """

    how: Printing
    shape: Shape
    page: tuple[int, int]
    summary: str
    grid: Grid | None = None
    columns: tuple[tuple[int, int], ...] = ()
    rows: tuple[tuple[int, int], ...] = ()
    pad: tuple[int, int] = (0, 0)
    bar_in_margin: bool = False


@dataclass(frozen=True)
class Printed:
    """A PDF with its number of pages, and a note for each label that lost something."""

    pdf: bytes
    pages: int
    notes: tuple[str, ...]


def plan(how: Printing) -> Plan:
    """Lay out the run before any code is made; raises CannotPrint saying what would do."""
    size = SIZES.get(how.size)
    if size is None:
        raise CannotPrint(f"The size {how.size!r} is not known: say {', '.join(SIZES)}.")
    if how.dpi not in RESOLUTIONS:
        known = ", ".join(map(str, RESOLUTIONS))
        raise CannotPrint(f"{how.dpi} dots an inch is not offered: say one of {known}.")
    if how.address and not size.takes_address:
        raise CannotPrint(
            f"A {size.name} tag has no room for an address: use a larger size or the code alone."
        )
    modules = len(matrix(_SAMPLE, how.address)) if how.address else CODE_MODULES
    roll = roll_mm(how.paper)
    if roll is None:
        return _plan_sheet(how, size, modules)
    if how.skip or how.grid:
        raise CannotPrint("Skipping labels and grids are for sheets: a roll has neither.")
    laid = shape(size, modules, *roll, how.dpi)
    page = dots_below(roll[0], how.dpi), dots_below(roll[1], how.dpi)
    return Plan(how, laid, page, _summary("single labels", roll, laid, how.dpi))


def _plan_sheet(how: Printing, size: Size, modules: int) -> Plan:
    sheet, dpi = how.paper.strip().lower(), how.dpi
    grid = grid_on(sheet, size.name, how.grid)
    if not 0 <= how.skip < grid.labels:
        raise CannotPrint(
            f"This sheet has {grid.labels} labels: skip 0 to {grid.labels - 1}, not {how.skip}."
        )
    across, down = margins_mm(sheet, grid)
    pad_mm = tuple(max(UNPRINTABLE_MM - margin, 0.0) for margin in (across, down))
    room = grid.width_mm - 2 * pad_mm[0], grid.height_mm - 2 * pad_mm[1]
    try:
        laid = shape(size, modules, *room, dpi)
    except CannotPrint as error:
        if room == (grid.width_mm, grid.height_mm):
            raise
        border = f"Printers leave about {UNPRINTABLE_MM:g} mm blank around a sheet, so of labels "
        border += f"{grid.width_mm:g} x {grid.height_mm:g} mm at its edge less can be used. "
        raise CannotPrint(border + str(error)) from error
    on = f"{SHEET_NAMES[sheet]}, {grid.columns} x {grid.rows} labels"
    return Plan(
        how,
        laid,
        page=(dots_below(SHEETS_MM[sheet][0], dpi), dots_below(SHEETS_MM[sheet][1], dpi)),
        summary=_summary(on, (grid.width_mm, grid.height_mm), laid, dpi),
        grid=grid,
        columns=_edges(across, grid.columns, grid.width_mm, grid.gap_x_mm, dpi),
        rows=_edges(down, grid.rows, grid.height_mm, grid.gap_y_mm, dpi),
        pad=(dots_above(pad_mm[0], dpi), dots_above(pad_mm[1], dpi)),
        bar_in_margin=down >= BAR_ROOM_MM,
    )


def _edges(
    margin_mm: float, count: int, side_mm: float, gap_mm: float, dpi: int
) -> tuple[tuple[int, int], ...]:
    """First and last edges in dots of the columns, or rows, of a grid."""
    starts = [margin_mm + place * (side_mm + gap_mm) for place in range(count)]
    return tuple((dots_near(start, dpi), dots_near(start + side_mm, dpi)) for start in starts)


def _summary(on: str, label_mm: tuple[float, float], laid: Shape, dpi: int) -> str:
    symbol = laid.symbol
    return (
        f"{on} of {label_mm[0]:g} x {label_mm[1]:g} mm, {laid.size.name} tags, {dpi} dots an inch: "
        f"symbol {symbol.side_mm:.1f} mm with its white border, "
        f"squares of {symbol.module_mm:.2f} mm"
    )


def print_labels(
    labels: Sequence[tuple[str, LabelText]],
    how: Printing,
    made_at: datetime = datetime(2000, 1, 1, tzinfo=UTC),
) -> Printed:
    """Make the PDF for `labels`, each a ten-symbol code and its text, in the order given.

    `made_at` is only written into the file. Raises CannotPrint, also for no labels, too many
    at once, or a code that is none.
    """
    laid = plan(how)
    if not labels:
        raise CannotPrint("There is no tag to print: give codes, or a number of new ones.")
    if len(labels) > MOST_LABELS:
        raise CannotPrint(f"{len(labels)} tags are too many for one file: {MOST_LABELS} at most.")
    for code, _ in labels:
        found = check(code)
        if found.code != code:
            why = found.sentence or "Give it as ten symbols without spaces."
            raise CannotPrint(f"{code!r} is not a tag code. {why}")
    pdf = _document(laid, made_at)
    lettering = Lettering(pdf, how.dpi)
    draw = _draw_sheets if laid.grid else _draw_singles
    notes = draw(pdf, lettering, laid, labels)
    return Printed(bytes(pdf.output()), pdf.pages_count, tuple(notes))


def _document(laid: Plan, made_at: datetime) -> FPDF:
    """An empty document with pages of whole dots."""
    width, height = (side * POINTS_AN_INCH / laid.how.dpi for side in laid.page)
    pdf = FPDF(unit="pt", format=(width, height))
    pdf.set_auto_page_break(False)
    pdf.set_margin(0)
    pdf.set_creation_date(made_at)
    pdf.set_title("Tags")
    pdf.set_lang("en-GB")
    # asks the print dialogue not to scale; some ignore it, hence the bar
    pdf.viewer_preferences = ViewerPreferences(print_scaling="None")
    return pdf


def _draw_singles(
    pdf: FPDF, lettering: Lettering, laid: Plan, labels: Sequence[tuple[str, LabelText]]
) -> list[str]:
    notes: list[str] = []
    for code, text in labels:
        pdf.add_page()
        notes += draw_label(pdf, lettering, (0, 0), laid.shape, code, text, laid.how.address)
    return notes


def _draw_sheets(
    pdf: FPDF, lettering: Lettering, laid: Plan, labels: Sequence[tuple[str, LabelText]]
) -> list[str]:
    notes: list[str] = []
    dpi, across = laid.how.dpi, len(laid.columns)
    on_a_sheet = across * len(laid.rows)
    sheets = -(-(laid.how.skip + len(labels)) // on_a_sheet)
    what = laid.summary.split(":")[0]
    if not laid.bar_in_margin:
        pdf.add_page()
        draw_corners(pdf, dpi, laid.columns, laid.rows)
        draw_bar(pdf, lettering, dpi, TRIAL_WORDS, what)
    for place, (code, text) in enumerate(labels, start=laid.how.skip):
        sheet, cell = divmod(place, on_a_sheet)
        if cell == 0 or place == laid.how.skip:
            pdf.add_page()
            if laid.grid and laid.grid.cut:
                draw_cut_marks(pdf, dpi, laid.columns, laid.rows)
            if laid.bar_in_margin:
                draw_bar(pdf, lettering, dpi, f"Sheet {sheet + 1} of {sheets}.", what)
        left, top = laid.columns[cell % across][0], laid.rows[cell // across][0]
        corner = (left + laid.pad[0], top + laid.pad[1])
        notes += draw_label(pdf, lettering, corner, laid.shape, code, text, laid.how.address)
    return notes
