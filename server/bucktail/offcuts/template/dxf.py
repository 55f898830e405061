"""A template as DXF: millimetres, R2010, one layer for each meaning, no words about the piece lost.

Nanometres become millimetres with six decimals and come back as the same whole numbers.
"""

from __future__ import annotations

from collections.abc import Sequence
from io import StringIO
from math import pi, tan
from typing import TYPE_CHECKING

from bucktail.offcuts.template.drawing import NM_PER_MM, Point, Template
from bucktail.offcuts.template.shapes import (
    LAYERS,
    Arrowhead,
    Circle,
    Drawn,
    Layer,
    Line,
    Rectangle,
    Shape,
    Words,
)

if TYPE_CHECKING:
    from ezdxf.layouts import Modelspace

#: as the DXF reference numbers them: $INSUNITS 4 is millimetres, $MEASUREMENT 1 metric
MILLIMETRES, METRIC = 4, 1
LINETYPES: dict[Layer, str] = {
    "BEND_LINES": "DASHDOT",
    "BEND_TANGENTS": "DASHED2",
    "SIGHT_LINES": "DASHED",
    "OPENING": "DASHED",
}
BETWEEN = 20 * NM_PER_MM  # from one blank to the next
_CORNER = tan(pi / 8)  # the bulge of a quarter circle
_TEXT = 3.0
_LINE = 5.0


def template_dxf(template: Template, drawn: Sequence[Drawn]) -> bytes:
    """The DXF, as UTF-8 text. A second blank stands to the right of the first."""
    import ezdxf  # costs a third of a second: only where a DXF is asked for

    document = ezdxf.new("R2010", setup=["linetypes"])
    document.header["$INSUNITS"] = MILLIMETRES
    document.header["$MEASUREMENT"] = METRIC
    for layer in LAYERS:
        attributes = {"linetype": LINETYPES[layer]} if layer in LINETYPES else {}
        document.layers.add(layer, **attributes)  # type: ignore[arg-type]
    space = document.modelspace()
    right = 0
    for one in drawn:
        shift = right - one.reach[0] if right else 0
        for shape in one.shapes:
            _draw(space, shape, shift)
        right = shift + one.reach[2] + BETWEEN
    _say(space, template, drawn[0].reach[1])
    text = StringIO()
    document.write(text)
    return text.getvalue().encode("utf-8")


def _draw(space: Modelspace, shape: Shape, shift: int) -> None:
    """Put one shape into the drawing, moved to the right by `shift`."""
    look = {"layer": shape.layer}
    match shape:
        case Rectangle():
            space.add_lwpolyline(_ring(shape, shift), format="xyb", close=True, dxfattribs=look)
        case Line(start=start, end=end):
            space.add_line(_mm(start, shift), _mm(end, shift), dxfattribs=look)
        case Circle(centre=centre, diameter=diameter):
            space.add_circle(_mm(centre, shift), diameter / 2 / NM_PER_MM, dxfattribs=look)
        case Arrowhead(corners=(tip, one, other)):
            places = [_mm(tip, shift), _mm(one, shift), _mm(other, shift)]
            space.add_solid(places, dxfattribs=look)
        case Words():
            _words(space, shape, shift)


def _words(space: Modelspace, words: Words, shift: int) -> None:
    from ezdxf.enums import TextEntityAlignment

    # a DXF counts the height of capitals, which is about seven tenths of the type size
    text = space.add_text(
        words.text,
        height=words.height * 0.7 / NM_PER_MM,
        rotation=90 if words.upright else 0,
        dxfattribs={"layer": words.layer},
    )
    text.set_placement(_mm(words.at, shift), align=TextEntityAlignment.MIDDLE_CENTER)


def _say(space: Modelspace, template: Template, below: int) -> None:
    """All that is said of the piece, line by line beneath it."""
    tag = [f"Tag {template.code[:5]} {template.code[5:]}"] if template.code else []
    lines = [
        f"{template.name}. At full size, millimetres. {template.made}, rules {template.rules}",
        *tag,
        *(blank.name + ": " + blank.sheet for blank in template.blanks),
        *template.facts,
        *template.remarks,
        *template.cautions,
    ]
    for place, line in enumerate(lines, start=2):
        at = (0.0, below / NM_PER_MM - place * _LINE)
        # a line of text in a DXF holds at most 255 signs
        text = space.add_text(line[:250], height=_TEXT, dxfattribs={"layer": "NOTES"})
        text.set_placement(at)


def _ring(shape: Rectangle, shift: int) -> list[tuple[float, float, float]]:
    """Corners as (x, y, bulge to the next), anticlockwise."""
    a, b, r = shape.a, shape.b, shape.corner
    if not r:
        return [(*_mm(point, shift), 0.0) for point in ((0, 0), (a, 0), (a, b), (0, b))]
    starts = ((r, 0), (a, r), (a - r, b), (0, b - r))
    ends = ((a - r, 0), (a, b - r), (r, b), (0, r))
    ring: list[tuple[float, float, float]] = []
    for start, end in zip(starts, ends, strict=True):
        ring += [(*_mm(start, shift), 0.0), (*_mm(end, shift), _CORNER)]
    return ring


def _mm(point: Point, shift: int) -> tuple[float, float]:
    return ((point[0] + shift) / NM_PER_MM, point[1] / NM_PER_MM)
