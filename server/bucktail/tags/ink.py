"""Filled black rectangles and triangles on a page, in one path so that no hairline parts them."""

from __future__ import annotations

from collections.abc import Iterable

from fpdf import FPDF
from fpdf.drawing import PaintedPath

Box = tuple[float, float, float, float]
Point = tuple[float, float]


def fill(
    pdf: FPDF, boxes: Iterable[Box], triangles: Iterable[tuple[Point, Point, Point]] = ()
) -> None:
    """Fill boxes (left, top, width, height) and triangles, in the page's unit."""
    path = PaintedPath()
    path.style.fill_color = "#000000"
    path.style.stroke_color = None
    for box in boxes:
        path.rectangle(*box)
    for first, second, third in triangles:
        path.move_to(*first).line_to(*second).line_to(*third).close()
    with pdf.drawing_context() as context:
        context.add_item(path, clone=False)  # the path is used once; copying it is slow
