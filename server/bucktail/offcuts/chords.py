"""Lines and curves as short pieces, and chords of them that never claim metal that is not there.

Everything is in nanometres as floats until a ring is made of it. A curve is cut into pieces that
turn one way only. Travelled with the metal to the left, a piece that turns left bulges out of the
metal's edge and is replaced by its chord; one that turns right bites into the metal and is replaced
by its two end tangents up to where they meet. Both lie within the metal.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot
from typing import TypeAlias

Spot: TypeAlias = tuple[float, float]
#: a point of a curve and the direction in which it goes on there, by a parameter
Trace: TypeAlias = Callable[[float], tuple[Spot, Spot]]

DEEPEST = 16
LOOKS = 8  # places at which a smooth stretch is asked which way it turns
STRAIGHT = 20.0  # nm: a piece nearer than this to its chord is its chord
MOST_TURN = 0.5  # cosine of the angle that one piece may turn through


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch from `start` to `end`. `leaves` and `arrives` are its directions there where it is
    bent; None where it is straight."""

    start: Spot
    end: Spot
    leaves: Spot | None = None
    arrives: Spot | None = None

    @property
    def turned(self) -> Piece:
        """The same stretch travelled the other way."""
        if self.leaves is None or self.arrives is None:
            return Piece(self.end, self.start)
        back = (-self.arrives[0], -self.arrives[1])
        return Piece(self.end, self.start, back, (-self.leaves[0], -self.leaves[1]))


def turned(pieces: Sequence[Piece]) -> list[Piece]:
    """The whole of it travelled the other way."""
    return [piece.turned for piece in reversed(pieces)]


def traced(trace: Trace, breaks: Sequence[float], tolerance: float) -> list[Piece]:
    """A curve as pieces whose chords and tangents stay within `tolerance` (nm) of it.

    `breaks` are rising parameters from its start to its end between which it is smooth.
    """
    found: list[Piece] = []
    for low, high in pairwise(_with_inflections(trace, breaks)):
        # just inside, where a direction is that of this stretch and not of the next
        inset = (high - low) * 1e-9
        (start, _), (_, leaves) = trace(low), trace(low + inset)
        (end, _), (_, arrives) = trace(high), trace(high - inset)
        first, last = _Knot(low, start, leaves), _Knot(high, end, arrives)
        found += _split(trace, first, last, tolerance, 0)
    return found


def _with_inflections(trace: Trace, breaks: Sequence[float]) -> list[float]:
    """The breaks with the parameters between them where the curve begins to turn the other way."""
    found = [breaks[0]]
    for low, high in pairwise(breaks):
        near = (high - low) * 1e-6

        def turn(at: float, near: float = near) -> float:
            return _cross(trace(at - near)[1], trace(at + near)[1])

        looked = [low + (high - low) * (n + 0.5) / LOOKS for n in range(LOOKS)]
        # the ends too, for a curve may turn the other way only there
        looked = [low + 2 * near, *looked, high - 2 * near]
        for (one, before), (other, after) in pairwise([(at, turn(at)) for at in looked]):
            if before * after < 0:
                found.append(_bisected(turn, one, other, before))
        found.append(high)
    return found


def _bisected(turn: Callable[[float], float], low: float, high: float, before: float) -> float:
    """Where `turn` changes its sign between two parameters; `before` is its value at the first."""
    for _ in range(40):
        middle = (low + high) / 2
        if turn(middle) * before > 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2


@dataclass(frozen=True, slots=True)
class _Knot:
    """A parameter with its point and direction."""

    at: float
    spot: Spot
    way: Spot


