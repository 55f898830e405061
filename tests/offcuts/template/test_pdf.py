"""Templates on paper, looked at as the printer's dots: does it measure what it says?"""

from __future__ import annotations

import itertools
from datetime import UTC, datetime

import numpy as np
import pypdfium2
import pytest
import zxingcpp

from bucktail.offcuts.template.drawing import NM_PER_MM, Blank, Template
from bucktail.offcuts.template.inking import Place
from bucktail.offcuts.template.marks import draw
from bucktail.offcuts.template.page import FOOT, MARGIN, Page, Paper
from bucktail.offcuts.template.pdf import TooLarge, template_pdf
from bucktail.offcuts.template.tiles import tiles_of
from bucktail.rules.rulebook import version
from bucktail.rules.sums import CAUTION, MARKING
from running.pieces import PIECES
from running.printed import CODE, DPI, Dots, Printed, centres, found_cross, found_ring, printed

PAPERS: tuple[Paper, ...] = ("a4", "letter")
EVERY = list(itertools.product(PIECES, PAPERS))
MM = 25.4 / DPI
WITHIN = 0.1  # mm


def heavy_lines(dots: Dots, long: float) -> list[float]:
    """Where heavy lines run down a part of a page over a length (mm): middles in dots."""
    ink = (dots > 0.3).astype(int)
    runs = [longest_run(line) for line in ink.T]
    found: list[float] = []
    for at in centres(np.array([float(end - start > 0.93 * long / MM) for start, end in runs])):
        start, end = runs[int(at)]
        columns = slice(max(int(at) - 4, 0), int(at) + 5)
        dark = dots[start + 9 : end - 9, columns].mean(axis=0)
        if dark.sum() * MM > 0.27:  # 0.35 mm wide; lines of bends and of lengths are thinner
            middle = (dark * (np.arange(dark.size) + 0.5)).sum() / dark.sum()
            found.append(columns.start + float(middle))
    return found


def longest_run(line: Dots) -> tuple[int, int]:
    """Where the longest unbroken run of ink starts and ends."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], line, [0])))).tolist()
    pairs = list(zip(edges[::2], edges[1::2], strict=True))
    return max(pairs, key=lambda pair: pair[1] - pair[0], default=(0, 0))


def outline_on(dots: Dots, page: Page, a: float, b: float) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of the blank as it is drawn on a page (mm)."""
    left, top, wide, high = page.window
    first = round(left / MM), round((top + 0.5) / MM)
    seen = dots[first[1] : round((top + high - 0.5) / MM), first[0] : round((left + wide) / MM)]
    across = [(first[0] + at) * MM for at in heavy_lines(seen, b)]
    down = [(first[1] + at) * MM for at in heavy_lines(seen.T, a)]
    return across[0], down[0], across[-1], down[-1]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", ["shim", "splice", "tiny shim"])
def test_every_hole_is_where_it_should_be_from_the_edges_that_are_drawn(
    name: str, paper: Paper
) -> None:
    """Nothing but the picture is measured: the sides of the blank, and the holes from them."""
    made = printed(name, paper)
    [blank] = made.template.blanks
    [dots] = made.pages
    page = Page(paper, False)
    a, b = blank.a / NM_PER_MM, blank.b / NM_PER_MM
    left, top, right, bottom = outline_on(dots, page, a, b)
    assert abs(right - left - a) < WITHIN and abs(bottom - top - b) < WITHIN
    assert blank.holes
    for hole in blank.holes:
        radius = (hole.diameter or 0) / 2 / NM_PER_MM
        wanted = left + hole.x / NM_PER_MM, bottom - hole.y / NM_PER_MM
        x, y = found_cross(dots, wanted, radius)
        assert np.hypot(x - wanted[0], y - wanted[1]) < WITHIN
        assert abs(found_ring(dots, wanted, radius) - radius) < WITHIN / 2


def test_a_hole_out_of_place_would_be_seen() -> None:
    made = printed("shim", "a4")
    hole = made.template.blanks[0].holes[0]
    a, b = made.template.blanks[0].a / NM_PER_MM, made.template.blanks[0].b / NM_PER_MM
    left, _, _, bottom = outline_on(made.pages[0], Page("a4", False), a, b)
    at = left + hole.x / NM_PER_MM + 0.3, bottom - hole.y / NM_PER_MM
    x, _ = found_cross(made.pages[0], at, (hole.diameter or 0) / 2 / NM_PER_MM)
    assert at[0] - x == pytest.approx(0.3, abs=0.05)


def windows_of(made: Printed, paper: Paper) -> list[tuple[Dots, Place]]:
    """Every page of the first blank that shows it at full size, with where it lies on the paper."""
    from fpdf import FPDF

    from bucktail.offcuts.template.pdf import _lay
    from bucktail.offcuts.template.pen import Pen

    laid = _lay(Pen(FPDF(unit="pt")), made.template, made.drawn[0], paper, True)
    first = 0 if laid.story else 1
    left, top, _, _ = laid.page.window
    pages = made.pages[first : first + len(laid.tiles)]
    return [
        (dots, Place(tile.window, left, top + laid.story))
        for dots, tile in zip(pages, laid.tiles, strict=True)
    ]


