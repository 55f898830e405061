"""The front of an outline: for each of a row of widths the tallest rectangle, over the angles."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bucktail.offcuts.fitting.compiled import floats, listed, wholes
from bucktail.offcuts.fitting.sweep import sweep_angles

DEGREE = 1_000_000
HALF_TURN = 180 * DEGREE
Places = tuple[int, int]
#: how many trapezoids may be gone into for one outline, and for at least how many angles these do:
#: a thousand times what an ordinary one needs, a few seconds compiled, a minute or so plain
WORK = 20_000_000
ANGLES = 100
Rings = Sequence[Sequence[tuple[float, float]]]


@dataclass(frozen=True, slots=True)
class Stand:
    """A rectangle found: its size and the corner (u, v) in the frame at `angle` (udeg); um."""

    w: float
    h: float
    angle: int
    u: float
    v: float


class Sweeper:
    """Sweeps one outline (rings of points in um) at any angle. Keeps the room that this needs."""

    def __init__(self, rings: Rings) -> None:
        points = [point for ring in rings for point in ring]
        n = len(points)
        self.xs, self.ys = floats([x for x, _ in points]), floats([y for _, y in points])
        after = list(range(1, n + 1))
        start = 0
        for ring in rings:
            after[start + len(ring) - 1] = start
            start += len(ring)
        self.after = wholes(after)
        self.size = math.hypot(max(self.xs) - min(self.xs), max(self.ys) - min(self.ys))
        self._us, self._vs = floats(n), floats(n)
        self._order, self._rank = wholes(list(range(n))), wholes(n)
        self._bounds, self._first, self._filled = floats(n), wholes(n + 1), wholes(n)
        self._room(4 * n)
        self._stack, self._lows, self._highs = wholes(3 * n + 9), floats(n + 3), floats(n + 3)
        self._left, self._right, self._found = floats(6), floats(6), floats(3)
        self._work = wholes([WORK, WORK // ANGLES])

    @property
    def tired(self) -> bool:
        """Whether as much was swept as one outline may cost; what comes after is skipped."""
        return bool(self._work[0] <= 0)

    def _room(self, edges: int) -> None:
        self._at_left, self._at_right = floats(edges), floats(edges)

    def sweep(self, angles: dict[int, Places], front: Front) -> None:
        """Better `front` by what stands at each angle (udeg, 0 up to half a turn).

        With each angle comes for which widths it is tried: from the first place up to the second.
        """
        ranked = sorted(angles)
        turns = wholes(ranked)
        starts, ends = (wholes([angles[angle][n] for angle in ranked]) for n in (0, 1))
        done = 0
        while True:
            done = sweep_angles(
                done, turns, starts, ends, front.closed, self.xs, self.ys, self.after, self._us,
                self._vs, self._order, self._rank, self._bounds, self._first, self._filled,
                self._at_left, self._at_right, front.widths, front.heights, front.angles,
                front.us, front.vs, self._stack, self._lows, self._highs, self._left,
                self._right, self._found, self._work,
            )  # fmt: skip
            if done == len(ranked):
                return
            self._room(2 * len(self._at_left))


class Front:
    """The best rectangle found so far for each of a row of rising widths (um).

    `closed`: only rectangles at least as wide as tall are of interest.
    """

    def __init__(self, stands: Iterable[Stand], closed: bool) -> None:
        known = list(stands)
        self.closed = closed
        self.widths = floats([one.w for one in known])
        self.heights = floats([one.h for one in known])
        self.angles = wholes([one.angle for one in known])
        self.us, self.vs = floats([one.u for one in known]), floats([one.v for one in known])

    @classmethod
    def empty(cls, widths: Sequence[float], closed: bool) -> Front:
        """A front of which nothing is known yet."""
        return cls([Stand(w, 0.0, 0, 0.0, 0.0) for w in widths], closed)

    def stands(self) -> list[Stand]:
        """What is known of every width, narrowest first; height 0 where nothing stands."""
        rows = (self.widths, self.heights, self.angles, self.us, self.vs)
        return [Stand(*row) for row in zip(*map(listed, rows), strict=True)]


def apart(one: int, other: int) -> int:
    """How far two directions lie apart (udeg), a half turn being the same direction."""
    between = abs(one - other) % HALF_TURN
    return min(between, HALF_TURN - between)


def halfway(one: int, other: int) -> int:
    """The direction in the middle of two that lie less than a quarter turn apart."""
    middle = (one + other) // 2
    return middle if abs(one - other) < HALF_TURN // 2 else (middle + HALF_TURN // 2) % HALF_TURN


def laid_on_its_side(stands: list[Stand]) -> list[Stand]:
    """`stands` with the widest that is taller than wide put in on its side, where that is better.

    At a quarter turn u runs where v ran and v where u ran backwards.
    """
    tall = [one for one in stands if one.h > one.w]
    if not tall:
        return stands
    upright = tall[-1]
    laid = Stand(
        upright.h, upright.w, upright.angle + HALF_TURN // 2, upright.v, -upright.u - upright.w
    )
    if laid.angle >= HALF_TURN:
        laid = Stand(laid.w, laid.h, laid.angle - HALF_TURN, -laid.u - laid.w, -laid.v - laid.h)
    found = [
        one
        if one.w > laid.w or one.h >= laid.h
        else Stand(one.w, laid.h, laid.angle, laid.u, laid.v)
        for one in stands
    ]
    if all(abs(one.w - laid.w) > 1.0 and (one.w < laid.w or one.h < laid.h) for one in found):
        found = sorted([*found, laid], key=lambda one: one.w)
    return found
