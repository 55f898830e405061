"""The search over widths and angles for the front of one outline."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from bucktail.offcuts.fitting.angles import DEGREE, HALF_TURN, Front, Rings, Stand, Sweeper

#: the even grid of angles to begin with (udeg), and how many widths
GRID = 4 * DEGREE
WIDTHS = 32
#: the longest edges whose directions are tried as they are
MOST_DIRECTIONS = 24
NEAR = DEGREE // 20
ROUNDS = 10
MOST_WIDTHS = 200
#: a step in width or height below this is not looked into (um); nor a bend
FINE_UM = 100.0
BEND_UM = 60.0
#: rectangles lower than this are of no use (um)
LOWEST_UM = 200.0


def directions(rings: Rings) -> list[int]:
    """The directions of the longest edges and their normals, udeg, none twice."""
    edges = sorted(
        (
            (math.hypot(x1 - x0, y1 - y0), math.degrees(math.atan2(y1 - y0, x1 - x0)))
            for ring in rings
            for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], *ring[:1]], strict=True)
        ),
        reverse=True,
    )
    quarter, found = HALF_TURN // 2, list[int]()
    for _, degrees in edges:
        angle = round(degrees * DEGREE) % quarter
        if all(NEAR < (angle - one) % quarter < quarter - NEAR for one in found):
            found.append(angle)
        if len(found) == MOST_DIRECTIONS:
            break
    return sorted({*found, *(angle + quarter for angle in found)})


def any_way(rings: Rings) -> list[Stand]:
    """The front over all angles, of rectangles at least as wide as tall."""
    sweeper = Sweeper(rings)
    edges = directions(rings)
    front = _first(sweeper, True)
    for angle in [*edges, *range(0, HALF_TURN, GRID)]:
        sweeper.sweep(angle, front)
    step = GRID
    linear: set[tuple[float, float]] = set()
    stands = _cut(front)
    for _ in range(ROUNDS):
        step //= 2
        front, fresh = _denser(stands, True, linear)
        owners = {one.angle for one in stands}
        angles = fresh | {(angle + way * step) % HALF_TURN for angle in owners for way in (-1, 1)}
        for angle in sorted(angles):
            sweeper.sweep(angle, front)
        stands = _settle(front, stands, linear)
    return stands


def along_grain(rings: Rings) -> list[Stand]:
    """The front at angle 0, of rectangles of any shape."""
    sweeper = Sweeper(rings)
    front = _first(sweeper, False)
    sweeper.sweep(0, front)
    stands = _cut(front)
    linear: set[tuple[float, float]] = set()
    for _ in range(ROUNDS):
        front, fresh = _denser(stands, False, linear)
        if not fresh:
            break
        sweeper.sweep(0, front)
        stands = _settle(front, stands, linear)
    return stands


def _first(sweeper: Sweeper, closed: bool) -> Front:
    size = sweeper.size
    widths = [size * (n + 1) / WIDTHS for n in range(WIDTHS)]
    return Front.empty(widths if closed else [LOWEST_UM, *widths], closed)


def _cut(front: Front) -> list[Stand]:
    """What stands, from the last width that is no wider than tall, with an end that is nothing."""
    stands = [one for one in front.stands() if one.h > LOWEST_UM]
    if not stands:
        return []
    if front.closed:
        tall = [n for n, one in enumerate(stands) if one.h >= one.w]
        stands = (
            stands[tall[-1] :] if tall else [Stand(1.0, stands[0].h, *_place(stands[0])), *stands]
        )
    beyond = min((float(w) for w in front.widths if w > stands[-1].w), default=stands[-1].w * 1.01)
    return [*stands, Stand(beyond, 0.0, *_place(stands[-1]))]


def _place(stand: Stand) -> tuple[int, float, float]:
    return stand.angle, stand.u, stand.v


def _denser(
    stands: Sequence[Stand], closed: bool, linear: set[tuple[float, float]]
) -> tuple[Front, set[int]]:
    """A front with a width more in each gap that is not settled; the angles to sweep for them."""
    fresh: set[int] = set()
    made: list[Stand] = []
    for one, other in pairwise(stands):
        made.append(one)
        gap = min(other.w - one.w, one.h - other.h)
        if gap > FINE_UM and (one.w, other.w) not in linear and len(stands) < MOST_WIDTHS:
            made.append(Stand((one.w + other.w) / 2, other.h, *_place(other)))
            fresh |= {one.angle, other.angle}
    return Front([*made, *stands[-1:]], closed), fresh


def _settle(front: Front, before: Sequence[Stand], linear: set[tuple[float, float]]) -> list[Stand]:
    """The stands of `front`; gaps that turned out straight go into `linear`."""
    known = {one.w for one in before}
    after = [
        Stand(float(w), float(h), int(angle), float(u), float(v))
        for w, h, angle, u, v in zip(
            front.widths, front.heights, front.angles, front.us, front.vs, strict=True
        )
    ]
    for one, middle, other in zip(after, after[1:], after[2:], strict=False):
        if middle.w not in known and abs(middle.h - (one.h + other.h) / 2) < BEND_UM:
            linear |= {(one.w, middle.w), (middle.w, other.w)}
    return _no_taller(_mirrored(after)) if front.closed else after


def _no_taller(stands: list[Stand]) -> list[Stand]:
    """From the widest stand on that is at least as tall as wide, where there is one."""
    tall = [n for n, one in enumerate(stands) if one.h >= one.w]
    return stands[tall[-1] :] if tall else stands


def _mirrored(stands: list[Stand]) -> list[Stand]:
    """`stands` with the best that is taller than wide laid on its side, where that is better."""
    tall = [one for one in stands if one.h > one.w]
    if not tall:
        return stands
    upright = tall[-1]
    quarter = HALF_TURN // 2
    laid = Stand(upright.h, upright.w, upright.angle + quarter, upright.v, -upright.u - upright.w)
    if laid.angle >= HALF_TURN:
        angle, u, v = laid.angle - HALF_TURN, -laid.u - laid.w, -laid.v - laid.h
        laid = Stand(laid.w, laid.h, angle, u, v)
    found = [
        one
        if one.w > laid.w or one.h >= laid.h
        else Stand(one.w, laid.h, laid.angle, laid.u, laid.v)
        for one in stands
    ]
    if all(abs(one.w - laid.w) > 1.0 for one in found) and all(
        one.h < laid.h for one in found if one.w > laid.w
    ):
        found = sorted([*found, laid], key=lambda one: one.w)
    return found