@pytest.mark.parametrize(("name", "paper"), EVERY)
def test_every_hole_is_whole_on_some_page_and_within_a_tenth_of_a_millimetre(
    name: str, paper: Paper
) -> None:
    made = printed(name, paper)
    pages = windows_of(made, paper)
    assert made.template.blanks[0].holes
    for hole in made.template.blanks[0].holes:
        radius = (hole.diameter or 0) / 2 / NM_PER_MM
        reach = int((radius + 1.5) * NM_PER_MM)
        seen = 0
        for dots, place in pages:
            left, bottom, right, top = place.window
            if (
                not left + reach < hole.x < right - reach
                or not bottom + reach < hole.y < top - reach
            ):
                continue
            seen += 1
            wanted = place.spot((hole.x, hole.y))
            x, y = found_cross(dots, wanted, radius)
            assert np.hypot(x - wanted[0], y - wanted[1]) < WITHIN
            assert abs(found_ring(dots, wanted, radius) - radius) < WITHIN / 2
        assert seen, f"the hole at {hole.x, hole.y} is cut in two on every page"


@pytest.mark.parametrize(("name", "paper"), EVERY)
def test_the_bars_on_every_page_are_100_mm_and_3_in(name: str, paper: Paper) -> None:
    for dots in printed(name, paper).pages:
        page_high = dots.shape[0] * MM
        bar = page_high - MARGIN - FOOT + 4.2
        # only the ends of a bar stand up this far
        row = dots[round((bar - 2.1) / MM) : round((bar - 1.5) / MM)].mean(axis=0)
        ends = centres(row)
        assert len(ends) == 4
        assert abs((ends[1] - ends[0]) * MM - 100) < WITHIN
        assert abs((ends[3] - ends[2]) * MM - 76.2) < WITHIN
        along = dots[round(bar / MM) - 2 : round(bar / MM) + 3].max(axis=0)
        assert (along[round(ends[0]) : round(ends[1])] > 0.5).all(), "the bar is in one piece"


def test_a_page_that_was_scaled_would_be_seen_by_its_bars() -> None:
    from running.printed import to_dots

    scaled = to_dots(printed("shim", "a4").pdf, round(DPI * 0.97))[0]
    bar = scaled.shape[0] * MM - (MARGIN + FOOT - 4.2) * 0.97
    row = scaled[round((bar - 2.0) / MM) : round((bar - 1.6) / MM)].mean(axis=0)
    ends = centres(row)
    assert (ends[1] - ends[0]) * MM == pytest.approx(97, abs=0.2)


@pytest.mark.parametrize(("name", "paper"), EVERY)
def test_pages_join_without_a_gap(name: str, paper: Paper) -> None:
    """Where two pages show the same strip they show the same lines at the same places."""
    made = printed(name, paper)
    pages = windows_of(made, paper)
    compared = 0
    for (one, here), (other, there) in itertools.combinations(pages, 2):
        left = max(here.window[0], there.window[0])
        right = min(here.window[2], there.window[2])
        bottom = max(here.window[1], there.window[1])
        top = min(here.window[3], there.window[3])
        if right <= left or top <= bottom:
            continue
        compared += 1
        assert min(right - left, top - bottom) == 10 * NM_PER_MM
        upright = right - left < top - bottom
        middle = (left + right) // 2, (bottom + top) // 2
        profiles = [
            strip(dots, place, (left, bottom, right, top), upright)
            for dots, place in ((one, here), (other, there))
        ]
        assert len(profiles[0]) == len(profiles[1]) > 0
        assert np.abs(np.array(profiles[0]) - np.array(profiles[1])).max() < WITHIN
        assert middle
    assert compared >= len(pages) - 1


def strip(dots: Dots, place: Place, box: tuple[int, int, int, int], upright: bool) -> list[float]:
    """Where lines cross the middle of a strip that two pages share: mm from its lower left end."""
    left, bottom, right, top = box
    (x1, y1), (x2, y2) = place.spot((left, top)), place.spot((right, bottom))
    if upright:
        # 2 mm beside the line to join along
        x = (x1 + x2) / 2 + 2.0
        row = dots[round(y1 / MM) : round(y2 / MM), round(x / MM)]
        return [y2 - (round(y1 / MM) + at) * MM for at in centres(row)]
    y = (y1 + y2) / 2 + 2.0
    row = dots[round(y / MM), round(x1 / MM) : round(x2 / MM)]
    return [(round(x1 / MM) + at) * MM - x1 for at in centres(row)]


