"""Whether a rectangular blank fits in a rectangular offcut, where to cut it, and what that spoils.

Lengths are whole nanometres, areas whole square micrometres. The yes or no is reckoned in whole
numbers and is exact: no fit is claimed that is not real, and a blank that fits to the nanometre
fits. web/src/twins/fit.ts is the same for the phone; tests/vectors/fit.json holds both together.

**When it fits.** Take p >= q for the blank and a >= b for the offcut. It fits at some angle
exactly when q <= b and

    p <= a   (laid square), or
    b (p^2 + q^2) - 2 p q a  >=  (p^2 - q^2) sqrt(p^2 + q^2 - a^2)   (laid askew, p > a)

Source: the condition published in 1957 (`rect-1957`, `rect-2000` in the bibliography). Derived
again: at the angle t the blank takes up p cos t + q sin t of the side a and p sin t + q cos t of
the side b. With p > a the first is too long from t = 0 up to the angle where it comes back to a;
from there on the second is least at that very angle, or at a quarter turn, where it is p > b.

**Clearance** is kept between the blank and the offcut's edges on every side: the blank has to fit
in the offcut less the clearance all round, which is exact at every angle.

**What it spoils** = offcut - blank - the largest rectangle that is left and still of use. Laid
square the blank goes into a corner and one cut across the offcut leaves that rectangle whole: of
the two cuts, the one that leaves more. A remainder whose shorter side is under `least_useful`
counts as nothing, so a blank that nearly fills a small offcut spoils less than a bite out of a
large one. Laid askew the blank counts as the upright rectangle around it; the corner triangles are
not counted as of use. For an odd outline the same sum holds with the largest rectangle of its fit
curve.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

Way = Literal["any", "width along a", "width along b"]
Laid = Literal["width along a", "width along b", "askew"]
Point = tuple[int, int]

LONGEST_NM = 10_000_000_000
LEAST_USEFUL_NM = 25_400_000
NM_PER_UM = 1000


@dataclass(frozen=True, slots=True)
class Placement:
    """Where the blank lies on the offcut: one corner at (0, 0), side a along x, side b along y.

    `corners` are nm, in order round the blank; the first to the second is its width. `tenths` is
    the angle between the width and side a in tenths of a degree, 0 to 900. `left` is the largest
    useful rectangle that stays (along a, along b) in nm, (0, 0) where none is. `spoiled` is um2.
    Corners laid askew are rounded to whole nm and never lie outside the offcut.
    """

    laid: Laid
    tenths: int
    corners: tuple[Point, Point, Point, Point]
    left: Point
    spoiled: int


def fits(width: int, height: int, a: int, b: int) -> bool:
    """True where a blank of `width` x `height` fits in an offcut of `a` x `b` at some angle (nm).

    Raises ValueError for a side that is not between 1 nm and 10 m.
    """
    _check(width, height, a, b)
    return _fits(width, height, a, b)


def place(
    width: int,
    height: int,
    a: int,
    b: int,
    clearance: int = 0,
    way: Way = "any",
    least_useful: int = LEAST_USEFUL_NM,
) -> Placement | None:
    """The placement that spoils least of those square on, else one askew; None where none fits.

    All lengths nm. `way` "width along a" or "width along b" is for a blank whose grain is asked
    for: the grain of the offcut runs along one side, so only that one way is allowed. "any" tries
    both ways square and, only where neither fits, askew. Raises ValueError for a side that is not
    between 1 nm and 10 m, a clearance or least useful width below zero, or an unknown `way`.
    """
    _check(width, height, a, b)
    if clearance < 0 or least_useful < 0 or way not in ("any", "width along a", "width along b"):
        raise ValueError("a clearance and a least useful width are 0 or more, and the way is known")
    room_a, room_b = a - 2 * clearance, b - 2 * clearance
    best: Placement | None = None
    if way != "width along b" and width <= room_a and height <= room_b:
        best = _square("width along a", width, height, a, b, clearance, least_useful)
    if way != "width along a" and height <= room_a and width <= room_b:
        other = _square("width along b", width, height, a, b, clearance, least_useful)
        if best is None or other.spoiled < best.spoiled:
            best = other
    if best is not None or way != "any" or room_a <= 0 or room_b <= 0:
        return best
    if not _fits(width, height, room_a, room_b):
        return None
    return _askew(width, height, a, b, clearance, least_useful)


def _fits(width: int, height: int, a: int, b: int) -> bool:
    p, q = max(width, height), min(width, height)
    a, b = max(a, b), min(a, b)
    if q > b:
        return False
    if p <= a:
        return True
    square = p * p + q * q
    spare = b * square - 2 * p * q * a
    return spare >= 0 and spare * spare >= (p * p - q * q) ** 2 * (square - a * a)


def _square(
    laid: Laid, width: int, height: int, a: int, b: int, clearance: int, least_useful: int
) -> Placement:
    """The blank square in the corner at (0, 0), the clearance away from both sides."""
    along_a, along_b = (width, height) if laid == "width along a" else (height, width)
    k = clearance
    origin, end_a = (k, k), (k + along_a, k)
    far, end_b = (k + along_a, k + along_b), (k, k + along_b)
    corners = (
        (origin, end_a, far, end_b) if laid == "width along a" else (origin, end_b, far, end_a)
    )
    left = _left(along_a + 2 * k, along_b + 2 * k, a, b, least_useful)
    tenths = 0 if laid == "width along a" else 900
    return Placement(laid, tenths, corners, left, _spoiled(width, height, a, b, left))


def _askew(width: int, height: int, a: int, b: int, clearance: int, least_useful: int) -> Placement:
    """The blank at the middle of the angles at which it fits. Only for one that fits no other way.

    Only the four operations and the square root are used, so that the phone, reckoning in the same
    double precision, gives the same nanometres.
    """
    p, q = float(max(width, height)), float(min(width, height))
    room_a, room_b = a - 2 * clearance, b - 2 * clearance
    long, short = float(max(room_a, room_b)), float(min(room_a, room_b))
    cos, sin = _middle_angle(p, q, long, short)
    ring = [(q * sin, 0.0)]
    ring.append((ring[0][0] + p * cos, p * sin))
    ring.append((p * cos, p * sin + q * cos))
    ring.append((0.0, q * cos))
    run, rise = cos, sin
    if width < height:
        ring = [*ring[1:], ring[0]]
        run, rise = sin, cos
    if room_a < room_b:
        ring = [(y, x) for x, y in ring]
        run, rise = rise, run
    inside = [(_nearest(x, room_a) + clearance, _nearest(y, room_b) + clearance) for x, y in ring]
    block_a = min(max(x for x, _ in inside) + clearance, a)
    block_b = min(max(y for _, y in inside) + clearance, b)
    left = _left(block_a, block_b, a, b, least_useful)
    tenths = math.floor(math.degrees(math.atan2(rise, run)) * 10 + 0.5)
    corners = (inside[0], inside[1], inside[2], inside[3])
    return Placement("askew", tenths, corners, left, _spoiled(width, height, a, b, left))


def _middle_angle(p: float, q: float, a: float, b: float) -> tuple[float, float]:
    """Cosine and sine half way between the least and the greatest angle at which p > a fits."""
    square = p * p + q * q
    s = math.sqrt((p - a) * (p + a) + q * q)
    t = math.sqrt((p - b) * (p + b) + q * q)
    cos = (a * p - q * s) / square + (b * q + p * t) / square
    sin = (a * q + p * s) / square + (b * p - q * t) / square
    length = math.sqrt(cos * cos + sin * sin)
    return cos / length, sin / length


def _nearest(value: float, most: int) -> int:
    return min(max(math.floor(value + 0.5), 0), most)


def _left(block_a: int, block_b: int, a: int, b: int, least_useful: int) -> Point:
    """The larger of the two strips that one straight cut leaves beside the block, where useful."""
    best, area = (0, 0), 0
    for strip in ((a - block_a, b), (a, b - block_b)):
        if min(strip) >= max(least_useful, 1) and _um2(*strip) > area:
            best, area = strip, _um2(*strip)
    return best


def _spoiled(width: int, height: int, a: int, b: int, left: Point) -> int:
    return max(_um2(a, b) - _um2(width, height) - _um2(*left), 0)


def _um2(one: int, other: int) -> int:
    """An area in whole um2, each side first taken down to whole um: below 2^53 up to 10 m."""
    return (one // NM_PER_UM) * (other // NM_PER_UM)


def _check(*sides: int) -> None:
    if any(not 1 <= side <= LONGEST_NM for side in sides):
        raise ValueError("a side is more than zero and at most 10 m")
