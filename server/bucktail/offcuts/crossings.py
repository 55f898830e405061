"""Where the sides of rings meet that should not: exactly, in whole numbers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import Literal

Point = tuple[int, int]
Side = tuple[Point, Point]
#: a side by its ring and its place in the ring, from 0
Where = tuple[int, int]
How = Literal["crossed", "touching", "along"]

MOST_NAMED = 5


@dataclass(frozen=True, slots=True)
class Meeting:
    """Two sides that meet: how, which, and a point where (nm, rounded where it is no whole nm)."""

    how: How
    where: tuple[Where, Where]
    at: Point
    sides: tuple[Side, Side]


@dataclass(frozen=True, slots=True)
class _Placed:
    """A side with the box around it."""

    left: int
    right: int
    low: int
    high: int
    where: Where
    side: Side


def meetings(rings: Sequence[Sequence[Side]], most: int = MOST_NAMED) -> list[Meeting]:
    """The first few meetings of sides, other than neighbours in their common point.

    Sides are taken from left to right and each is compared with those that still reach as far, so
    an outline of 2,000 points takes a few tenths of a second and at worst a second or two.
    """
    return list(islice(_all_meetings(rings), most))


def _all_meetings(rings: Sequence[Sequence[Side]]) -> Iterator[Meeting]:
    placed = sorted(
        (
            _Placed(
                min(ax, bx), max(ax, bx), min(ay, by), max(ay, by), (r, n), ((ax, ay), (bx, by))
            )
            for r, sides in enumerate(rings)
            for n, ((ax, ay), (bx, by)) in enumerate(sides)
        ),
        key=lambda one: one.left,
    )
    reaching: list[_Placed] = []
    for one in placed:
        reaching = [other for other in reaching if other.right >= one.left]
        for other in reaching:
            if other.low <= one.high and one.low <= other.high:
                met = _meet(other, one, len(rings[one.where[0]]))
                if met:
                    yield met
        reaching.append(one)


def _meet(one: _Placed, other: _Placed, around: int) -> Meeting | None:
    """How two sides meet; None where they do not, or only as neighbours in a ring do."""
    how_at = _how(one.side, other.side)
    if how_at is None:
        return None
    how, at = how_at
    if one.where[0] == other.where[0] and how == "touching":
        apart = (one.where[1] - other.where[1]) % around
        shared = (apart == 1 and one.side[0] == other.side[1] == at) or (
            apart == around - 1 and one.side[1] == other.side[0] == at
        )
        if shared:
            return None
    first, second = sorted((one, other), key=lambda placed: placed.where)
    return Meeting(how, (first.where, second.where), at, (first.side, second.side))


def _turn(a: Point, b: Point, c: Point) -> int:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _how(one: Side, other: Side) -> tuple[How, Point] | None:
    (a, b), (c, d) = one, other
    side_c, side_d = _turn(a, b, c), _turn(a, b, d)
    side_a, side_b = _turn(c, d, a), _turn(c, d, b)
    if side_c == 0 and side_d == 0:
        return _along(one, other)
    if (side_c > 0) == (side_d > 0) and side_c and side_d:
        return None
    if (side_a > 0) == (side_b > 0) and side_a and side_b:
        return None
    for turn, point in ((side_c, c), (side_d, d), (side_a, a), (side_b, b)):
        if turn == 0:
            return "touching", point
    whole = side_a - side_b
    at = (
        a[0] + round((b[0] - a[0]) * side_a / whole),
        a[1] + round((b[1] - a[1]) * side_a / whole),
    )
    return "crossed", at


def _along(one: Side, other: Side) -> tuple[How, Point] | None:
    """Sides in one line: the piece they share, a shared end, or nothing."""
    low, high = max(min(one), min(other)), min(max(one), max(other))
    if low > high:
        return None
    return ("touching", low) if low == high else ("along", low)
