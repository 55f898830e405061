"""Filled black rectangles and triangles on a page, in one path so that no hairline parts them.

Callers count in printer dots. The PDF's own unit is the point, written with four decimals, which
keeps every edge within a thousandth of a dot; a unit of one dot would have its scale rounded.
"""

from __future__ import annotations

from collections.abc import Iterable

from fpdf import FPDF
from fpdf.drawing import PaintedPath

POINTS_AN_INCH = 72
Box = tuple[float, float, float, float]
Point = tuple[float, float]
Triangle = tuple[Point, Point, Point]


def fill(pdf: FPDF, dpi: int, boxes: Iterable[Box], triangles: Iterable[Triangle] = ()) -> None:
    """Fill boxes (left, top, width, height) and triangles, all in dots from the top left."""
    dot = POINTS_AN_INCH / dpi
    path = PaintedPath()
    path.style.fill_color = "#000000"
    path.style.stroke_color = None
    for left, top, width, height in boxes:
        path.rectangle(left * dot, top * dot, width * dot, height * dot)
    for first, *others in triangles:
        path.move_to(first[0] * dot, first[1] * dot)
        for x, y in others:
            path.line_to(x * dot, y * dot)
        path.close()
    with pdf.drawing_context() as context:
        context.add_item(path, clone=False)  # the path is used once; copying it is slow
