"""From a blank to its lines: outline, holes, bends, grain, sides, and words where there is room.

Words on the blank itself go with the template when it is cut out; they stand clear of all marks,
smaller or not at all where there is no room.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from bucktail.offcuts.template.drawing import NM_PER_MM, BendLine, Blank, Hole, Point, Template
from bucktail.offcuts.template.shapes import (
    Arrowhead,
    Box,
    Circle,
    Drawn,
    Layer,
    Line,
    Rectangle,
    Shape,
    Words,
    apart,
    box_of,
    grown,
    text_width,
    words_box,
)
from bucktail.rules.lengths import Unit, show_length

MM = NM_PER_MM
ARM = 3 * MM // 2  # a centre line beyond the hole
CENTRE_ARM = 2 * MM  # of a centre without a circle
TEXT = 5 * MM // 2
SMALL = 2 * MM
CLEAR = MM  # from words to any mark
OFF = 5 * MM  # from the blank to the line of its length
EVERY = 150 * MM  # words on a bend line are repeated
HEAD = 2 * MM  # of an arrow
ONE_PAGE, FIRST_PAGE = 180 * MM, 80 * MM  # what surely goes on a page, and its middle
ARROW_MOST, ARROW_LEAST = 50 * MM, 16 * MM


def draw(template: Template) -> tuple[Drawn, ...]:
    """Every blank of a template with its lines."""
    code = f"{template.code[:5]} {template.code[5:]}" if template.code else ""
    return tuple(
        Drawn(blank, shapes_of(blank, template.unit, template.hole_size, "" if filler else code))
        for filler, blank in enumerate(template.blanks)
    )


def shapes_of(blank: Blank, unit: Unit, size: str = "", code: str = "") -> tuple[Shape, ...]:
    """All lines of a blank. `size` says how large its holes are; `code` is its tag as shown."""
    shapes: list[Shape] = [Rectangle("OUTLINE", blank.a, blank.b, blank.corner)]
    for hole in blank.holes:
        shapes += _hole(hole)
    if blank.opening:
        shapes += _opening(*blank.opening)
    bends = [one for bend in blank.bends for one in _bend(bend, blank)]
    shapes += bends
    shapes += _sides(blank, unit)
    shapes += _grain(blank, shapes)
    shapes += _size(blank, size, shapes)
    shapes += _names(blank, code, shapes)
    return tuple(shapes)


def _hole(hole: Hole) -> Iterator[Shape]:
    arm = CENTRE_ARM
    if hole.diameter is not None:
        yield Circle("HOLES", (hole.x, hole.y), hole.diameter)
        arm = hole.diameter // 2 + ARM
    yield Line("HOLE_CENTRES", (hole.x - arm, hole.y), (hole.x + arm, hole.y))
    yield Line("HOLE_CENTRES", (hole.x, hole.y - arm), (hole.x, hole.y + arm))


def _opening(low: Point, high: Point) -> Iterator[Shape]:
    corners = (low, (high[0], low[1]), high, (low[0], high[1]), low)
    for start, end in pairwise(corners):
        yield Line("OPENING", start, end)


def _bend(bend: BendLine, blank: Blank) -> Iterator[Shape]:
    for at in (bend.start, bend.end):
        if at is not None:
            yield Line("BEND_TANGENTS", (0, at), (blank.a, at))
    words = f"bend up {bend.angle}°"
    gaps = list(_gaps(bend.at, blank, words))
    yield from _broken("BEND_LINES", bend.at, blank.a, gaps)
    if bend.sight is not None:
        near = abs(bend.sight - bend.at) < SMALL
        yield from _broken("SIGHT_LINES", bend.sight, blank.a, gaps if near else [])
    for middle, _ in gaps:
        yield Words("NOTES", (middle, bend.at), SMALL, words)


def _broken(layer: Layer, at: int, long: int, gaps: list[tuple[int, int]]) -> Iterator[Line]:
    """A line along side a that leaves room for words: each gap by its middle and its width."""
    starts = [0, *(middle + wide // 2 for middle, wide in gaps)]
    ends = [*(middle - wide // 2 for middle, wide in gaps), long]
    for start, end in zip(starts, ends, strict=True):
        yield Line(layer, (start, at), (end, at))


def _gaps(at: int, blank: Blank, words: str) -> Iterator[tuple[int, int]]:
    """Where a bend line is broken for its words, as (middle, width), clear of the holes."""
    wide = text_width(words, SMALL) + 2 * MM
    if wide + 6 * MM > blank.a:
        return
    first = min(30 * MM, blank.a // 2)
    for middle in range(first, max(first + 1, blank.a - EVERY // 2), EVERY):
        while middle + wide // 2 < blank.a and not all(
            abs(hole.y - at) > 4 * MM or abs(hole.x - middle) > wide // 2 + 4 * MM
            for hole in blank.holes
        ):
            middle += MM
        if middle + wide // 2 < blank.a:
            yield middle, wide


def _sides(blank: Blank, unit: Unit) -> Iterator[Shape]:
    """The lengths of both sides, below and to the left of the blank."""
    below, left = -OFF, -OFF
    for end in (0, blank.a):
        yield Line("DIMENSIONS", (end, -MM), (end, below - MM))
    yield from _dimension((0, below), (blank.a, below), show_length(blank.a, unit))
    for end in (0, blank.b):
        yield Line("DIMENSIONS", (-MM, end), (left - MM, end))
    yield from _dimension((left, 0), (left, blank.b), show_length(blank.b, unit))
    if blank.bends:
        yield Words("NOTES", (min(12 * MM, blank.a // 2), -5 * MM // 2), SMALL, "datum edge")


def _dimension(start: Point, end: Point, text: str) -> Iterator[Shape]:
    """A line with arrowheads at both ends and its text in a gap of it; short ones have slashes."""
    upright = start[0] == end[0]
    long = end[1] - start[1] if upright else end[0] - start[0]
    wide = text_width(text, TEXT) + 2 * MM
    middle = ((start[0] + end[0]) // 2, (start[1] + end[1]) // 2)

    def along(point: Point, by: int) -> Point:
        return (point[0], point[1] + by) if upright else (point[0] + by, point[1])

    if long < wide + 4 * HEAD:
        # too short for its text: that stands beyond its end
        yield Line("DIMENSIONS", start, end)
        beside = along(end, wide // 2)
        yield Words("DIMENSIONS", beside, TEXT, text, upright)
        return
    yield Line("DIMENSIONS", along(start, HEAD), along(middle, -wide // 2))
    yield Line("DIMENSIONS", along(middle, wide // 2), along(end, -HEAD))
    yield _head("DIMENSIONS", start, along(start, HEAD))
    yield _head("DIMENSIONS", end, along(end, -HEAD))
    yield Words("DIMENSIONS", middle, TEXT, text, upright)


def _head(layer: str, tip: Point, back: Point) -> Arrowhead:
    """An arrowhead from its tip to the middle of its back."""
    aside = ((back[1] - tip[1]) // 4, (tip[0] - back[0]) // 4)
    return Arrowhead(
        "GRAIN" if layer == "GRAIN" else "DIMENSIONS",
        (tip, (back[0] + aside[0], back[1] + aside[1]), (back[0] - aside[0], back[1] - aside[1])),
    )


def _grain(blank: Blank, shapes: list[Shape]) -> list[Shape]:
    """The arrow along the grain: on the blank where there is room, else beside it."""
    if not blank.grain:
        return []
    upright = blank.grain == "b"
    side = blank.b if upright else blank.a
    most = min(ARROW_MOST, side * 6 // 10)
    for long in (most, most * 3 // 4, most // 2):
        wide, high = (4 * MM, long) if upright else (long, 4 * MM)
        at = _room(blank, shapes, wide, high) if long >= ARROW_LEAST else None
        if at:
            return list(_arrow(at, long, upright))
    long = max(ARROW_LEAST, min(most, side))
    beside = (blank.a + 4 * MM, blank.b // 2) if upright else (blank.a // 2, blank.b + 4 * MM)
    return list(_arrow(beside, long, upright))


def _arrow(at: Point, long: int, upright: bool) -> Iterator[Shape]:
    """A double-headed arrow with the word grain in its middle."""
    x, y = at
    gap = text_width("grain", TEXT) // 2 + MM
    for way in (-1, 1):
        inner, outer = way * gap, way * (long // 2)
        back = outer - way * HEAD
        if upright:
            tip, shaft = (x, y + outer), ((x, y + inner), (x, y + back))
            yield _head("GRAIN", tip, (x, y + back))
        else:
            tip, shaft = (x + outer, y), ((x + inner, y), (x + back, y))
            yield _head("GRAIN", tip, (x + back, y))
        if abs(back) > abs(inner):
            yield Line("GRAIN", *shaft)
    yield Words("GRAIN", at, TEXT, "grain", upright)


def _size(blank: Blank, size: str, shapes: list[Shape]) -> list[Shape]:
    """How large the holes are, on the blank near the first of them."""
    if not blank.holes or not size:
        return []
    words = f"{len(blank.holes)} holes, {size}"
    return _placed(blank, shapes, (words, f"{len(blank.holes)} × {size.split(',')[0]}"), False)


def _names(blank: Blank, code: str, shapes: list[Shape]) -> list[Shape]:
    """The piece's name, its sheet and its tag's code, one under the other where there is room."""
    found: list[Shape] = []
    names = (blank.name, f"{blank.name[:18].rstrip()} …", blank.name.split(" ")[0])
    for place, tries in enumerate((names, (blank.sheet,), (code,))):
        if all(tries):
            found += _placed(blank, [*shapes, *found], tries, place == 0)
    return found


def _placed(blank: Blank, shapes: list[Shape], tries: tuple[str, ...], bold: bool) -> list[Shape]:
    """The first of the texts that finds room, in the larger or the smaller size; else nothing."""
    for text in tries:
        for height in (TEXT, SMALL):
            wide = text_width(text, height)
            at = _room(blank, shapes, wide, height)
            if at:
                return [Words("NOTES", at, height, text, bold=bold)]
    return []


def _room(blank: Blank, shapes: list[Shape], wide: int, high: int) -> Point | None:
    """The middle of a free place on the blank, as near to its own middle as may be; on a long one,
    near to where its first page has its middle."""
    if wide + 4 * CLEAR > blank.a or high + 2 * CLEAR > blank.b:
        return None
    taken = [grown(_taken(one), CLEAR) for one in shapes if not isinstance(one, Rectangle)]
    half = (wide // 2, high // 2)
    low, high = half[1] + CLEAR, blank.b - half[1] - CLEAR
    first, last = half[0] + 2 * CLEAR, blank.a - half[0] - 2 * CLEAR
    for y in _steps(low, high, _wanted(low, high, blank.b, True), 20):
        near = [box for box in taken if not (box[3] < y - half[1] or box[1] > y + half[1])]
        for x in _steps(first, last, _wanted(first, last, blank.a, False), 30):
            box: Box = (x - half[0], y - half[1], x + half[0], y + half[1])
            if all(apart(box, one) for one in near):
                return x, y
    return None


def _taken(shape: Shape) -> Box:
    return words_box(shape) if isinstance(shape, Words) else box_of(shape)


def _steps(low: int, high: int, wanted: int, most: int) -> list[int]:
    """Places from the one wanted outwards, about so many on either side."""
    step = max(MM, (high - low) // (2 * most))
    places = range(low + (wanted - low) % step, high + 1, step)
    return sorted(places, key=lambda place: abs(place - wanted))


def _wanted(low: int, high: int, side: int, from_high: bool) -> int:
    """The middle; on a side that is too long for one page, a place on the first of them."""
    if side <= ONE_PAGE:
        return (low + high) // 2
    return max(low, side - FIRST_PAGE) if from_high else min(high, FIRST_PAGE)
