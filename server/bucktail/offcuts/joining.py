"""Lines and curves of a drawing joined end to end into closed rings, and which ring lies in which.

Nanometres as floats. Ends that are nearer to one another than JOIN belong together; what is left
open, or branches, is refused with the place, for metal must not be guessed at.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import hypot

from bucktail.offcuts.chords import Piece, Spot, safe_points, turned

JOIN = 50_000.0  # 0.05 mm
MOST_NAMED = 5
MOST_ENDS = 12  # within one square of JOIN: more can only be a knot of lines
#: where an end belongs: which curve, and whether it is its start
End = tuple[int, bool]
Curve = Sequence[Piece]


class NotClosed(ValueError):
    """Curves that make no rings. `code` is open or branch; `spots` are where, nm; `chains` are the
    points of what was joined, the longest open one first."""

    def __init__(self, code: str, spots: Sequence[Spot], nearest: float | None = None) -> None:
        super().__init__(code)
        self.code, self.spots, self.nearest = code, tuple(spots), nearest
        self.chains: list[list[Spot]] = []


@dataclass(frozen=True, slots=True)
class Region:
    """A ring round metal, anticlockwise, with the rings round its holes, clockwise."""

    outer: list[Piece]
    holes: list[list[Piece]]


def without_doubles(curves: Sequence[Curve]) -> tuple[list[Curve], int]:
    """The curves without specks and without those that are drawn twice; how many were."""
    seen: set[tuple[tuple[int, int], ...]] = set()
    kept: list[Curve] = []
    doubles = 0
    for curve in curves:
        long = sum(hypot(p.end[0] - p.start[0], p.end[1] - p.start[1]) for p in curve)
        if long < 1.0:
            continue
        ends = sorted((_whole(curve[0].start), _whole(curve[-1].end)))
        middle = _whole(curve[len(curve) // 2].start), _whole(curve[(len(curve) - 1) // 2].end)
        key = (*ends, *sorted(middle), (len(curve), 0))
        doubles += key in seen
        if key not in seen:
            kept.append(curve)
        seen.add(key)
    return kept, doubles


def _whole(spot: Spot) -> tuple[int, int]:
    return round(spot[0] / 100), round(spot[1] / 100)


def rings_of(curves: Sequence[Curve]) -> list[list[Piece]]:
    """Closed rings, each of one curve or of several joined. Raises NotClosed."""
    joints = _joints(curves)
    at: dict[End, int] = {end: n for n, ends in enumerate(joints) for end in ends}
    alone = [n for n in range(len(curves)) if at[n, True] == at[n, False]]
    for n in alone:
        joints[at[n, True]] = [end for end in joints[at[n, True]] if end[0] != n]
    try:
        _whole_or_raise(curves, joints)
    except NotClosed as problem:
        problem.chains = _chains(curves, joints, at, alone)
        raise
    found = [_closed(list(curves[n])) for n in alone]
    left = set(range(len(curves))) - set(alone)
    while left:
        found.append(_closed(_walk(curves, joints, at, left)))
    return found


def _joints(curves: Sequence[Curve]) -> list[list[End]]:
    """Ends that belong together: those that a chain of steps shorter than JOIN leads between."""
    cells: dict[tuple[int, int], list[End]] = defaultdict(list)
    spots: dict[End, Spot] = {}
    for n, curve in enumerate(curves):
        for start in (True, False):
            spot = curve[0].start if start else curve[-1].end
            spots[n, start] = spot
            there = cells[_cell(spot)]
            there.append((n, start))
            if len(there) > MOST_ENDS:
                raise NotClosed("branch", [spot])
    joints: list[list[End]] = []
    seen: set[End] = set()
    for end in spots:
        if end in seen:
            continue
        seen.add(end)
        together = [end]
        for one in together:
            for other in _beside(cells, spots, one):
                if other not in seen:
                    seen.add(other)
                    together.append(other)
        joints.append(together)
    return joints


def _cell(spot: Spot) -> tuple[int, int]:
    return int(spot[0] // JOIN), int(spot[1] // JOIN)


def _beside(
    cells: dict[tuple[int, int], list[End]], spots: dict[End, Spot], end: End
) -> Iterator[End]:
    spot = spots[end]
    column, row = _cell(spot)
    for x in (column - 1, column, column + 1):
        for y in (row - 1, row, row + 1):
            for other in cells.get((x, y), ()):
                there = spots[other]
                if hypot(spot[0] - there[0], spot[1] - there[1]) <= JOIN:
                    yield other


def _whole_or_raise(curves: Sequence[Curve], joints: Sequence[Sequence[End]]) -> None:
    def spot(end: End) -> Spot:
        return curves[end[0]][0].start if end[1] else curves[end[0]][-1].end

    branching = [spot(ends[0]) for ends in joints if len(ends) > 2]
    if branching:
        raise NotClosed("branch", branching[:MOST_NAMED])
    loose = [spot(ends[0]) for ends in joints if len(ends) == 1]
    if loose:
        first = loose[0]
        others = [hypot(first[0] - x, first[1] - y) for x, y in loose[1:]]
        raise NotClosed("open", loose[:MOST_NAMED], min(others, default=None))


def _walk(
    curves: Sequence[Curve], joints: Sequence[Sequence[End]], at: dict[End, int], left: set[int]
) -> list[Piece]:
    """One ring from a curve that is left, taking out those it passes."""
    ring: list[Piece] = []
    end: End = (min(left), True)
    while end[0] in left:
        n, from_start = end
        left.discard(n)
        ring += curves[n] if from_start else turned(curves[n])
        leaving = (n, not from_start)
        others = [one for one in joints[at[leaving]] if one != leaving]
        end = others[0]
    return ring


def _chains(
    curves: Sequence[Curve],
    joints: Sequence[Sequence[End]],
    at: dict[End, int],
    alone: Sequence[int],
) -> list[list[Spot]]:
    """What can be joined, from loose ends and from where lines meet; then all that is closed."""
    left = set(range(len(curves))) - set(alone)
    starts = [end for ends in joints if len(ends) != 2 for end in ends]
    starts += [end for ends in joints if len(ends) == 2 for end in ends]
    found: list[list[Spot]] = []
    for start in starts:
        end, chain = start, [*_spots(curves, start)[:1]] if start[0] in left else []
        while end[0] in left:
            left.discard(end[0])
            chain += _spots(curves, end)[1:]
            leaving = (end[0], not end[1])
            there = joints[at[leaving]]
            if len(there) != 2:
                break
            end = there[0] if there[1] == leaving else there[1]
        if chain:
            found.append(chain)
    found.sort(key=len, reverse=True)
    return [*found, *(_spots(curves, (n, True)) for n in alone)]


def _spots(curves: Sequence[Curve], end: End) -> list[Spot]:
    """The points of a curve from one of its ends to the other."""
    pieces = curves[end[0]] if end[1] else turned(curves[end[0]])
    return [pieces[0].start, *(piece.end for piece in pieces)]


def _closed(ring: list[Piece]) -> list[Piece]:
    """The ring with its joints drawn together: each gap closes at its middle."""
    for n, piece in enumerate(ring):
        before = ring[n - 1]
        if piece.start == before.end:
            continue
        middle = (
            (piece.start[0] + before.end[0]) / 2,
            (piece.start[1] + before.end[1]) / 2,
        )
        ring[n] = replace(ring[n], start=middle)
        ring[n - 1] = replace(ring[n - 1], end=middle)
    return ring


def regions_of(rings: Sequence[list[Piece]]) -> list[Region]:
    """Which ring is metal and which a hole: by how many others each lies within.

    A ring within a hole is metal again, a piece of its own.
    """
    points = [[piece.start for piece in ring] for ring in rings]
    areas = [_area(one) for one in points]
    order = sorted(range(len(rings)), key=lambda n: -abs(areas[n]))
    parents: dict[int, int | None] = {}
    depth: dict[int, int] = {}
    for place, n in enumerate(order):
        around = [m for m in order[:place] if _inside(points[m], points[n][0])]
        parents[n] = around[-1] if around else None
        depth[n] = depth[around[-1]] + 1 if around else 0
    return [
        Region(
            rings[n] if areas[n] > 0 else turned(rings[n]),
            [
                rings[m] if areas[m] < 0 else turned(rings[m])
                for m in sorted(parents)
                if parents[m] == n
            ],
        )
        for n in order
        if depth[n] % 2 == 0
    ]


def ring_points(ring: Sequence[Piece]) -> list[tuple[int, int]]:
    """The points of a ring on the safe side, whole nm."""
    return [(round(x), round(y)) for x, y in safe_points(ring)]


def _area(points: Sequence[Spot]) -> float:
    return sum(
        a[0] * b[1] - b[0] * a[1] for a, b in zip(points, [*points[1:], *points[:1]], strict=True)
    )


def _inside(points: Sequence[Spot], spot: Spot) -> bool:
    x, y = spot
    within = False
    for a, b in zip(points, [*points[1:], *points[:1]], strict=True):
        if (a[1] > y) != (b[1] > y) and x < a[0] + (y - a[1]) * (b[0] - a[0]) / (b[1] - a[1]):
            within = not within
    return within
