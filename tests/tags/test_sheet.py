"""Printed sheets, looked at as the printer's dots: every code read back, every edge on a dot."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from typing import Any

import numpy as np
import pypdfium2
import pytest

from bucktail.tags.draw import RESOLUTIONS, SIZES, CannotPrint
from bucktail.tags.label import smallest_labels
from bucktail.tags.sheet import MOST_LABELS, Printing, plan, print_labels
from bucktail.tags.typeset import LabelText

ADDRESS = "https://bench.local:8443"
OFFCUT = LabelText("Offcut", ("2024-T3 clad", ".032 in bare"), True)
TEXTS = (
    LabelText(),
    LabelText("Left rear spar web"),
    OFFCUT,
    LabelText("Outboard leading edge skin, left, lower, with the cut-out for the landing light"),
    LabelText('Clip "A" \U0001f9f0 \\(x) \x00\r\n\ttabs', ("日本", "", "٣٤")),
    LabelText("W" * 300, ("x" * 300, "y" * 300, "z" * 300), True),
    LabelText("Нервюра №4, Ωμέγα, \u202eabc, e\u0301, \ud800"),
)
USUAL = [
    Printing(size=size, paper=paper, dpi=dpi)
    for size, paper, dpi in itertools.product(SIZES, ("a4", "letter"), RESOLUTIONS)
]
SINGLE = [
    Printing("tiny", "25x10mm", 203),
    Printing("tiny", "20x10", 300),
    Printing("tiny", "12x16mm", 600),
    Printing("normal", "50x25mm", 203),
    Printing("normal", "25x40mm", 300),
    Printing("bin", "100x60mm", 203),
    Printing("normal", "60x30mm", 203, address=ADDRESS),
]
OTHER = [
    Printing(grid="3x8"),
    Printing(grid="5x5"),
    Printing(grid="5x13", size="normal"),
    Printing(grid="7x27", size="tiny"),
    Printing(grid="3x7:60x35+4x2", dpi=600),
    Printing(address=ADDRESS),
    Printing(size="bin", address=ADDRESS, dpi=203),
    Printing(paper="letter", grid="4x20", size="tiny"),
]


def labelled(codes: list[str], count: int) -> list[tuple[str, LabelText]]:
    return [(code, TEXTS[place % len(TEXTS)]) for place, code in enumerate(codes[:count])]


@pytest.fixture(scope="module")
def full(codes: list[str]) -> Callable[[Printing], bytes]:
    """A PDF with one sheet and two labels more (on a roll five labels), made once."""
    made: dict[Printing, bytes] = {}

    def printed(how: Printing) -> bytes:
        if how not in made:
            made[how] = print_labels(labelled(codes, count_on(how)), how).pdf
        return made[how]

    return printed


def count_on(how: Printing) -> int:
    grid = plan(how).grid
    return grid.labels + 2 if grid else 5


def name(how: Printing) -> str:
    return f"{how.size} {how.paper} {how.grid} {how.dpi} {'address' if how.address else ''}"


@pytest.mark.parametrize("how", USUAL + SINGLE + OTHER, ids=name)
def test_every_code_is_read_back_in_order(
    how: Printing, codes: list[str], full: Any, rasterise: Any, read_symbols: Any
) -> None:
    pages = rasterise(full(how), how.dpi)
    read = [each.text for page in pages for each in read_symbols(page)]
    before = f"{how.address}/tag/" if how.address else ""
    assert read == [before + code for code in codes[: count_on(how)]]


@pytest.mark.parametrize("how", USUAL + SINGLE + OTHER, ids=name)
def test_modules_are_whole_dots_and_the_quiet_zone_is_white(
    how: Printing, full: Any, rasterise: Any, read_symbols: Any
) -> None:
    """Cut into squares of whole dots, each square of the picture is one colour throughout."""
    pages = rasterise(full(how), how.dpi)
    symbol = plan(how).shape.symbol
    side = symbol.modules * symbol.dots
    around = symbol.dots + 2  # the reader may be a module out; the quiet zone has two or more
    checked = 0
    for page in pages:
        for found in read_symbols(page):
            first, edge = found.top - around, found.left - around
            dark = page[first : found.bottom + around, edge : found.right + around] < 128
            across, down = np.flatnonzero(dark.any(axis=0)), np.flatnonzero(dark.any(axis=1))
            left, top = edge + across[0], first + down[0]
            assert (across[-1] - across[0] + 1, down[-1] - down[0] + 1) == (side, side)
            box = page[top : top + side, left : left + side].astype(int)
            cells = box.reshape(symbol.modules, symbol.dots, symbol.modules, symbol.dots)
            cells = cells.swapaxes(1, 2).reshape(-1, symbol.dots**2)
            # to a fifteenth of a dot at its edge
            assert int((cells.max(axis=1) - cells.min(axis=1)).max()) <= 17
            assert set((cells.mean(axis=1) > 128).tolist()) == {True, False}
            quiet = (2 if how.size == "tiny" else 4) * symbol.dots
            ring = page[top - quiet : top + side + quiet, left - quiet : left + side + quiet].copy()
            assert ring.shape == (side + 2 * quiet, side + 2 * quiet)
            ring[quiet:-quiet, quiet:-quiet] = 255
            assert (ring > 230).all(), "the quiet zone is white"
            checked += 1
    assert checked == count_on(how)


@pytest.mark.parametrize("how", USUAL + OTHER, ids=name)
def test_the_bar_is_100_mm(how: Printing, full: Any, rasterise: Any) -> None:
    pages = rasterise(full(how), how.dpi)
    dot = 25.4 / how.dpi
    strip = pages[0][round(5 / dot) : round(7.2 / dot), round(8 / dot) : round(113 / dot)] < 128
    runs = [int(row.sum()) for row in strip if row.sum() > 50 / dot]
    assert runs and abs(max(runs) * dot - 100) <= dot * 1.01
    longest = strip[[int(row.sum()) for row in strip].index(max(runs))]
    ends = np.flatnonzero(longest)
    assert int(ends[-1] - ends[0]) + 1 == max(runs), "the bar is in one piece"


def test_single_labels_have_no_bar_and_one_page_each(codes: list[str]) -> None:
    printed = print_labels([(code, LabelText()) for code in codes[:9]], Printing(paper="50x25mm"))
    assert printed.pages == 9 == len(pypdfium2.PdfDocument(printed.pdf))
    assert "100 mm" not in words_of(printed.pdf)


def words_of(pdf: bytes) -> str:
    return "\n".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(pdf))


@pytest.mark.parametrize(
    ("grid", "skip", "count", "pages"),
    [
        ("", 0, 21, 1),
        ("", 0, 22, 2),
        ("", 20, 1, 1),
        ("", 20, 2, 2),
        ("", 3, 60, 3),
        ("3x8", 0, 24, 2),
        ("3x8", 1, 24, 3),
    ],
)
def test_pages(grid: str, skip: int, count: int, pages: int, codes: list[str]) -> None:
    how = Printing(grid=grid, skip=skip)
    printed = print_labels([(code, LabelText()) for code in codes[:count]], how)
    assert printed.pages == pages == len(pypdfium2.PdfDocument(printed.pdf))
    assert ("the crosses are the labels' corners" in words_of(printed.pdf)) == (grid == "3x8")


@pytest.mark.parametrize("skip", [1, 2, 3, 10, 20])
def test_skipping_leaves_the_used_labels_alone(
    skip: int, codes: list[str], rasterise: Any, read_symbols: Any
) -> None:
    blank = [(code, LabelText()) for code in codes[:21]]
    [whole] = rasterise(print_labels(blank, Printing()).pdf, 300)
    first, *_ = rasterise(print_labels(blank, Printing(skip=skip)).pdf, 300)
    there, here = read_symbols(whole), read_symbols(first)
    assert len(here) == 21 - skip and here[0].text == codes[0]
    assert (here[0].left, here[0].top) == (there[skip].left, there[skip].top)
    above = first[: here[0].top - 60, :]
    assert (above[150:] > 200).all(), "nothing is printed on the rows already used"


@pytest.mark.parametrize("how", [*USUAL, *OTHER], ids=name)
def test_nothing_crosses_a_labels_edge(how: Printing, full: Any, rasterise: Any) -> None:
    laid = plan(how)
    page = rasterise(full(how), how.dpi)[-2]
    inside = page[laid.rows[0][0] : laid.rows[-1][1], laid.columns[0][0] : laid.columns[-1][1]]
    assert (inside < 128).any()
    gap = max(1, round(0.2 * how.dpi / 25.4))  # words keep 1 mm off, on low labels less
    for first, last in laid.columns:
        for edge in (first, last - gap):
            strip = page[laid.rows[0][0] : laid.rows[-1][1], edge : edge + gap]
            assert (strip > 128).all(), f"ink at column edge {edge}"
    for first, last in laid.rows:
        for edge in (first, last - gap):
            strip = page[edge : edge + gap, laid.columns[0][0] : laid.columns[-1][1]]
            assert (strip > 128).all(), f"ink at row edge {edge}"


@pytest.mark.parametrize("how", [*USUAL, *OTHER], ids=name)
def test_pages_are_whole_dots_and_never_larger_than_the_paper(how: Printing, full: Any) -> None:
    pdf = full(how)
    paper = {"a4": (210, 297), "letter": (215.9, 279.4)}[how.paper]
    for side, whole in zip(pypdfium2.PdfDocument(pdf)[0].get_size(), paper, strict=True):
        dots = side * how.dpi / 72
        assert abs(dots - round(dots)) < 0.02
        assert whole - 25.4 / how.dpi - 0.01 < side * 25.4 / 72 < whole + 0.005


def test_nothing_is_printed_in_the_border_printers_leave_blank(
    codes: list[str], rasterise: Any
) -> None:
    border = int(4.4 * 300 / 25.4)
    for grid in ("", "3x8", "2x4", "5x13", "7x27"):
        how = Printing(size="tiny" if grid == "7x27" else "normal", grid=grid)
        pages = rasterise(print_labels(labelled(codes, 24), how).pdf, 300)
        page = pages[-1].copy()
        page[border:-border, border:-border] = 255
        assert (page > 128).all(), grid


def test_the_same_labels_make_the_same_file_which_asks_not_to_be_scaled(codes: list[str]) -> None:
    labels = labelled(codes, 30)
    first = print_labels(labels, Printing())
    assert first.pdf == print_labels(labels, Printing()).pdf
    assert b"/PrintScaling /None" in first.pdf


def test_words_stand_on_the_label(codes: list[str]) -> None:
    words = words_of(print_labels([(codes[0], OFFCUT)], Printing()).pdf)
    for text in (codes[0][:5], codes[0][5:], "Offcut", "2024-T3 clad", ".032 in bare", "grain"):
        assert text in words
    assert "This bar is 100 mm." in words and "Sheet 1 of 1." in words


def test_what_is_lost_is_reported_with_the_code(codes: list[str]) -> None:
    printed = print_labels(labelled(codes, 7), Printing("tiny", "20x10mm"))
    start = f"{codes[5][:5]} {codes[5][5:]}: "
    notes = [note.removeprefix(start) for note in printed.notes if note.startswith(start)]
    assert "no room for the grain arrow" in notes
    assert any(note.startswith("shortened to “") or "no room for “" in note for note in notes)
    assert not any(note.startswith(f"{codes[0][:5]} ") for note in printed.notes)


# --- refusals -----------------------------------------------------------------------------------


@pytest.mark.parametrize("dpi", RESOLUTIONS)
@pytest.mark.parametrize("size", SIZES)
def test_the_smallest_labels_named_do_fit_and_smaller_do_not(size: str, dpi: int) -> None:
    for width, height in smallest_labels(SIZES[size], 21, dpi):
        assert plan(Printing(size, f"{width}x{height}mm", dpi)).shape.symbol.modules == 21
        for smaller in (f"{width - 1}x{height}", f"{width}x{height - 1}"):
            with pytest.raises(CannotPrint):
                plan(Printing(size, smaller, dpi))


@pytest.mark.parametrize(
    ("how", "words"),
    [
        (Printing(paper="25x15mm"), r"smallest that would do are 30 x 20 mm and 20 x 25 mm"),
        (Printing("bin", grid="3x8"), r"leave about 4.5 mm blank .* 61 x 29 mm"),
        (Printing(size="huge"), "say tiny, normal, bin"),
        (Printing(dpi=96), "say one of 203, 300, 600"),
        (Printing(paper="a3"), "such as 50x25mm"),
        (Printing(paper="500x25mm"), "8 to 300 mm"),
        (Printing(grid="3"), "columns x rows"),
        (Printing(grid="0x7"), "columns x rows"),
        (Printing(grid="4x9:60x40"), "240 x 360 mm and A4 is 210 x 297 mm"),
        (Printing(skip=21), "has 21 labels: skip 0 to 20, not 21"),
        (Printing(skip=-1), "skip 0 to 20, not -1"),
        (Printing(paper="50x25mm", skip=1), "a roll has neither"),
        (Printing("tiny", address=ADDRESS), "no room for an address"),
        (Printing(address="bench.local"), "must begin with https://"),
    ],
)
def test_what_cannot_be_printed_says_what_would_do(how: Printing, words: str) -> None:
    with pytest.raises(CannotPrint, match=words):
        plan(how)


def test_no_labels_too_many_or_no_code(codes: list[str]) -> None:
    with pytest.raises(CannotPrint, match="no tag to print"):
        print_labels([], Printing())
    with pytest.raises(CannotPrint, match="1000 at most"):
        print_labels([(codes[0], LabelText())] * (MOST_LABELS + 1), Printing())
    for text, words in ((codes[0][:9], "1 is missing"), (codes[0].lower(), "without spaces")):
        with pytest.raises(CannotPrint, match=words):
            print_labels([(text, LabelText())], Printing())
