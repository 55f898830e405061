"""An outline with fewer points that lies wholly inside the given one, and close to it.

Metal is only ever taken away, a thin triangle at a time: a corner that sticks out is cut off, and
where the edge bends inwards one side is lengthened until it meets the next but one. What is taken
away lies within TOLERANCE_UM of the given edge, or within more where MANY points would still be
left. Curves come as many short chords; this is what keeps the search quick on them. Nothing of the
soundness of a fit curve rests on it.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass

from bucktail.offcuts.crossings import meetings
from bucktail.offcuts.fitting.angles import Rings

XY = tuple[float, float]

#: how far the edge may move inwards (um)
TOLERANCE_UM = 80.0
#: outlines with fewer points are taken as they are
FEW = 9
#: with more points than this it would take too long; so more is taken away, up to so far (um)
MANY = 400
FARTHEST_UM = 20_000.0
NM_PER_UM = 1000


@dataclass(slots=True)
class _Corner:
    """A point of a ring, its neighbours by number, and how far the side after it has moved."""

    at: XY
    before: int
    after: int
    moved: float = 0.0
    gone: bool = False
    version: int = 0


def simplified(rings: Rings, tolerance: float = TOLERANCE_UM) -> Rings:
    """Rings of points (um; metal on the left) with fewer points, inside the given ones."""
    if sum(map(len, rings)) < FEW:
        return rings
    fewer = [_Ring(ring, tolerance).simplified() for ring in rings]
    while sum(map(len, fewer)) > MANY and tolerance < FARTHEST_UM:
        tolerance *= 2
        fewer = [_Ring(ring, tolerance).simplified() for ring in rings]
    whole = [[(round(x * NM_PER_UM), round(y * NM_PER_UM)) for x, y in ring] for ring in fewer]
    sides = [list(zip(ring, [*ring[1:], *ring[:1]], strict=True)) for ring in whole]
    return rings if meetings(sides, 1) else fewer


class _Ring:
    """One ring that is being simplified: always the change that takes away least."""

    def __init__(self, points: Sequence[XY], tolerance: float) -> None:
        self._tolerance = tolerance
        n = len(points)
        self._corners = [_Corner(at, (i - 1) % n, (i + 1) % n) for i, at in enumerate(points)]
        self._left = n
        self._heap: list[tuple[float, int, int]] = []

    def simplified(self) -> list[XY]:
        for i in range(len(self._corners)):
            self._offer(i)
        while self._heap and self._left > 3:
            _, i, version = heapq.heappop(self._heap)
            corner = self._corners[i]
            if corner.gone or corner.version != version:
                continue
            change = self._change(i)
            if change is None:
                continue
            moved, point = change
            self._take_out(i, moved, point)
        return [corner.at for corner in self._corners if not corner.gone]

    def _offer(self, i: int) -> None:
        corner = self._corners[i]
        corner.version += 1
        change = self._change(i)
        if change is not None:
            heapq.heappush(self._heap, (change[0], i, corner.version))

    def _change(self, i: int) -> tuple[float, XY | None] | None:
        """What taking out corner i comes to: how far the edge moves, and a new place, if any.

        With no new place the corner goes; with one, the corner moves there and the next one goes.
        """
        b = self._corners[i]
        a, c = self._corners[b.before], self._corners[b.after]
        d = self._corners[c.after]
        if _turn(a.at, b.at, c.at) >= 0:
            moved = _off(b.at, a.at, c.at) + max(a.moved, b.moved)
            return (moved, None) if moved <= self._tolerance else None
        # the edge bends inwards at b: lengthen the side before it until it meets the one after c
        if self._left < 4 or c.after == b.before:
            return None
        point = _meet(a.at, b.at, d.at, c.at)
        if point is None:
            return None
        ahead = _turn(b.at, c.at, d.at) < 0
        moved = (_off(point, b.at, c.at) if ahead else _off(c.at, b.at, point)) + max(
            a.moved, b.moved, c.moved
        )
        return (moved, point) if moved <= self._tolerance else None

    def _take_out(self, i: int, moved: float, point: XY | None) -> None:
        b = self._corners[i]
        c = self._corners[b.after]
        self._left -= 1
        if point is None:
            a = self._corners[b.before]
            a.after, c.before, b.gone = b.after, b.before, True
            a.moved = moved
            nearby = (b.before, b.after)
        else:
            b.at, b.after, c.gone = point, c.after, True
            self._corners[c.after].before = i
            b.moved = max(moved, c.moved)
            self._corners[b.before].moved = max(moved, self._corners[b.before].moved)
            nearby = (b.before, i)
        for near in nearby:
            for one in (self._corners[near].before, near, self._corners[near].after):
                self._offer(one)
        self._offer(self._corners[self._corners[nearby[0]].before].before)


def _turn(a: XY, b: XY, c: XY) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _off(point: XY, a: XY, b: XY) -> float:
    """How far a point lies from the line through a and b; from a where these are one."""
    long = math.dist(a, b)
    return abs(_turn(a, b, point)) / long if long > 0 else math.dist(point, a)


def _meet(a: XY, b: XY, d: XY, c: XY) -> XY | None:
    """Where the side a-b, lengthened beyond b, meets the line of d-c; None where it does not.

    With c on the way from d (both bend inwards) that is beyond c, else between c and d.
    """
    run, rise = b[0] - a[0], b[1] - a[1]
    other_run, other_rise = c[0] - d[0], c[1] - d[1]
    across = run * other_rise - rise * other_run
    if abs(across) < 1e-9 * math.hypot(run, rise) * math.hypot(other_run, other_rise):
        return None
    along = ((d[0] - a[0]) * other_rise - (d[1] - a[1]) * other_run) / across
    other = ((d[0] - a[0]) * rise - (d[1] - a[1]) * run) / across
    inwards = _turn(b, c, d) < 0
    if along < 1.0 or (other < 1.0 if inwards else not 0.0 < other <= 1.0):
        return None
    return a[0] + along * run, a[1] + along * rise