def _split(trace: Trace, low: _Knot, high: _Knot, tolerance: float, depth: int) -> Iterator[Piece]:
    quarters = [_Knot(at, *trace(at)) for at in _between(low.at, high.at)]
    off = max(_off(knot.spot, low.spot, high.spot) for knot in quarters)
    if off < STRAIGHT:
        yield Piece(low.spot, high.spot)
        return
    ways = [low.way, *(knot.way for knot in quarters), high.way]
    turns = [_cross(a, b) for a, b in pairwise(ways)]
    one_way = all(turn > 0 for turn in turns) or all(turn < 0 for turn in turns)
    near = off <= tolerance and _cosine(low.way, high.way) > MOST_TURN
    if (one_way and near and _apex_off(low, high) <= 3 * tolerance) or depth >= DEEPEST:
        yield Piece(low.spot, high.spot, low.way, high.way)
        return
    yield from _split(trace, low, quarters[1], tolerance, depth + 1)
    yield from _split(trace, quarters[1], high, tolerance, depth + 1)


def _between(low: float, high: float) -> list[float]:
    return [low + (high - low) * share for share in (0.25, 0.5, 0.75)]


def _apex_off(low: _Knot, high: _Knot) -> float:
    """How far from the chord the tangents at both ends meet."""
    meet = apex(Piece(low.spot, high.spot, low.way, high.way))
    return _off(meet, low.spot, high.spot) if meet else 0.0


def apex(piece: Piece) -> Spot | None:
    """Where the tangents at the ends of a bent piece meet; None where they do so nowhere near."""
    if piece.leaves is None or piece.arrives is None:
        return None
    (dx, dy), (ex, ey) = piece.leaves, piece.arrives
    cross = _cross(piece.leaves, piece.arrives)
    if abs(cross) < 1e-9 * hypot(dx, dy) * hypot(ex, ey):
        return None
    along = ((piece.end[0] - piece.start[0]) * ey - (piece.end[1] - piece.start[1]) * ex) / cross
    meet = (piece.start[0] + along * dx, piece.start[1] + along * dy)
    long = hypot(piece.end[0] - piece.start[0], piece.end[1] - piece.start[1])
    return meet if along > 0 and _near(meet, piece.start, 2 * long) else None


def safe_points(ring: Sequence[Piece]) -> list[Spot]:
    """Points of a closed ring of pieces, the metal to its left; see the head of this module."""
    bites = [_bite(piece) for piece in ring]
    points: list[Spot] = []
    for n, (piece, bite) in enumerate(zip(ring, bites, strict=True)):
        # where one bite goes on as the next, their tangents are one line through the joint
        if not (bite and bites[n - 1] and _goes_on(ring[n - 1], piece)):
            points.append(piece.start)
        if bite:
            points.append(bite)
    return points


def _bite(piece: Piece) -> Spot | None:
    """Where the tangents of a piece that bites into the metal meet; None for all others."""
    if piece.leaves is None or piece.arrives is None or _cross(piece.leaves, piece.arrives) >= 0:
        return None
    return apex(piece)


def _goes_on(before: Piece, piece: Piece) -> bool:
    """True where the direction does not change from one bent piece to the next."""
    if before.arrives is None or piece.leaves is None:
        return False
    size = hypot(*before.arrives) * hypot(*piece.leaves)
    return abs(_cross(before.arrives, piece.leaves)) < 1e-9 * size


def _off(spot: Spot, start: Spot, end: Spot) -> float:
    """How far a point lies from the line through two others; from them, where they are one."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    long = hypot(dx, dy)
    if long == 0:
        return hypot(spot[0] - start[0], spot[1] - start[1])
    return abs(dx * (spot[1] - start[1]) - dy * (spot[0] - start[0])) / long


def _near(one: Spot, other: Spot, within: float) -> bool:
    return hypot(one[0] - other[0], one[1] - other[1]) <= within


def _cross(one: Spot, other: Spot) -> float:
    return one[0] * other[1] - one[1] * other[0]


def _cosine(one: Spot, other: Spot) -> float:
    size = hypot(*one) * hypot(*other)
    return (one[0] * other[0] + one[1] * other[1]) / size if size else 1.0
