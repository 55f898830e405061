"""A template on paper: tiles at full size with their joins, and all that is said of the piece.

A4 or US Letter, upright or lying, whichever takes fewer pages. A small piece has its words on the
page of its drawing; a larger one has a page before it with the words and how its pages lie.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from fpdf import FPDF
from fpdf.prefs import ViewerPreferences

from bucktail.offcuts.template.drawing import NM_PER_MM, Template
from bucktail.offcuts.template.inking import Place, ink
from bucktail.offcuts.template.page import PAPERS_MM, Page, Paper, draw_foot, draw_head
from bucktail.offcuts.template.pen import POINTS_A_MM, Pen
from bucktail.offcuts.template.shapes import Box, Drawn, Rectangle, box_of, grown
from bucktail.offcuts.template.story import draw_story, story_height
from bucktail.offcuts.template.tiles import MARK, OVERLAP, Join, Tile, TooLarge, pages_for, tiles_of
from bucktail.offcuts.template.words import JOINING

__all__ = ["TooLarge", "template_pdf"]

AROUND = 2 * NM_PER_MM  # beyond the drawing's own reach


@dataclass(frozen=True, slots=True)
class _Laid:
    """A blank on its pages; `story` is the height of the words above it on its only page, or 0."""

    page: Page
    tiles: tuple[Tile, ...]
    story: float


def template_pdf(
    template: Template, drawn: tuple[Drawn, ...], paper: Paper, at: datetime
) -> tuple[bytes, int]:
    """The PDF and its number of pages. `at` is only written into the file.

    Raises TooLarge where a blank takes too many pages.
    """
    pdf = _document(template, paper, at)
    pen = Pen(pdf)
    for number, one in enumerate(drawn):
        laid = _lay(pen, template, one, paper, number == 0)
        if number == 0 and not laid.story:
            _overview(pen, template, one, laid)
        for tile in laid.tiles:
            _tile(pen, template, one, laid, tile, "" if number == 0 else "Filler ")
    return bytes(pdf.output()), pdf.pages_count


def _document(template: Template, paper: Paper, at: datetime) -> FPDF:
    width, height = (side * POINTS_A_MM for side in PAPERS_MM[paper])
    pdf = FPDF(unit="pt", format=(width, height))
    pdf.set_auto_page_break(False)
    pdf.set_margin(0)
    pdf.set_creation_date(at)
    pdf.set_title(f"Template: {template.name}")
    pdf.set_lang("en-GB")
    # asks the print dialogue not to scale; some ignore it, hence the bars
    pdf.viewer_preferences = ViewerPreferences(print_scaling="None")
    return pdf


def _lay(pen: Pen, template: Template, one: Drawn, paper: Paper, with_story: bool) -> _Laid:
    """Choose how the paper lies: words and drawing on one page where they go, else fewest pages."""
    reach = grown(one.reach, AROUND)
    size = reach[2] - reach[0], reach[3] - reach[1]
    ways = (Page(paper, False), Page(paper, True))
    keep_clear = tuple(box_of(shape) for shape in one.shapes if not isinstance(shape, Rectangle))
    keep_clear += _edges(one)
    for page in ways if with_story else ():
        wide, high = page.window_nm
        story = story_height(pen, template, one.shapes, page.window[2])
        room = (wide, high - int(story * NM_PER_MM))
        if size[0] <= wide and size[1] <= room[1]:
            return _Laid(page, tiles_of(reach, room), story)

    def pages(page: Page) -> int:
        columns, rows = pages_for(size, page.window_nm)
        return columns * rows

    page = min(ways, key=pages)
    return _Laid(page, tiles_of(reach, page.window_nm, keep_clear), 0)


def _edges(one: Drawn) -> tuple[Box, ...]:
    """The four sides of the blank as boxes, so that no mark is put on them."""
    a, b = one.blank.a, one.blank.b
    return ((0, 0, a, 0), (0, b, a, b), (0, 0, 0, b), (a, 0, a, b))


def _add_page(pen: Pen, page: Page) -> None:
    width, height = (side * POINTS_A_MM for side in page.size)
    pen.pdf.add_page(format=(width, height))


def _tile(pen: Pen, template: Template, one: Drawn, laid: _Laid, tile: Tile, before: str) -> None:
    """One page of the drawing."""
    page, tiles = laid.page, laid.tiles
    left, top, wide, _ = page.window
    _add_page(pen, page)
    last = tiles[-1]
    place = f"{last.row + 1} × {last.column + 1} pages, A1 to {last.name}"
    what = f"{one.blank.sheet}" if not before else f"{one.blank.name}: {one.blank.sheet}"
    draw_head(pen, page, template, before + tile.name, what, place if len(tiles) > 1 else "")
    draw_foot(pen, page, template)
    if laid.story:
        draw_story(pen, template, one.shapes, (left, top), wide)
    put = Place(tile.window, left, top + laid.story)
    ink(pen, one.shapes, put)
    _joins(pen, tile, put)


def _joins(pen: Pen, tile: Tile, put: Place) -> None:
    """The lines to join along, with their marks."""
    low, bottom, high, top = tile.window
    across = [(put.spot((x, bottom)), put.spot((x, top))) for x in tile.seams_x]
    down = [(put.spot((low, y)), put.spot((high, y))) for y in tile.seams_y]
    pen.lines([*across, *down], 0.1, (2, 1.4))
    for join in tile.joins:
        _mark(pen, join, put)


def _mark(pen: Pen, join: Join, put: Place) -> None:
    """Two black triangles point to point, half of each pair on either side of the line."""
    x, y = put.spot(join.at)
    half, reach = MARK / NM_PER_MM * 0.45, MARK / NM_PER_MM * 0.85
    if join.upright:
        pen.fill(
            [[(x, y), (x + way * reach, y - half), (x + way * reach, y + half)] for way in (1, -1)]
        )
    else:
        pen.fill(
            [[(x, y), (x - half, y + way * reach), (x + half, y + way * reach)] for way in (1, -1)]
        )
    at = (x - 1.8, y - reach - 5) if join.upright else (x + reach + 5, y - 1.8)
    pen.middle(join.pages, at, 8, join.upright, True)


def _overview(pen: Pen, template: Template, one: Drawn, laid: _Laid) -> None:
    """The words, and the drawing made small with its pages."""
    page = Page(laid.page.paper, False)
    left, top, wide, high = page.window
    _add_page(pen, page)
    draw_head(pen, page, template, "All pages", one.blank.sheet, "how they lie")
    draw_foot(pen, page, template)
    used = draw_story(pen, template, one.shapes, (left, top), wide)
    used += pen.paragraph(JOINING, (left, top + used), wide, 9) + 2
    boxes = [tile.window for tile in laid.tiles]
    whole: Box = (
        min(box[0] for box in boxes),
        min(box[1] for box in boxes),
        max(box[2] for box in boxes),
        max(box[3] for box in boxes),
    )
    room = high - used - 4
    across, up = (whole[2] - whole[0]) / NM_PER_MM, (whole[3] - whole[1]) / NM_PER_MM
    if room < 20:
        return
    scale = min((wide - 2) / across, room / up, 0.5)
    put = Place(whole, left + (wide - across * scale) / 2, top + used + 2, scale)
    for tile in laid.tiles:
        low, high_corner = (
            put.spot((tile.window[0], tile.window[3])),
            put.spot((tile.window[2], tile.window[1])),
        )
        pen.rounded(low, high_corner, 0, 0.1)
        shared = OVERLAP / NM_PER_MM * scale
        inside = (low[0] + (shared if tile.column else 0), low[1] + (shared if tile.row else 0))
        pen.words(tile.name, (inside[0] + 1.2, inside[1] + 4), 9, True)
    ink(pen, one.shapes, put, small=True)
