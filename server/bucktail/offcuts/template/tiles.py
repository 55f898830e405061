"""A drawing larger than a sheet of paper: the pages it takes, and how they join.

Neighbouring pages show a strip of the drawing twice. The line in the middle of that strip is on
both of them: one page is cut along it and laid on the other so that the marks on it meet.
"""

from __future__ import annotations

from dataclasses import dataclass
from string import ascii_uppercase

from bucktail.offcuts.template.drawing import NM_PER_MM, Point
from bucktail.offcuts.template.shapes import Box, apart, grown

OVERLAP = 10 * NM_PER_MM
MARK = 4 * NM_PER_MM  # half a join mark
NAMED = 15 * NM_PER_MM  # from its middle to the end of its words
LONG = 60 * NM_PER_MM  # what is longer has to cross the lines
BESIDE = 3 * NM_PER_MM // 2
MOST_PAGES = 100
_TRIES = 15


class TooLarge(ValueError):
    """The drawing takes more pages than anyone would join; the message says what would do."""


@dataclass(frozen=True, slots=True)
class Join:
    """A mark on the line between two pages, which it names. `upright` where that line is."""

    at: Point
    pages: str
    upright: bool


@dataclass(frozen=True, slots=True)
class Tile:
    """One page: the part of the drawing it shows (nm), the lines to join it along, its marks."""

    name: str
    row: int
    column: int
    window: Box
    seams_x: tuple[int, ...]
    seams_y: tuple[int, ...]
    joins: tuple[Join, ...]


def pages_for(size: Point, window: Point) -> tuple[int, int]:
    """How many columns and rows of pages a drawing of this size takes; all in nm."""
    columns, rows = (_count(one, room) for one, room in zip(size, window, strict=True))
    return columns, rows


def _count(size: int, room: int) -> int:
    return max(1, -(-(size - OVERLAP) // (room - OVERLAP)))


def tiles_of(drawn: Box, window: Point, keep_clear: tuple[Box, ...] = ()) -> tuple[Tile, ...]:
    """The pages of a drawing that reaches over `drawn`, in rows from the top, A1 top left.

    `window` is what one page shows; marks keep off `keep_clear`. Raises TooLarge.
    """
    size = drawn[2] - drawn[0], drawn[3] - drawn[1]
    columns, rows = pages_for(size, window)
    if columns * rows > MOST_PAGES:
        raise TooLarge(
            f"At full size this piece takes {columns * rows} pages of this paper. Take the DXF or "
            "the SVG and have it plotted."
        )
    across = [(box[0], box[2]) for box in keep_clear if box[2] - box[0] < LONG]
    up = [(box[1], box[3]) for box in keep_clear if box[3] - box[1] < LONG]
    lefts = _starts(drawn[0], size[0], window[0], columns, across)
    bottoms = _starts(drawn[1], size[1], window[1], rows, up)[::-1]
    seams_x = [left + OVERLAP // 2 for left in lefts[1:]]
    seams_y = [bottom + window[1] - OVERLAP // 2 for bottom in bottoms[1:]]
    joins = _joins(lefts, bottoms, window, (seams_x, seams_y), keep_clear)
    found = []
    for row, bottom in enumerate(bottoms):
        for column, left in enumerate(lefts):
            box = (left, bottom, left + window[0], bottom + window[1])
            found.append(
                Tile(
                    name=f"{_letters(row)}{column + 1}",
                    row=row,
                    column=column,
                    window=box,
                    seams_x=tuple(x for x in seams_x if box[0] < x < box[2]),
                    seams_y=tuple(y for y in seams_y if box[1] < y < box[3]),
                    joins=tuple(join for join in joins if _holds(box, join.at)),
                )
            )
    return tuple(found)


def _letters(row: int) -> str:
    """A to Z, then AA and so on."""
    again, letter = divmod(row, len(ascii_uppercase))
    return (_letters(again - 1) if again else "") + ascii_uppercase[letter]


def _starts(low: int, size: int, room: int, count: int, marks: list[tuple[int, int]]) -> list[int]:
    """Where the pages begin: as near to the middle of the drawing as may be, with the fewest marks
    (from, to) on the lines between them."""
    spare = (count * room - (count - 1) * OVERLAP - size) // 2
    step = room - OVERLAP

    def crossed(shift: int) -> tuple[int, int]:
        first = low - spare + shift + OVERLAP // 2
        seams = [first + at * step for at in range(1, count)]
        on = sum(a - BESIDE < seam < b + BESIDE for a, b in marks for seam in seams)
        return on, abs(shift)

    shifts = [way * at for at in range(0, spare + 1, NM_PER_MM) for way in (1, -1)]
    first = low - spare + (min(shifts, key=crossed) if count > 1 else 0)
    return [first + at * step for at in range(count)]


def _joins(
    lefts: list[int],
    bottoms: list[int],
    window: Point,
    seams: tuple[list[int], list[int]],
    keep_clear: tuple[Box, ...],
) -> list[Join]:
    """Two marks on every stretch of line between two pages, each with the names of both."""
    found: list[Join] = []
    for row, bottom in enumerate(bottoms):
        for column, x in enumerate(seams[0]):
            pages = f"{_letters(row)}{column + 1} | {_letters(row)}{column + 2}"
            for quarter in (1, 3):
                wanted = bottom + window[1] * quarter // 4
                spots = [(x, wanted + by) for by in _tried()]
                found.append(Join(_clear(spots, keep_clear, True), pages, True))
    for row, y in enumerate(seams[1]):
        for column, left in enumerate(lefts):
            pages = f"{_letters(row)}{column + 1} | {_letters(row + 1)}{column + 1}"
            for quarter in (1, 3):
                wanted = left + window[0] * quarter // 4
                spots = [(wanted + by, y) for by in _tried()]
                found.append(Join(_clear(spots, keep_clear, False), pages, False))
    return found


def _tried() -> list[int]:
    step = 2 * NM_PER_MM
    return [way * at * step for at in range(_TRIES) for way in ((1, -1) if at else (1,))]


def _clear(spots: list[Point], keep_clear: tuple[Box, ...], upright: bool) -> Point:
    """The first spot whose mark and words are clear of all else; the first of all where none is."""
    for x, y in spots:
        right, top = (MARK, NAMED) if upright else (NAMED, MARK)
        mark = (x - MARK, y - MARK, x + right, y + top)
        if all(apart(mark, box) for box in keep_clear):
            return x, y
    return spots[0]


def _holds(box: Box, at: Point) -> bool:
    inner = grown(box, -MARK)
    return inner[0] <= at[0] <= inner[2] and inner[1] <= at[1] <= inner[3]
