"""The words of a template: what the piece is, what to heed, its tag, and the key to its lines."""

from __future__ import annotations

from bucktail.offcuts.template.drawing import Template
from bucktail.offcuts.template.inking import LOOKS
from bucktail.offcuts.template.pen import Pen
from bucktail.offcuts.template.shapes import MEANS, Layer, Shape
from bucktail.tags.draw import CODE_MODULES, SIZES, draw_symbol, largest_symbol, matrix

FACTS, SMALL = 9.5, 8.0
GAP = 1.6
TAG_MM = 25.0
#: the dots that the tag's squares are whole numbers of; most printers for paper have these
DPI = 300


def story_height(pen: Pen, template: Template, shapes: tuple[Shape, ...], width: float) -> float:
    """How high the words will be in this width; mm."""
    return draw_story(pen, template, shapes, (0, 0), width, draw=False)


def draw_story(
    pen: Pen,
    template: Template,
    shapes: tuple[Shape, ...],
    at: tuple[float, float],
    width: float,
    draw: bool = True,
) -> float:
    """Set the words below `at` and return how high they are; mm."""
    left, top = at
    room = width - TAG_MM - 6 if template.code else width
    y = top + 1
    for text, points in (
        *((one, FACTS) for one in template.facts),
        *((one, SMALL) for one in template.remarks),
    ):
        high = pen.height(text, room, points)
        if draw:
            pen.paragraph(text, (left, y), room, points)
        y += high + (0.5 if points == FACTS else 0.8)
    y += GAP
    for layer in _shown(shapes):
        if draw:
            look = LOOKS[layer]
            pen.lines([((left, y + 2), (left + 18, y + 2))], look.width, look.dash)
            pen.words(MEANS[layer], (left + 20, y + 3), SMALL)
        y += 4.2
    if template.code:
        if draw:
            _tag(pen, template.code, left + width - TAG_MM, top + 1)
        y = max(y, top + TAG_MM + 8)
    return y - top + GAP


def _shown(shapes: tuple[Shape, ...]) -> list[Layer]:
    """The layers on the drawing that need to be explained."""
    there = {one.layer for one in shapes}
    return [layer for layer in MEANS if layer in there]


def _tag(pen: Pen, code: str, left: float, top: float) -> None:
    """The tag's symbol with its code beneath."""
    symbol = largest_symbol(SIZES["normal"], CODE_MODULES, TAG_MM, DPI)
    if symbol is None:
        raise ValueError(f"a tag does not fit {TAG_MM} mm")
    dots = DPI / 25.4
    draw_symbol(pen.pdf, matrix(code), symbol, round(left * dots), round(top * dots))
    middle = left + symbol.side_mm / 2
    pen.words(f"{code[:5]} {code[5:]}", (middle, top + symbol.side_mm + 2.5), 10, True, "middle")
