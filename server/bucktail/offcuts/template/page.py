"""What every page of a template carries: its head, the two bars to measure, the cautions."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from bucktail.offcuts.template.drawing import NM_PER_MM, Point, Template
from bucktail.offcuts.template.pen import Pen
from bucktail.offcuts.template.words import CHECKED_BARS

Paper = Literal["a4", "letter"]
PAPERS_MM: dict[Paper, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
PAPER_NAMES: dict[Paper, str] = {"a4": "A4", "letter": "US Letter"}
MARGIN = 6.0  # printers leave about 4.5 mm blank (common practice)
HEAD, FOOT = 15.0, 21.0
MM_BAR, INCH_BAR = 100.0, 3 * 25.4
_TICK, _LINE = 2.4, 0.25


@dataclass(frozen=True, slots=True)
class Page:
    """A sheet of paper one way round; millimetres."""

    paper: Paper
    lying: bool

    @property
    def size(self) -> tuple[float, float]:
        """Width and height."""
        across, down = PAPERS_MM[self.paper]
        return (down, across) if self.lying else (across, down)

    @property
    def window(self) -> tuple[float, float, float, float]:
        """Left, top, width and height of the room for the drawing."""
        wide, high = self.size
        return (MARGIN, MARGIN + HEAD, wide - 2 * MARGIN, high - 2 * MARGIN - HEAD - FOOT)

    @property
    def window_nm(self) -> Point:
        """Width and height of that room in nm."""
        _, _, wide, high = self.window
        return (int(wide * NM_PER_MM), int(high * NM_PER_MM))


def draw_head(pen: Pen, page: Page, template: Template, name: str, what: str, place: str) -> None:
    """Name and sheet to the left, the page's own name to the right, a line beneath.

    `name` is that of the page, `what` the blank on it, `place` where it lies among the others.
    """
    left, top, wide, _ = page.window
    right = left + wide
    own = pen.words(name, (right, MARGIN + 7.2), 22 if len(name) < 5 else 15, True, "end")
    pen.words(place, (right, MARGIN + 11.6), 8, False, "end")
    room = wide - max(own, pen.width(place, 8)) - 6
    shown, _ = pen.lettering.printable(template.name)
    title = pen.lettering.fit(shown, room * 10 * 0.94, 13)  # bold is a little wider
    pen.words(title.text, (left, MARGIN + 5.2), 13, True)
    about = pen.lettering.fit(pen.lettering.printable(what)[0], room * 10, 8.5)
    pen.words(about.text, (left, MARGIN + 9.2), 8.5)
    stamp = f"At full size. {template.made}, rules {template.rules}"
    stamp += f", tag {template.code[:5]} {template.code[5:]}" if template.code else ""
    pen.words(stamp, (left, MARGIN + 12.6), 7.5)
    pen.lines([((left, top - 1), (right, top - 1))], 0.2)


def draw_foot(pen: Pen, page: Page, template: Template) -> None:
    """The bars of 100 mm and 3 in, and what is to be heeded."""
    left, _, wide, _ = page.window
    top = page.size[1] - MARGIN - FOOT
    pen.lines([((left, top + 1), (left + wide, top + 1))], 0.2)
    bar = top + 4.2
    _bar(pen, left, bar, MM_BAR, [10.0 * at for at in range(11)], "100 mm")
    ticks = [25.4 / 4 * at for at in range(13)]
    _bar(pen, left + MM_BAR + 12, bar, INCH_BAR, ticks, "3 in")
    y = bar + 5.8
    for text in (CHECKED_BARS, *template.cautions):
        y += pen.paragraph(text, (left, y), wide, 7)


def _bar(pen: Pen, left: float, y: float, long: float, ticks: list[float], words: str) -> None:
    """A bar whose length is from the middle of its first tick to the middle of its last."""
    pen.lines([((left, y), (left + long, y))], _LINE)
    pieces = []
    for at in ticks:
        end = at in (ticks[0], ticks[-1])
        above, below = (_TICK, _TICK) if end else (_TICK / 2, 0.0)
        pieces.append(((left + at, y - above), (left + at, y + below)))
    pen.lines(pieces, _LINE)
    pen.words(words, (left + long / 2, y + 3.4), 8.5, True, "middle")
