"""What a sheet carries besides its labels: the 100 mm bar, and marks to cut along.

Printers and their drivers scale pages to fit unless told not to, and a scaled label has squares
of uneven width and misses its place on the sheet. A bar of known length shows it with a ruler.
"""

from __future__ import annotations

from collections.abc import Sequence

from fpdf import FPDF

from bucktail.tags.draw import dots_near
from bucktail.tags.ink import POINTS_AN_INCH, Box, fill
from bucktail.tags.lettering import Lettering

BAR_MM = 100.0
BAR_LEFT_MM, BAR_TOP_MM = 10.0, 5.0  # common printers leave the outer 4 mm or so blank
BAR_ROOM_MM = 9.6  # margin above the labels that the bar with its words needs
BAR_WORDS = (
    "This bar is 100 mm. If it measures anything else, printing was scaled: "
    "print again at actual size (100 %)."
)
_TICK_MM, _BAR_THICK_MM = 2.0, 0.5
_WORDS_POINTS = 6.0
_MARK_MM, _MARK_OFF_MM, _MARK_THICK_MM = 2.0, 0.2, 0.1


def draw_bar(pdf: FPDF, lettering: Lettering, dpi: int, *beside: str) -> None:
    """Draw the 100 mm bar at the top of the page, its words below and `beside` to its right."""
    left, top = dots_near(BAR_LEFT_MM, dpi), dots_near(BAR_TOP_MM, dpi)
    length, tick = dots_near(BAR_MM, dpi), dots_near(_TICK_MM, dpi)
    thick = dots_near(_BAR_THICK_MM, dpi)
    ends = [(x, top, thick, tick) for x in (left, left + length - thick)]
    fill(pdf, dpi, [(left, top + (tick - thick) // 2, length, thick), *ends])
    em = lettering.dots(_WORDS_POINTS)
    below = top + tick + dots_near(0.3, dpi) + 0.75 * em
    lettering.put(BAR_WORDS, left, below, _WORDS_POINTS, False)
    right = left + length + dots_near(4, dpi)
    room = int(pdf.w * dpi / POINTS_AN_INCH) - right - dots_near(BAR_LEFT_MM, dpi)
    for row, words in enumerate(beside):
        baseline = top + 0.75 * em if row == 0 else below
        line = lettering.fit(words, room, _WORDS_POINTS)
        lettering.put(line.text, right, baseline, line.points, False)


def draw_corners(
    pdf: FPDF,
    dpi: int,
    columns: Sequence[tuple[int, int]],
    rows: Sequence[tuple[int, int]],
) -> None:
    """Draw a small cross at every label's corner, to hold a trial page against a label sheet."""
    arm, thick = dots_near(_MARK_MM, dpi), max(dots_near(_MARK_THICK_MM, dpi), 1)
    boxes: list[Box] = []
    for x in sorted({edge for column in columns for edge in column}):
        for y in sorted({edge for row in rows for edge in row}):
            boxes.append((x - arm, y - thick // 2, 2 * arm, thick))
            boxes.append((x - thick // 2, y - arm, thick, 2 * arm))
    fill(pdf, dpi, boxes)


def draw_cut_marks(
    pdf: FPDF,
    dpi: int,
    columns: Sequence[tuple[int, int]],
    rows: Sequence[tuple[int, int]],
) -> None:
    """Draw short lines outside the grid where its columns and rows begin and end (in dots)."""
    long, off = dots_near(_MARK_MM, dpi), dots_near(_MARK_OFF_MM, dpi)
    thick = max(dots_near(_MARK_THICK_MM, dpi), 1)
    boxes: list[Box] = []
    for x in sorted({edge for column in columns for edge in column}):
        for y in (rows[0][0] - off - long, rows[-1][1] + off):
            boxes.append((x - thick // 2, y, thick, long))
    for y in sorted({edge for row in rows for edge in row}):
        for x in (columns[0][0] - off - long, columns[-1][1] + off):
            boxes.append((x, y - thick // 2, long, thick))
    fill(pdf, dpi, boxes)
