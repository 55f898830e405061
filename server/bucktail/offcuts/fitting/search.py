"""The search over widths and angles for the front of one outline."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import combinations, pairwise

from bucktail.offcuts.fitting.angles import (
    DEGREE,
    HALF_TURN,
    Front,
    Places,
    Rings,
    Stand,
    Sweeper,
    apart,
    halfway,
    laid_on_its_side,
)

#: the even grid of angles to begin with (udeg), and how many widths
GRID = 3 * DEGREE
WIDTHS = 48
#: the longest edges whose directions are tried as they are
MOST_DIRECTIONS = 24
NEAR = DEGREE // 20
#: points count as ends where they are at least this share of the greatest distance apart
ENDS = 0.9
MOST_ENDS = 6
ROUNDS = 40
#: neighbours that a better angle for one width is tried on as well
NEIGHBOURS = 3
#: rounds in which gaps wait for the angles on both sides, however far these are apart
FIRST_ROUNDS = 5
MOST_WIDTHS = 300
#: steps of the angle at a new width: half the turn between its neighbours, within these (udeg)
LEAST_STEP, MOST_STEP = DEGREE // 4, DEGREE
#: no step is made that moves the far end of a rectangle by less than this (um)
FINE_TURN_UM = 30.0
FINE_TURN = FINE_TURN_UM * math.degrees(1) * DEGREE
#: a step in width or height below this is not looked into (um); nor a bend
FINE_UM = 100.0
BEND_UM = 100.0
#: rectangles lower than this are of no use (um)
LOWEST_UM = 200.0

Gap = tuple[float, float]


class Search:
    """The search in one outline, given as rings of points in um.

    `upright`: only at angle 0, rectangles of any shape; else at all angles, those at least as wide
    as tall.
    """

    def __init__(self, rings: Rings, upright: bool) -> None:
        self._upright = upright
        self._sweeper = Sweeper(rings)
        self._edges = [0] if upright else directions(rings)
        self._straight: set[Gap] = set()
        self.stands = self._first()
        #: by width: how far from its angle is to be tried next
        self._steps = {one.w: GRID // 2 for one in self.stands}
        self._rounds = 0
        while self._rounds < ROUNDS and self._round(self._open_gaps()):
            self._rounds += 1

    def mend(self, gaps: Iterable[Gap]) -> bool:
        """Look again between these widths; False where nothing more can be found out."""
        wanted = {gap for gap in gaps if gap[1] - gap[0] > FINE_UM}
        self._straight -= wanted
        return bool(wanted) and self._round(wanted)

    def _first(self) -> list[Stand]:
        """What the directions of the edges and the grid of angles give for even widths."""
        size = self._sweeper.size
        widths = [size * (n + 1) / WIDTHS for n in range(WIDTHS)]
        front = Front.empty([LOWEST_UM, *widths], not self._upright)
        angles = {*self._edges, *(() if self._upright else range(0, HALF_TURN, GRID))}
        self._sweeper.sweep(dict.fromkeys(angles, (0, len(front.widths))), front)
        stands = front.stands()
        last = max((n for n, one in enumerate(stands) if one.h > LOWEST_UM), default=-1)
        # with one width at which nothing stands, to find the end between it and the last
        return self._wide(stands[: last + 2])

    def _open_gaps(self) -> set[Gap]:
        """The gaps between neighbours that still hide something."""
        found = set()
        for one, other in pairwise(self.stands):
            known = not self._upright and one.h >= one.w
            gap = other.w - one.w if known else min(other.w - one.w, one.h - other.h)
            turn = apart(one.angle, other.angle)
            waits = turn > 0 if self._rounds < FIRST_ROUNDS else 0 < turn < GRID
            if waits and not (self._settled(one.w) and self._settled(other.w)):
                continue  # their angles come first, or the bend between them means nothing
            if gap > FINE_UM and (one.w, other.w) not in self._straight:
                found.add((one.w, other.w))
        return found

    def _round(self, gaps: set[Gap]) -> bool:
        """One width more in each of `gaps`, and angles on both sides of those in use.

        False where nothing was left to try.
        """
        front, angles = self._denser(gaps)
        if not angles:
            return False
        if self._rounds < FIRST_ROUNDS:
            self._sweeper.sweep(dict.fromkeys(angles, (0, len(front.widths))), front)
        else:
            most = len(front.widths)
            only = {
                angle: (max(start - NEIGHBOURS, 0), min(end + NEIGHBOURS, most))
                for angle, (start, end) in angles.items()
            }
            self._sweeper.sweep(only, front)
        self._settle(front.stands())
        return True

    def _settled(self, w: float) -> bool:
        """Whether a step of the angle would move nothing by more than FINE_TURN_UM."""
        return self._steps[w] * w <= FINE_TURN

    def _denser(self, gaps: set[Gap]) -> tuple[Front, dict[int, Places]]:
        """A front with a width more in each gap; the angles to sweep, and for which places."""
        angles: dict[int, Places] = {}
        made: list[Stand] = []
        room = MOST_WIDTHS - len(self.stands)
        for one, other in pairwise(self.stands):
            self._try_beside(one, len(made), angles)
            made.append(one)
            if (one.w, other.w) in gaps and room > 0:
                room -= 1
                made.append(self._between(one, other, len(made), angles))
        for last in self.stands[-1:]:
            self._try_beside(last, len(made), angles)
            made.append(last)
        return Front(made, not self._upright), angles

    def _try_beside(self, one: Stand, place: int, angles: dict[int, Places]) -> None:
        """Note the angles on both sides of one in use, as far from it as its step."""
        if not self._upright and not self._settled(one.w):
            step = self._steps[one.w]
            _widen(angles, (one.angle + step) % HALF_TURN, place)
            _widen(angles, (one.angle - step) % HALF_TURN, place)

    def _between(self, one: Stand, other: Stand, place: int, angles: dict[int, Places]) -> Stand:
        """A stand half way between two, and note the angles to sweep for it."""
        middle, turn = (one.w + other.w) / 2, apart(one.angle, other.angle)
        tried = [one.angle, other.angle]
        if turn >= GRID or other.h <= 0.0:
            tried += self._edges
        elif turn > 0:
            tried.append(halfway(one.angle, other.angle))
        for angle in tried:
            _widen(angles, angle, place)
        self._steps[middle] = min(turn // 8, MOST_STEP) if turn < GRID else MOST_STEP
        return Stand(middle, other.h, other.angle, other.u, other.v)

    def _settle(self, after: list[Stand]) -> None:
        """Take over what was found; gaps that turned out straight are done with."""
        known = {one.w: one.angle for one in self.stands}
        for one in after:
            if one.w in known:
                same = known[one.w] == one.angle
                step = self._steps[one.w]
                self._steps[one.w] = step // 4 if same else min(step * 2, MOST_STEP)
        for one, middle, other in zip(after, after[1:], after[2:], strict=False):
            if middle.w in known:
                continue
            bend = abs(middle.h - (one.h + other.h) / 2)
            near = max(apart(one.angle, middle.angle), apart(middle.angle, other.angle)) < GRID
            if bend < BEND_UM and near and (self._upright or one.h < one.w):
                self._straight |= {(one.w, middle.w), (middle.w, other.w)}
            else:
                self._steps[middle.w] = max(self._steps[middle.w], LEAST_STEP)
        self.stands = self._wide(after if self._upright else laid_on_its_side(after))
        for one in self.stands:
            self._steps.setdefault(one.w, LEAST_STEP)

    def _wide(self, stands: list[Stand]) -> list[Stand]:
        """From the widest on that is at least as tall as wide, where that is of interest."""
        if self._upright:
            return stands
        tall = [n for n, one in enumerate(stands) if one.h >= one.w]
        return stands[tall[-1] :] if tall else stands


def _widen(angles: dict[int, Places], angle: int, place: int) -> None:
    """Note that `angle` is to be swept for `place` too."""
    start, end = angles.get(angle, (place, place + 1))
    angles[angle] = (min(start, place), max(end, place + 1))


def directions(rings: Rings) -> list[int]:
    """Directions to try as they are, udeg: of the longest edges, of their normals, of the ends."""
    edges = [
        (math.hypot(x1 - x0, y1 - y0), math.atan2(y1 - y0, x1 - x0))
        for ring in rings
        for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], *ring[:1]], strict=True)
    ]
    quarter = HALF_TURN // 2
    found = _distinct(edges, quarter, NEAR, MOST_DIRECTIONS)
    return sorted({*found, *(angle + quarter for angle in found), *_ends(rings[0])})


def _ends(ring: Sequence[tuple[float, float]]) -> list[int]:
    """The directions between points nearly as far apart as any: the longest rectangles lie so."""
    pairs = [
        (math.hypot(x1 - x0, y1 - y0), math.atan2(y1 - y0, x1 - x0))
        for (x0, y0), (x1, y1) in combinations(_hull(ring), 2)
    ]
    most = max(long for long, _ in pairs)
    far = [pair for pair in pairs if pair[0] > ENDS * most]
    return _distinct(far, HALF_TURN, DEGREE, MOST_ENDS)


def _distinct(found: list[tuple[float, float]], period: int, near: int, most: int) -> list[int]:
    """Directions (udeg, within `period`) of the longest, none nearer another than `near`."""
    kept: list[int] = []
    for _, radians in sorted(found, reverse=True):
        angle = round(math.degrees(radians) * DEGREE) % period
        if all(near < (angle - one) % period < period - near for one in kept):
            kept.append(angle)
        if len(kept) == most:
            break
    return kept


def _hull(ring: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """The corners of the convex hull (the monotone chain: lower half, then upper)."""
    ranked, hull = sorted(ring), list[tuple[float, float]]()
    for half in (ranked, ranked[::-1]):
        start = len(hull)
        for x, y in half:
            while len(hull) > start + 1:
                (ax, ay), (bx, by) = hull[-2:]
                if (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0:
                    break
                hull.pop()
            hull.append((x, y))
        hull.pop()
    return hull