@pytest.mark.parametrize(("name", "paper"), EVERY)
def test_nothing_is_printed_in_the_border_that_printers_leave_blank(
    name: str, paper: Paper
) -> None:
    border = int(4.4 / MM)
    for dots in printed(name, paper).pages:
        inside = dots[border:-border, border:-border].sum()
        assert dots.sum() == pytest.approx(inside)


@pytest.mark.parametrize(("name", "paper"), EVERY)
def test_every_page_says_what_it_is_and_what_to_heed(name: str, paper: Paper) -> None:
    made = printed(name, paper)
    texts = [
        " ".join(page.get_textpage().get_text_range().split())
        for page in pypdfium2.PdfDocument(made.pdf)
    ]
    for text in texts:
        for said in (f"A {name}", "100 mm", "3 in", MARKING, CAUTION, "actual size (100 %)"):
            assert said in text
        assert f"25 Nov 2026, rules {version()}" in text
        assert "2024-T3 clad" in text
    whole = " ".join(texts)
    size = {"3/32": "drill #40, .098 in (2.49 mm)", "1/8": "drill #30, .1285 in (3.26 mm)"}
    assert size[PIECES[name][1]["diameter"]] in whole
    grain = {"stiffener": "Grain: along the", "shim": "Grain: may run either way."}
    assert grain.get(name, "Grain:") in whole


def test_pages_are_named_by_row_and_column() -> None:
    texts = [
        page.get_textpage().get_text_range()
        for page in pypdfium2.PdfDocument(printed("long stiffener", "a4").pdf)
    ]
    assert len(texts) == 4
    assert "lay it on the other" in texts[0]
    assert "All pages" in texts[0] and all(name in texts[0] for name in ("A1", "A2", "A3"))
    for text, name in zip(texts[1:], ("A1", "A2", "A3"), strict=True):
        assert text.count("1 × 3 pages, A1 to A3") == 1 and name in text
    assert "A1 | A2" in texts[1] and "A1 | A2" in texts[2] and "A2 | A3" in texts[2]


def test_the_tag_is_read_back() -> None:
    dots = printed("shim", "a4").pages[0]
    picture = ((1 - dots) * 255).astype(np.uint8)
    [read] = zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)
    assert read.text == CODE


def test_a_flush_patch_has_its_filler_on_a_page_of_its_own() -> None:
    made = printed("flush patch", "a4")
    texts = [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(made.pdf)]
    assert "Filler A1" in texts[-1] and "Filler A1" not in texts[0]
    filler = made.template.blanks[1]
    # a hole of 1 1/2 by 2 in, 1/32 in of clearance at each edge
    assert (filler.a, filler.b) == (36_512_500, 49_212_500)
    left, top, right, bottom = outline_on(
        made.pages[-1], Page("a4", False), filler.a / NM_PER_MM, filler.b / NM_PER_MM
    )
    assert abs(right - left - 36.5125) < WITHIN and abs(bottom - top - 49.2125) < WITHIN


def test_a_piece_for_more_pages_than_anyone_joins_is_refused_with_a_way_out() -> None:
    blank = Blank("Skin", ".032 in", 4_000 * NM_PER_MM, 3_000 * NM_PER_MM)
    laid = Template("Skin", (blank,), (), (), (), "", "", "", "mm")
    with pytest.raises(TooLarge, match=r"takes 2\d\d pages .* Take the DXF"):
        template_pdf(laid, draw(laid), "a4", datetime(2026, 1, 1, tzinfo=UTC))


@pytest.mark.parametrize("size", [(1, 1), (50, 400), (400, 50), (900, 700), (197, 251)])
@pytest.mark.parametrize("page", [Page(paper, lying) for paper in PAPERS for lying in (0, 1)])
def test_tiles_cover_the_drawing_and_share_a_strip(size: tuple[int, int], page: Page) -> None:
    drawn = (-7_000_000, -3, size[0] * NM_PER_MM - 7_000_000, size[1] * NM_PER_MM - 3)
    tiles = tiles_of(drawn, page.window_nm)
    lefts = sorted({tile.window[0] for tile in tiles})
    bottoms = sorted({tile.window[1] for tile in tiles})
    assert len(tiles) == len(lefts) * len(bottoms) == len({tile.name for tile in tiles})
    assert lefts[0] <= drawn[0] and lefts[-1] + page.window_nm[0] >= drawn[2]
    assert bottoms[0] <= drawn[1] and bottoms[-1] + page.window_nm[1] >= drawn[3]
    for starts, room in ((lefts, page.window_nm[0]), (bottoms, page.window_nm[1])):
        assert {b - a for a, b in itertools.pairwise(starts)} <= {room - 10 * NM_PER_MM}
    for tile in tiles:
        for join in tile.joins:
            sharing = [one for one in tiles if join in one.joins]
            assert len(sharing) >= 2
            assert all(name in join.pages for name in [tile.name] if len(sharing) == 2)
