"""The lines of a template by what they mean, the same for paper, DXF and SVG.

Whole nanometres; x to the right along side a, y up along side b, the blank's corner at its datum
edge in the origin.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from bucktail.offcuts.template.drawing import Blank, Point

Layer = Literal[
    "OUTLINE", "HOLES", "HOLE_CENTRES", "BEND_LINES", "BEND_TANGENTS", "SIGHT_LINES",
    "OPENING", "GRAIN", "DIMENSIONS", "NOTES",
]  # fmt: skip
LAYERS: tuple[Layer, ...] = (
    "OUTLINE", "HOLES", "HOLE_CENTRES", "BEND_LINES", "BEND_TANGENTS", "SIGHT_LINES",
    "OPENING", "GRAIN", "DIMENSIONS", "NOTES",
)  # fmt: skip
#: what each layer shows, in words, for a key to the lines
MEANS: dict[Layer, str] = {
    "BEND_LINES": "bend line: the middle of the bend",
    "BEND_TANGENTS": "tangent lines: where a bend begins and ends",
    "SIGHT_LINES": "sight line: under the nose of the brake, with the datum edge in the brake",
    "OPENING": "the hole that it covers; nothing is cut here",
}


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A rectangle from the origin, its corners rounded by quarter circles of radius `corner`."""

    layer: Layer
    a: int
    b: int
    corner: int = 0


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    layer: Layer
    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Circle:
    """A whole circle."""

    layer: Layer
    centre: Point
    diameter: int


@dataclass(frozen=True, slots=True)
class Arrowhead:
    """A filled triangle."""

    layer: Layer
    corners: tuple[Point, Point, Point]


@dataclass(frozen=True, slots=True)
class Words:
    """A line of text whose middle is at `at`; `height` is the type size, `upright` turns it to read
    from below. `bold` where it is the name."""

    layer: Layer
    at: Point
    height: int
    text: str
    upright: bool = False
    bold: bool = False


Shape: TypeAlias = Rectangle | Line | Circle | Arrowhead | Words
#: left, bottom, right, top
Box: TypeAlias = tuple[int, int, int, int]


def box_of(shape: Shape) -> Box:
    """The room that a shape takes; that of words is reckoned from how many there are."""
    match shape:
        case Rectangle(a=a, b=b):
            return (0, 0, a, b)
        case Line(start=start, end=end):
            return _round((start, end))
        case Circle(centre=(x, y), diameter=diameter):
            half = -(-diameter // 2)
            return (x - half, y - half, x + half, y + half)
        case Arrowhead(corners=corners):
            return _round(corners)
        case Words():
            return words_box(shape)


def words_box(words: Words) -> Box:
    """The room of a line of text."""
    long, high = text_width(words.text, words.height), words.height
    across, up = (high, long) if words.upright else (long, high)
    x, y = words.at
    return (x - across // 2, y - up // 2, x + across // 2, y + up // 2)


def text_width(text: str, height: int) -> int:
    """How wide a line of text is, generously: six tenths of its size for each sign."""
    return len(text) * height * 6 // 10


def _round(points: tuple[Point, ...]) -> Box:
    across, up = [x for x, _ in points], [y for _, y in points]
    return (min(across), min(up), max(across), max(up))


def apart(one: Box, other: Box) -> bool:
    """True where two boxes do not touch."""
    return one[2] < other[0] or other[2] < one[0] or one[3] < other[1] or other[3] < one[1]


def grown(box: Box, by: int) -> Box:
    """A box larger by `by` on every side."""
    return (box[0] - by, box[1] - by, box[2] + by, box[3] + by)


def extent(shapes: tuple[Shape, ...]) -> Box:
    """The room that all of them take together."""
    boxes = [box_of(shape) for shape in shapes]
    return (
        min(box[0] for box in boxes),
        min(box[1] for box in boxes),
        max(box[2] for box in boxes),
        max(box[3] for box in boxes),
    )


@dataclass(frozen=True, slots=True)
class Drawn:
    """A blank with its lines."""

    blank: Blank
    shapes: tuple[Shape, ...]

    @property
    def reach(self) -> Box:
        """The room its lines and words take; nm."""
        return extent(self.shapes)
