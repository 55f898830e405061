"""One offcut while a plan is made: what lies on it, where one more piece may lie, what that costs.

All pieces on an offcut lie square to one line (its frame), so that they can be measured from one
datum. Places come from inner-fit regions, a little generous; before a piece is laid there it is
moved onto the corner or the saw cut it was meant to touch, and looked at again: it lies in the
metal, and every other piece is a kerf away, to the nanometre.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeAlias

import numpy as np
import shapely

from bucktail.offcuts.cutplan.wanted import Cutting, Stock, Wanted
from bucktail.offcuts.innerfit import (
    GRID_NM,
    HAIR_NM,
    Border,
    Inside,
    Points,
    polygon_of,
    rectangle_regions,
    rings_of,
    rings_of_polygon,
    simpler,
    take_away,
    turned,
)
from bucktail.offcuts.laying import QUARTER, directions
from bucktail.offcuts.worth import Size, Worth, frames_of

#: Directions that pieces may be laid square to, and in how many of them the worth is asked.
FRAMES, WORTH_FRAMES = 3, 2
#: How far a place may be moved to touch exactly (nm), and what that may leave unproved when turned.
NEAR_NM = 400
ROUNDING_NM = 2
WORTH_POINTS = 40
MOST_PLACES = 60


@dataclass(frozen=True, slots=True)
class Laid:
    """A piece on its offcut: lower left corner and sides in the frame, and whether it is turned."""

    want: Wanted
    nth: int
    x: int
    y: int
    width: int
    height: int
    on_side: bool


#: The pieces on an offcut, its frame, its worth with them.
Lying: TypeAlias = "tuple[tuple[Laid, ...], int | None, Worth]"


@dataclass(frozen=True, slots=True)
class Offer:
    """A place for a piece, and what it takes from the worth of its offcut (mm2)."""

    lost: float
    frame: int
    x: int
    y: int
    width: int
    height: int
    on_side: bool


class Sheet:
    """An offcut in a plan."""

    def __init__(self, stock: Stock, cutting: Cutting, sizes: Sequence[Size]) -> None:
        self.stock, self.cutting, self._sizes = stock, cutting, sizes
        rings = rings_of(stock.metal)
        self.inside = Inside(polygon_of(rings))
        self.rings = rings_of_polygon(simpler(self.inside.polygon))
        self.area = float(self.inside.polygon.area)
        self.laid: tuple[Laid, ...] = ()
        self.frame: int | None = None
        self._borders: dict[int, Border] = {}
        self._regions: dict[tuple[int, int, int], tuple[tuple[Laid, ...], list[Points]]] = {}
        self._empty: dict[tuple[int, int, int], list[Points]] = {}
        self._offers: dict[tuple[int, int, str], tuple[tuple[Laid, ...], Offer | None]] = {}

    @cached_property
    def frames(self) -> list[int]:
        """The directions that pieces may be laid square to before the first one is."""
        return frames_of(directions(self.rings, 12), FRAMES)

    @cached_property
    def whole(self) -> Worth:
        """The worth of the offcut before anything is cut."""
        simple = rings_of_polygon(simpler(self.inside.polygon, WORTH_POINTS))
        return Worth.of(simple, self._sizes, self.frames[:WORTH_FRAMES])

    @cached_property
    def worth(self) -> Worth:
        """The worth as it is now."""
        return self.whole

    def offer(self, want: Wanted) -> Offer | None:
        """The place for one more of `want` that costs least; None where there is none."""
        key = (want.width, want.height, want.grain)
        known = self._offers.get(key)
        if known is None or known[0] is not self.laid:
            known = (self.laid, self._look(want))
            self._offers[key] = known
        return known[1]

    def lay(self, want: Wanted, nth: int, offer: Offer) -> None:
        """Lay a piece where it was offered."""
        self.frame = offer.frame
        piece = Laid(want, nth, offer.x, offer.y, offer.width, offer.height, offer.on_side)
        self.laid = (*self.laid, piece)
        hull = _hull(offer.width, offer.height, self.cutting.kerf)
        place = turned(np.array([(offer.x, offer.y)], dtype=float), offer.frame)[0]
        self.worth = self.worth.take(offer.frame, hull, place)

    @property
    def lying(self) -> Lying:
        """What lies on it now, to come back to with `put_back`."""
        return self.laid, self.frame, self.worth

    def put_back(self, lying: Lying) -> None:
        """Lay what lay on it before."""
        self.laid, self.frame, self.worth = lying

    def clear(self) -> None:
        """Take every piece off."""
        self.laid, self.frame, self.worth = (), None, self.whole

    @property
    def lost(self) -> float:
        """What the pieces on it take from its worth (mm2)."""
        return self.whole.value - self.worth.value if self.laid else 0.0

    def corners(self, piece: Laid, frame: int) -> list[tuple[int, int]]:
        """The corners of a piece in the offcut's own frame, the first to the second its width."""
        x, y, w, h = piece.x, piece.y, piece.width, piece.height
        ring = [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]
        if piece.on_side:
            ring = [*ring[1:], ring[0]]
        moved = np.rint(turned(np.array(ring, dtype=float), frame))
        return [(int(px), int(py)) for px, py in moved]

    def _look(self, want: Wanted) -> Offer | None:
        best: Offer | None = None
        for frame, on_side in self.ways(want):
            width, height = (want.height, want.width) if on_side else (want.width, want.height)
            at = self.places(frame, width, height)
            if not len(at):
                continue
            hull = _hull(width, height, self.cutting.kerf)
            lost = self.worth.value - self.worth.values(frame, hull, turned(at, frame))
            # where nothing else decides, towards the corner, so that what stays is in one piece
            low = self._border(frame).low
            order = np.lexsort((at[:, 0] - low[0] + at[:, 1] - low[1], np.rint(lost * 10)))
            for n in order.tolist():
                if best is not None and lost[n] >= best.lost:
                    break
                exact = self.exact(frame, at[n], width, height)
                if exact is not None:
                    best = Offer(float(lost[n]), frame, *exact, width, height, on_side)
                    break
        return best

    def ways(self, want: Wanted) -> Iterator[tuple[int, bool]]:
        """Frame, and whether the piece lies with its height along it, as its grain allows."""
        if want.grain != "any":
            if self.stock.grain != "unknown" and self.frame in (None, 0):
                yield 0, (want.grain == "along width") != (self.stock.grain == "a")
            return
        for frame in self.frames if self.frame is None else [self.frame]:
            yield frame, False
            if want.width != want.height:
                yield frame, True

    def places(self, frame: int, width: int, height: int) -> Points:
        """Places for the lower left corner of a piece, in the frame."""
        edge = self.cutting.clearance + (HAIR_NM if frame % QUARTER else -GRID_NM)
        key = (frame, width, height)
        seen, rings = self._regions.get(key, (None, []))
        if seen is None or seen != self.laid[: len(seen)]:
            border, seen, rings = self._border(frame), (), []
            if width <= border.size[0] and height <= border.size[1]:
                if key not in self._empty:
                    found = rectangle_regions(border, width + 2 * edge, height + 2 * edge)
                    self._empty[key] = [ring + edge for ring in found]
                rings = self._empty[key]
        for piece in self.laid[len(seen) :] if rings else ():
            kerf = self._kerf(frame) - 2 * GRID_NM
            box = (piece.x - kerf - width, piece.y - kerf - height)
            far = (piece.x + piece.width + kerf, piece.y + piece.height + kerf)
            taken = np.array([box, (far[0], box[1]), far, (box[0], far[1])], dtype=float)
            rings = take_away(rings, taken)
        self._regions[key] = (self.laid, rings)
        at = np.concatenate(rings) if rings else np.zeros((0, 2))
        return at[:: -(-len(at) // MOST_PLACES)] if len(at) else at

    def exact(self, frame: int, place: Points, width: int, height: int) -> tuple[int, int] | None:
        """The place in whole nm, touching exactly, if the piece can lie there."""
        sides = (width, height)
        tried = []
        for axis in (0, 1):
            near = {round(float(place[axis]))}
            for stop in self._stops(frame, axis):
                for one in (stop, stop - sides[axis]):
                    if abs(one - place[axis]) <= NEAR_NM:
                        near.add(one)
            tried.append(sorted(near, key=lambda one: abs(one - place[axis])))
        for x in tried[0]:
            for y in tried[1]:
                if self._free(frame, x, y, width, height) and self._holds(frame, x, y, *sides):
                    return x, y
        return None

    def _stops(self, frame: int, axis: int) -> set[int]:
        """Where a side of a piece may come to lie exactly: corners of the metal, saw cuts."""
        stops: set[int] = set()
        if frame == 0:
            k = self.cutting.clearance
            for ring in (self.stock.metal.outer, *self.stock.metal.holes):
                stops |= {point[axis] + side for point in ring for side in (-k, k)}
        kerf = self._kerf(frame)
        for piece in self.laid:
            start, side = (piece.x, piece.width) if axis == 0 else (piece.y, piece.height)
            stops |= {start - kerf, start + side + kerf}
        return stops

    def _free(self, frame: int, x: int, y: int, width: int, height: int) -> bool:
        """Whether every piece laid is a kerf away."""
        k = self._kerf(frame)
        return all(
            x + width + k <= one.x
            or one.x + one.width + k <= x
            or y + height + k <= one.y
            or one.y + one.height + k <= y
            for one in self.laid
        )

    def _holds(self, frame: int, x: int, y: int, width: int, height: int) -> bool:
        """Whether the piece with its clearance lies in the metal."""
        k = self.cutting.clearance + (ROUNDING_NM if frame % QUARTER else 0)
        low, high = (x - k, y - k), (x + width + k, y + height + k)
        ring = np.array([low, (high[0], low[1]), high, (low[0], high[1])], dtype=float)
        return bool(shapely.covers(self.inside.polygon, shapely.Polygon(turned(ring, frame))))

    def _kerf(self, frame: int) -> int:
        """The kerf in the frame: where corners are rounded afterwards, with room for that."""
        return self.cutting.kerf + (ROUNDING_NM if frame % QUARTER else 0)

    def _border(self, frame: int) -> Border:
        if frame not in self._borders:
            self._borders[frame] = Border([turned(ring, -frame) for ring in self.rings])
        return self._borders[frame]


def _hull(width: int, height: int, kerf: int) -> Points:
    ring = [(-kerf, -kerf), (width + kerf, -kerf), (width + kerf, height + kerf)]
    return np.array([*ring, (-kerf, height + kerf)], dtype=float)
