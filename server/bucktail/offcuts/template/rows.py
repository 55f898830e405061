"""Where the holes of a piece stand on its flat blank, from what its sum answers.

The figures are the sum's own (docstrings of rules/pieces); here they are only counted out: a first
hole, a pitch, a number. Millimetres of an answer become whole nanometres.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from bucktail.offcuts.template.drawing import NM_PER_MM, BendLine, Hole, Point
from bucktail.rules.reckon import Flat

Answer = Mapping[str, Flat]
RIGHT_ANGLE = 90


def nm(answer: Answer, key: str) -> int | None:
    """A figure of the answer in millimetres, in nm; None where there is none."""
    value = answer.get(key)
    return round(value * NM_PER_MM) if isinstance(value, int | float) else None


def nms(answer: Answer, key: str) -> list[int]:
    """Figures of the answer in millimetres, in nm; one figure is a list of one."""
    return [round(one * NM_PER_MM) for one in _all(answer, key)]


def _all(answer: Answer, key: str) -> list[float]:
    value = answer.get(key)
    listed = value if isinstance(value, list) else [value]
    return [one for one in listed if isinstance(one, int | float)]


def holes_of(sum_name: str, answer: Answer, diameter: int | None) -> tuple[Hole, ...]:
    """The holes of a piece whose sum answers this; empty where the answer does not place them.

    `diameter` is that of the finished hole. A hole beyond the blank would mean that sum and blank
    do not belong together: then none is given.
    """
    place = PLACED.get(sum_name)
    size = nm(answer, "blank_a_mm"), nm(answer, "blank_b_mm")
    if place is None or size[0] is None or size[1] is None:
        return ()
    found = tuple(place(answer, (size[0], size[1])))
    inside = all(0 < x < size[0] and 0 < y < size[1] for x, y in found)
    return tuple(Hole(x, y, diameter) for x, y in found) if inside else ()


def _along_a(answer: Answer, _size: Point) -> Iterator[Point]:
    """One row along side a: shims and stiffeners."""
    first, pitch, rows = nm(answer, "first_mm"), nm(answer, "pitch_mm"), nms(answer, "rows_at_mm")
    count = answer.get("holes")
    if first is None or pitch is None or not isinstance(count, int):
        return
    for y in rows:
        for at in range(count):
            yield first + at * pitch, y


def _patch(answer: Answer, size: Point) -> Iterator[Point]:
    """Rows across the load before and behind the hole, each in the middle of its side."""
    pitch, count, most = nm(answer, "pitch_mm"), answer.get("count"), answer.get("in_row")
    if pitch is None or not isinstance(count, int) or not isinstance(most, int):
        return
    for row, x in enumerate(nms(answer, "rows_at_mm")):
        # the row beside the hole has those that are left over
        there = min(most, count - row * most)
        start = round((size[1] - (there - 1) * pitch) / 2)
        for at in range(there):
            yield x, start + at * pitch
            yield size[0] - x, start + at * pitch


def _splice(answer: Answer, size: Point) -> Iterator[Point]:
    """The rows of each leg, the same on both sides of the joint."""
    first, pitch = nm(answer, "first_mm"), nm(answer, "pitch_mm")
    legs = zip(
        nms(answer, "first_rows_mm"),
        *([int(one) for one in _all(answer, key)] for key in ("counts", "rows", "in_row")),
        strict=False,
    )
    gap = nm(answer, "row_gap_mm") or 0
    if first is None or pitch is None:
        return
    for nearest, count, rows, most in legs:
        for row in range(rows):
            for at in range(min(most, count - row * most)):
                yield first + at * pitch, nearest + row * gap
                yield size[0] - first - at * pitch, nearest + row * gap


PLACED: dict[str, Callable[[Answer, Point], Iterator[Point]]] = {
    "shim": _along_a,
    "stiffener": _along_a,
    "patch": _patch,
    "section-splice": _splice,
}


def bends_of(answer: Answer) -> tuple[BendLine, ...]:
    """The bends of a piece in the order they lie on its flat; every bend of a piece is square."""
    radius = nm(answer, "radius_mm")
    keys = ("bend_lines_mm", "bend_starts_mm", "bend_ends_mm", "sight_lines_mm")
    if not radius:
        return ()
    lines = zip(*(nms(answer, key) for key in keys), strict=False)
    return tuple(
        BendLine(at, RIGHT_ANGLE, radius, start, end, sight) for at, start, end, sight in lines
    )


def opening_of(answer: Answer) -> tuple[Point, Point] | None:
    """The hole that a patch covers, two corners on its blank; None for other pieces."""
    margin = nm(answer, "margin_mm")
    a, b = nm(answer, "blank_a_mm"), nm(answer, "blank_b_mm")
    if margin is None or a is None or b is None:
        return None
    return (margin, margin), (a - margin, b - margin)
