"""Templates of pieces as a printer puts them down, and what a ruler would find there."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache

import numpy as np
import numpy.typing as npt
import pypdfium2
import pypdfium2.raw as pdfium

from bucktail.offcuts.template.drawing import Template
from bucktail.offcuts.template.marks import draw
from bucktail.offcuts.template.page import Paper
from bucktail.offcuts.template.pdf import template_pdf
from bucktail.offcuts.template.piece import template_of
from bucktail.offcuts.template.shapes import Drawn
from running.pieces import wanted

DPI = 300
CODE = "7K2M9PQ4XZ"
Dots = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Printed:
    """A template with its file and its pages: darkness from 0 (white) to 1, a value a dot."""

    template: Template
    drawn: tuple[Drawn, ...]
    pdf: bytes
    pages: tuple[Dots, ...]


def to_dots(pdf: bytes, dpi: int = DPI) -> tuple[Dots, ...]:
    """Every page as darkness, one value a printer dot."""
    pages = []
    document = pypdfium2.PdfDocument(pdf)
    for page in document:
        width, height = (round(side * dpi / 72) for side in page.get_size())
        bitmap = pypdfium2.PdfBitmap.new_native(width, height, pdfium.FPDFBitmap_Gray)
        bitmap.fill_rect((255, 255, 255, 255), 0, 0, width, height)
        pdfium.FPDF_RenderPageBitmap(bitmap, page, 0, 0, width, height, 0, 0)
        pages.append(1 - bitmap.to_numpy().reshape(height, width) / 255)
    document.close()
    return tuple(pages)


@cache
def printed(name: str, paper: Paper) -> Printed:
    """One of the pieces on paper; made once."""
    laid = template_of(wanted(name), "in", "25 Nov 2026", CODE)
    drawn = draw(laid)
    pdf, pages = template_pdf(laid, drawn, paper, datetime(2026, 11, 25, tzinfo=UTC))
    dots = to_dots(pdf)
    assert len(dots) == pages
    return Printed(laid, drawn, pdf, dots)


def centres(dark: Dots) -> list[float]:
    """The middles of runs of ink in a row of dots, weighed by how dark they are; in dots."""
    found: list[float] = []
    inked = np.flatnonzero(dark > 0.08)
    for run in np.split(inked, np.flatnonzero(np.diff(inked) > 1) + 1):
        if run.size:
            found.append(float((dark[run] * (run + 0.5)).sum() / dark[run].sum()))
    return found


def found_cross(dots: Dots, at: tuple[float, float], radius: float) -> tuple[float, float]:
    """Where the centre lines of a hole really cross, in mm, looked for within 0.8 mm of `at`.

    They are measured where they stand out beyond the circle of this radius (mm).
    """
    mm = 25.4 / DPI
    x, y = at
    near, first, last = 0.8, radius + 0.35, radius + 1.3
    columns = slice(round((x - near) / mm), round((x + near) / mm))
    rows = slice(round((y - near) / mm), round((y + near) / mm))
    upper = dots[round((y - last) / mm) : round((y - first) / mm), columns].sum(axis=0)
    lower = dots[round((y + first) / mm) : round((y + last) / mm), columns].sum(axis=0)
    left = dots[rows, round((x - last) / mm) : round((x - first) / mm)].sum(axis=1)
    right = dots[rows, round((x + first) / mm) : round((x + last) / mm)].sum(axis=1)
    across, down = upper + lower, left + right
    assert across.sum() > 0 and down.sum() > 0, f"no hole is marked at {at}"
    middle_x = (across * (np.arange(across.size) + 0.5)).sum() / across.sum()
    middle_y = (down * (np.arange(down.size) + 0.5)).sum() / down.sum()
    return (columns.start + float(middle_x)) * mm, (rows.start + float(middle_y)) * mm


def found_ring(dots: Dots, at: tuple[float, float], radius: float) -> float:
    """The radius (mm) of the circle drawn about `at`, where no centre line crosses it."""
    mm = 25.4 / DPI
    reach = round((radius + 0.6) / mm) + 1
    middle = (at[0] / mm, at[1] / mm)
    rows = np.arange(round(middle[1]) - reach, round(middle[1]) + reach)
    columns = np.arange(round(middle[0]) - reach, round(middle[0]) + reach)
    dx = (columns + 0.5 - middle[0])[None, :] * mm
    dy = (rows + 0.5 - middle[1])[:, None] * mm
    far = np.hypot(dx, dy)
    aside = (np.abs(dx) > 0.3) & (np.abs(dy) > 0.3) & (np.abs(far - radius) < 0.5)
    ink = dots[np.ix_(rows, columns)] * aside
    assert ink.sum() > 0, f"no circle is drawn about {at}"
    return float((ink * far).sum() / ink.sum())
