"""The pieces on one offcut as they are marked out and cut: datum, running dimensions, order.

Running dimensions all start at one datum, so that errors do not add up along a row. The pieces
farthest from the datum are cut first: the datum edge stays to be measured from until the last.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from bucktail.offcuts.cutplan.sheet import Laid, Sheet
from bucktail.offcuts.cutplan.wanted import Cut, Datum, Point, SheetPlan
from bucktail.offcuts.innerfit import Points, turned
from bucktail.offcuts.laying import QUARTER

#: An edge that turns away by less than this from the frame runs along it (millionths of a degree).
ALONG = 20_000

Box = tuple[int, int, int, int]


def sheet_plan(sheet: Sheet) -> SheetPlan:
    """The plan of one offcut with at least one piece on it."""
    frame = sheet.frame or 0
    datum = datum_of(sheet.stock.metal.outer, frame)
    marked = [_marked(sheet, piece, frame, datum) for piece in sheet.laid]
    boxes = [(cut.along[0], cut.off[0], cut.along[1], cut.off[1]) for cut in marked]
    order, straight = cutting_order(boxes)
    return SheetPlan(
        stock=sheet.stock.id,
        angle=frame,
        datum=datum,
        cuts=tuple(marked[n] for n in order),
        straight=straight,
        worth=sheet.whole.value,
        lost=sheet.lost,
    )


def datum_of(outer: Sequence[Point], frame: int) -> Datum:
    """The longest edge that runs along the frame or square to it; else a line along the frame."""
    ring = np.array(outer, dtype=float)
    steps = np.concatenate([ring[1:], ring[:1]]) - ring
    angles = np.degrees(np.arctan2(steps[:, 1], steps[:, 0])) * 1e6
    off = (angles - frame + QUARTER / 2) % QUARTER - QUARTER / 2
    lengths = np.where(np.abs(off) <= ALONG, np.hypot(steps[:, 0], steps[:, 1]), 0.0)
    n = int(lengths.argmax())
    if lengths[n] > 0:
        return Datum(outer[n], outer[(n + 1) % len(outer)], True)
    square = turned(ring, -frame)
    low, high = square.min(axis=0), square.max(axis=0)
    line = np.rint(turned(np.array([low, (high[0], low[1])]), frame)).astype(int).tolist()
    return Datum((line[0][0], line[0][1]), (line[1][0], line[1][1]), False)


def _marked(sheet: Sheet, piece: Laid, frame: int, datum: Datum) -> Cut:
    corners = sheet.corners(piece, frame)
    along, off = _measured(np.array(corners, dtype=float), datum)
    spans = [(int(one.min()), int(one.max())) for one in (np.rint(along), np.rint(off))]
    four = (corners[0], corners[1], corners[2], corners[3])
    return Cut(piece.want.id, piece.nth, four, spans[0], spans[1])


def _measured(points: Points, datum: Datum) -> tuple[Points, Points]:
    """How far points lie along the datum from its start, and off it, into the metal."""
    start, end = np.array(datum.start, dtype=float), np.array(datum.end, dtype=float)
    way = (end - start) / np.hypot(*(end - start))
    there = points - start
    return there @ way, there @ np.array([-way[1], way[0]])


def cutting_order(boxes: Sequence[Box]) -> tuple[list[int], bool]:
    """The order to cut boxes (x0, y0, x1, y1) in, the farthest first: (their numbers, straight).

    Straight is True where every box comes free by cuts right across what is left.
    """
    if len(boxes) <= 1:
        return list(range(len(boxes))), True
    order, straight = _ordered(list(range(len(boxes))), boxes)
    return order, straight


def _ordered(numbers: list[int], boxes: Sequence[Box]) -> tuple[list[int], bool]:
    if len(numbers) <= 1:
        return numbers, True
    for axis in (1, 0):
        rising = sorted(numbers, key=lambda n: boxes[n][axis])
        for k in range(len(rising) - 1, 0, -1):
            near, far = rising[:k], rising[k:]
            if max(boxes[n][axis + 2] for n in near) <= boxes[far[0]][axis]:
                first, one = _ordered(far, boxes)
                then, two = _ordered(near, boxes)
                return first + then, one and two
    return sorted(numbers, key=lambda n: (-boxes[n][3], -boxes[n][2])), False
