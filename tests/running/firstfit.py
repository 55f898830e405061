"""The plan that a cut plan is compared with, and the worth that a plan loses, looked at closely.

First fit, largest first, bottom left: each piece, the largest first, goes on the first offcut that
holds it, as low there as it can and then as far left. The offcuts stand in the order they are given
in, or the smallest first. It lays pieces square to the same lines, keeps the same kerf, grain and
metal, and knows nothing of worth.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from random import Random

import numpy as np
from shapely import Polygon

from bucktail.offcuts.cutplan.greedy import single_pieces, why_not
from bucktail.offcuts.cutplan.sheet import Offer, Sheet
from bucktail.offcuts.cutplan.wanted import Cutting, Plan, Stock, Task, Wanted
from bucktail.offcuts.innerfit import rings_of, turned
from bucktail.offcuts.laying import QUARTER, directions
from bucktail.offcuts.outline import Outline
from bucktail.offcuts.worth import Size, Worth, frames_of
from running.blanks import MM

#: What lies on an offcut: its turn, then lower left corner and sides of each piece in that frame.
Boxes = tuple[int, list[tuple[int, int, int, int]]]


def drawn_task(
    draw: Random, metals: Sequence[Outline], wants: int, kinds: int, kerf: int = 2 * MM
) -> Task:
    """A seeded task: pieces of 20 to 350 mm, of so many kinds of metal, over these offcuts."""
    kind_of = {f"o{n}": draw.randrange(kinds) for n in range(len(metals))}
    asked = {f"w{n}": draw.randrange(kinds) for n in range(wants)}

    def size() -> tuple[int, int]:
        return round(25 * 14 ** draw.random()) * MM, round(20 * 10 ** draw.random()) * MM

    stock = tuple(
        Stock(f"o{n}", "", metal, draw.choice(("a", "b", "unknown")))
        for n, metal in enumerate(metals)
    )
    pieces = tuple(
        Wanted(f"w{n}", "", *size(), 1, draw.choice(("any", "any", "along width")))
        for n in range(wants)
    )
    sizes = tuple(Size(*size()) for _ in range(20))

    def serves(want: Wanted, one: Stock) -> str:
        return "" if asked[want.id] == kind_of[one.id] else "another metal"

    return Task(pieces, stock, Cutting(kerf), sizes, serves)


def first_fit(task: Task, smallest_first: bool = False) -> tuple[dict[str, Boxes], int]:
    """The plan by first fit: what lies on each offcut by its id, and how many pieces found none."""
    sheets = [Sheet(one, task.cutting, ()) for one in task.stock]
    if smallest_first:
        sheets.sort(key=lambda sheet: sheet.area)
    missed = 0
    for want, nth in single_pieces(task.wants):
        for sheet in sheets:
            if not why_not(task, want, sheet.stock) and (offer := _bottom_left(sheet, want)):
                sheet.lay(want, nth, offer)
                break
        else:
            missed += 1
    laid = {
        sheet.stock.id: (
            sheet.frame or 0,
            [(one.x, one.y, one.width, one.height) for one in sheet.laid],
        )
        for sheet in sheets
        if sheet.laid
    }
    return laid, missed


def _bottom_left(sheet: Sheet, want: Wanted) -> Offer | None:
    """The lowest place, then the leftmost, in the first frame that has one."""
    best: Offer | None = None
    for frame, on_side in sheet.ways(want):
        if best is not None and frame != best.frame:
            break
        width, height = (want.height, want.width) if on_side else (want.width, want.height)
        places = sheet.places(frame, width, height)
        for place in places[np.lexsort((places[:, 0], places[:, 1]))]:
            at = sheet.exact(frame, place, width, height)
            if at is not None:
                if best is None or (at[1], at[0]) < (best.y, best.x):
                    best = Offer(0.0, frame, *at, width, height, on_side)
                break
    return best


def boxes_of(plan: Plan) -> dict[str, Boxes]:
    """What lies on each offcut by a plan, as `first_fit` gives it."""
    found: dict[str, Boxes] = {}
    for sheet in plan.sheets:
        boxes = []
        for cut in sheet.cuts:
            ring = turned(np.array(cut.corners, dtype=float), -sheet.angle)
            low, far = np.rint(ring.min(axis=0)), np.rint(ring.max(axis=0) - ring.min(axis=0))
            boxes.append((int(low[0]), int(low[1]), int(far[0]), int(far[1])))
        found[sheet.stock] = (sheet.angle, boxes)
    return found


def lost(task: Task, laid: dict[str, Boxes]) -> float:
    """The worth (mm2) that the stock loses, of all sizes, in many frames, outlines as they are."""
    total, kerf = 0.0, task.cutting.kerf
    stock = {one.id: one.metal for one in task.stock}
    for name, (angle, boxes) in laid.items():
        rings = rings_of(stock[name])
        frames = frames_of([*range(0, QUARTER, 15_000_000), *directions(rings, 8)], 9)
        worth = whole = Worth.of(rings, task.sizes, frames)
        for x, y, width, height in boxes:
            ring = _ring(x - kerf, y - kerf, width + 2 * kerf, height + 2 * kerf)
            worth = worth.take(angle, np.array(ring, dtype=float), np.zeros(2))
        total += whole.value - worth.value
    return total


def faults(task: Task, laid: dict[str, Boxes]) -> int:
    """How many pieces stick out, or lie nearer to another than a kerf, to 3 nm."""
    stock = {one.id: one.metal for one in task.stock}
    found = 0
    for name, (angle, boxes) in laid.items():
        metal = Polygon(stock[name].outer, stock[name].holes)
        blanks = [Polygon(turned(np.array(_ring(*box), dtype=float), angle)) for box in boxes]
        for n, one in enumerate(blanks):
            near = (one.distance(other) < task.cutting.kerf - 3 for other in blanks[:n])
            found += not metal.covers(one.buffer(-3)) or any(near)
    return found


def _ring(x: int, y: int, width: int, height: int) -> Iterable[tuple[int, int]]:
    return [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]
