"""The outline of a flat piece of metal, and what can be wrong with one.

Points are (x, y) in whole nanometres. An outline is one ring round the metal, anticlockwise, and
any number of rings round what is not metal (holes, damage, marks to keep away from), clockwise. A
ring does not name its first point again at its end. Every test here is in whole numbers, so it is
exact: a point on an edge is on it, and two sides that cross by a nanometre cross.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from bucktail.offcuts.crossings import Meeting, Side, meetings
from bucktail.offcuts.rectangle import LONGEST_NM

Point = tuple[int, int]
Ring = tuple[Point, ...]

MOST_POINTS = 2000
MOST_HOLES = 100
#: metal that is nowhere wider than this is of no use and cannot be measured by hand
SLIVER_NM = 200_000
NM2_PER_UM2 = 1_000_000


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with an outline, and where.

    `code` is one of: few, many, holes, far, twice, crossed, touching, flat, sliver, outside,
    overlap. `sentence` says it and what to do. `points` and `sides` (pairs of points) are where to
    draw it, nm in the frame of what was given.
    """

    code: str
    sentence: str
    points: tuple[Point, ...] = ()
    sides: tuple[Side, ...] = ()


class OutlineFaulty(ValueError):
    """An outline that cannot be used; `faults` says why, at least one."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        super().__init__(" ".join(fault.sentence for fault in faults))
        self.faults = tuple(faults)


@dataclass(frozen=True, slots=True)
class Outline:
    """A sound outline: `outer` anticlockwise, `holes` clockwise, lowest x and y of `outer` are 0.

    Made by `outline`, which checks it.
    """

    outer: Ring
    holes: tuple[Ring, ...] = ()

    @property
    def rings(self) -> tuple[Ring, ...]:
        """The outer ring and then the holes."""
        return (self.outer, *self.holes)

    @property
    def area_um2(self) -> int:
        """The area of metal in whole um2, holes taken off, rounded down."""
        return sum(doubled_area(ring) for ring in self.rings) // (2 * NM2_PER_UM2)

    @property
    def size_nm(self) -> Point:
        """How far it reaches along x and along y."""
        return max(x for x, _ in self.outer), max(y for _, y in self.outer)


def outline(
    outer: Sequence[Sequence[int]], holes: Iterable[Sequence[Sequence[int]]] = ()
) -> Outline:
    """A checked outline from rings of (x, y) in whole nm; the rings may turn either way.

    It is moved so that its lowest x and y are 0, and each ring is turned the way it belongs.
    Raises OutlineFaulty with every fault found.
    """
    rings = [_ring(outer), *map(_ring, holes)]
    found = faults(rings[0], rings[1:])
    if found:
        raise OutlineFaulty(found)
    left, low = min(x for x, _ in rings[0]), min(y for _, y in rings[0])
    moved = [tuple((x - left, y - low) for x, y in ring) for ring in rings]
    turned = [
        ring if (doubled_area(ring) > 0) == (n == 0) else (ring[0], *ring[:0:-1])
        for n, ring in enumerate(moved)
    ]
    return Outline(turned[0], tuple(turned[1:]))


def tidied(points: Iterable[Sequence[int]]) -> Ring:
    """A ring without points named twice in a row (the closing one too) or in line between others.

    For outlines that come from a file, where such points mean nothing.
    """
    ring: list[Point] = []
    for point in _ring(points):
        if ring and ring[-1] == point:
            continue
        while len(ring) > 1 and _between(ring[-2], ring[-1], point):
            ring.pop()
        ring.append(point)
    while len(ring) > 1 and ring[0] == ring[-1]:
        ring.pop()
    while len(ring) > 2 and _between(ring[-2], ring[-1], ring[0]):
        ring.pop()
    while len(ring) > 2 and _between(ring[-1], ring[0], ring[1]):
        ring.pop(0)
    return tuple(ring)


def faults(outer: Sequence[Point], holes: Sequence[Sequence[Point]] = ()) -> list[Fault]:
    """Everything that is wrong with these rings; empty where they make a sound outline.

    Crossings are looked for only when nothing simpler is wrong, and the first few are named.
    """
    rings = [outer, *holes]
    found = list(_sizes(rings))
    if not found:
        found = [fault for n, ring in enumerate(rings) for fault in _one_ring(n, ring)]
    if not found:
        found = [_met(meeting) for meeting in meetings([_sides(ring) for ring in rings])]
    if not found:
        found = list(_nested(rings))
    return found or list(_slivers(rings))


def doubled_area(ring: Sequence[Point]) -> int:
    """Twice the area of a ring in nm2; below zero where it turns clockwise."""
    return sum(
        x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], *ring[:1]], strict=True)
    )


def inside(ring: Sequence[Point], point: Point) -> bool:
    """True where `point` lies within `ring`; either answer for one exactly on it."""
    x, y = point
    within = False
    for (x0, y0), (x1, y1) in _sides(ring):
        if (y0 > y) != (y1 > y):
            turn = (x1 - x0) * (y - y0) - (x - x0) * (y1 - y0)
            within ^= (turn > 0) == (y1 > y0)
    return within


def _ring(points: Iterable[Sequence[int]]) -> Ring:
    return tuple((int(point[0]), int(point[1])) for point in points)


def _sides(ring: Sequence[Point]) -> list[Side]:
    return list(zip(ring, [*ring[1:], *ring[:1]], strict=True))


def _between(one: Point, middle: Point, other: Point) -> bool:
    """True where `middle` lies on the straight line from `one` to `other`, between them."""
    (ax, ay), (bx, by) = (
        (middle[0] - one[0], middle[1] - one[1]),
        (
            other[0] - middle[0],
            other[1] - middle[1],
        ),
    )
    return ax * by == ay * bx and ax * bx + ay * by >= 0


def ring_name(n: int) -> str:
    """How a ring is called in a sentence: the outline, hole 1, hole 2."""
    return "the outline" if n == 0 else f"hole {n}"


def _sizes(rings: Sequence[Sequence[Point]]) -> Iterator[Fault]:
    points = sum(map(len, rings))
    if points > MOST_POINTS:
        yield Fault(
            "many",
            f"The outline has {points:,} points; at most {MOST_POINTS:,} can be measured. Leave "
            "out points that lie closer together than you can measure.",
        )
    if len(rings) - 1 > MOST_HOLES:
        yield Fault(
            "holes",
            f"The outline has {len(rings) - 1} holes; at most {MOST_HOLES} can be measured. Draw "
            "one hole around those that lie close together.",
        )
    if points > MOST_POINTS or not rings[0]:
        if not rings[0]:
            yield Fault("few", "The outline has no points.")
        return
    xs, ys = [x for x, _ in rings[0]], [y for _, y in rings[0]]
    if max(xs) - min(xs) > LONGEST_NM or max(ys) - min(ys) > LONGEST_NM:
        ends = (min(rings[0]), max(rings[0]))
        yield Fault("far", "The outline is longer than 10 m. Look at its unit.", ends)


def _one_ring(n: int, ring: Sequence[Point]) -> Iterator[Fault]:
    name = ring_name(n)
    if len(ring) < 3:
        yield Fault(
            "few", f"It takes three points to go round metal; {name} has {len(ring)}.", tuple(ring)
        )
        return
    twice = [i for i, (one, other) in enumerate(_sides(ring)) if one == other]
    for i in twice[:3]:
        nth = "The last point is the first one again"
        if i + 1 < len(ring):
            nth = f"Points {i + 1} and {i + 2} are the same"
        yield Fault("twice", f"{nth} in {name}. Leave one of them out.", (ring[i],))
    if not twice and doubled_area(ring) == 0 and len({*ring}) < 4:
        yield Fault(
            "flat", f"{_capital(name)} goes out and back on one line: no metal.", tuple(ring)
        )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _met(meeting: Meeting) -> Fault:
    one, other = (f"side {side + 1} of {ring_name(ring)}" for ring, side in meeting.where)
    word = {"crossed": "crosses", "touching": "touches", "along": "lies on"}[meeting.how]
    code = "touching" if meeting.how == "touching" else "crossed"
    advice = "Look at the length and angle that lead there."
    if meeting.where[0][0] != meeting.where[1][0]:
        advice = "Move the hole, or draw the outline around it."
    return Fault(code, f"{_capital(one)} {word} {other}. {advice}", (meeting.at,), meeting.sides)


def _nested(rings: Sequence[Sequence[Point]]) -> Iterator[Fault]:
    """Rings that do not touch one another: each hole in the metal and in no other hole."""
    for n, hole in enumerate(rings[1:], 1):
        if not inside(rings[0], hole[0]):
            yield Fault(
                "outside",
                f"Hole {n} lies outside the outline. Look at where it was measured from.",
                (hole[0],),
                tuple(_sides(hole)),
            )
        for m, other in enumerate(rings[1:], 1):
            if m != n and inside(other, hole[0]):
                yield Fault(
                    "overlap",
                    f"Hole {n} lies within hole {m}. Leave it out.",
                    (hole[0],),
                    tuple(_sides(hole)),
                )


def _slivers(rings: Sequence[Sequence[Point]]) -> Iterator[Fault]:
    """An outline whose area is less than a strip of SLIVER_NM along half its edge."""
    area2 = abs(doubled_area(rings[0])) - sum(abs(doubled_area(ring)) for ring in rings[1:])
    edge = sum(abs(x1 - x0) + abs(y1 - y0) for (x0, y0), (x1, y1) in _sides(rings[0]))
    if area2 * 2 < edge * SLIVER_NM:
        yield Fault(
            "sliver",
            "There is next to no metal within this outline: it is narrower than 0.2 mm. Look at "
            "the lengths and their unit.",
            tuple(rings[0]),
        )
