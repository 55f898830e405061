"""Fit curves held against what they are about: exact containment, and a far finer search."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from random import Random

import shapely
from shapely.geometry import Polygon

from bucktail.offcuts.fitting import Curve, Way, Witness
from bucktail.offcuts.fitting.angles import DEGREE, HALF_TURN, Front, Sweeper
from bucktail.offcuts.outline import Outline

NM_PER_UM = 1000
NEAR_UM = 300
#: the finer search: every half degree, then halving down to some hundred-thousandths
FINE_GRID = DEGREE // 2
FINEST = 16


@dataclass(frozen=True, slots=True)
class Claims:
    """How many rectangles were asked for, how many claimed, how many of these do not fit."""

    asked: int
    claimed: int
    false: int


def metal(outline: Outline) -> Polygon:
    """The outline for shapely, um."""
    rings = [[(x / NM_PER_UM, y / NM_PER_UM) for x, y in ring] for ring in outline.rings]
    made = Polygon(rings[0], rings[1:])
    shapely.prepare(made)
    return made


def check_claims(outline: Outline, curve: Curve, number: int, draw: Random) -> Claims:
    """Ask for `number` rectangles, half of them within NEAR_UM of the curve, in every way.

    The corners of every rectangle claimed are put to shapely's exact predicates.
    """
    shape, claimed, wrong = metal(outline), 0, 0
    most_w = max(outline.size_nm) // NM_PER_UM
    found: list[Witness] = []
    for n in range(number):
        way: Way = ("any", "any", "along", "across")[n % 4]
        row = curve.any if way == "any" else curve.along
        if n % 2 and row:
            piece = row[draw.randrange(len(row))]
            w = draw.randint(piece.w0, piece.w1)
            h = round(piece.h0 + (piece.h1 - piece.h0) * piece.share(w))
            w, h = w + draw.randint(-NEAR_UM, NEAR_UM), h + draw.randint(-NEAR_UM, NEAR_UM)
            if way == "across" or (way == "any" and draw.random() < 0.5):
                w, h = h, w
        else:
            w, h = (round(most_w * draw.random() ** 2) for _ in range(2))
        place = curve.witness(max(w, 1), max(h, 1), way)
        if place:
            claimed += 1
            found.append(place)
            wrong += not _lies_as_asked(place, max(w, 1), max(h, 1), way)
    corners = [[*one.corners, one.corners[0]] for one in found]
    if corners:
        wrong += int((~shapely.covers(shape, shapely.polygons(corners))).sum())
    return Claims(number, claimed, wrong)


def _lies_as_asked(place: Witness, w: int, h: int, way: Way) -> bool:
    """Whether the rectangle is the one asked for and keeps to the grain."""
    straight = {"any": place.degrees, "along": 0.0, "across": 90.0}[way]
    return (place.w, place.h, place.degrees) == (w, h, straight)


def exactly_inside(outline: Outline, place: Witness) -> bool:
    """Whether a rectangle lies in the metal, in exact fractions; slow, and it shares nothing.

    Its sides are crossed by no side of the outline, and no corner of the outline lies within it.
    The corners are what the floats of `place` say, taken at their word.
    """
    corners = [(Fraction(x), Fraction(y)) for x, y in place.corners]
    box = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    inside = False
    for ring in outline.rings:
        points = [(Fraction(x, NM_PER_UM), Fraction(y, NM_PER_UM)) for x, y in ring]
        for one, other in zip(points, [*points[1:], points[0]], strict=True):
            if any(_cross(one, other, a, b) for a, b in box):
                return False
            if all(_turn(a, b, one) > 0 for a, b in box):
                return False
            (x0, y0), (x1, y1), (x, y) = one, other, corners[0]
            if (y0 > y) != (y1 > y) and (x1 - x0) * (y - y0) / (y1 - y0) + x0 > x:
                inside = not inside
    return inside


_XY = tuple[Fraction, Fraction]


def _turn(a: _XY, b: _XY, c: _XY) -> Fraction:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _cross(a: _XY, b: _XY, c: _XY, d: _XY) -> bool:
    return _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0


def finest(outline: Outline, widths: list[float], way: Way) -> list[float]:
    """The tallest rectangle of each width (um, rising) by a search far finer than the curve's."""
    rings = [[(x / NM_PER_UM, y / NM_PER_UM) for x, y in ring] for ring in outline.rings]
    sweeper, front = Sweeper(rings), Front.empty(widths, way == "any")
    whole = (0, len(widths))
    if way != "any":
        sweeper.sweep({0: whole}, front)
        return [float(h) for h in front.heights]
    edges = {
        round(math.degrees(math.atan2(y1 - y0, x1 - x0)) * DEGREE) % (HALF_TURN // 2)
        for ring in rings
        for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], *ring[:1]], strict=True)
    }
    edges |= {edge + HALF_TURN // 2 for edge in edges}
    sweeper.sweep(dict.fromkeys(edges | set(range(0, HALF_TURN, FINE_GRID)), whole), front)
    step = FINE_GRID
    while step > FINEST:
        step //= 2
        near = {(int(one) + way_ * step) % HALF_TURN for one in front.angles for way_ in (-1, 1)}
        sweeper.sweep(dict.fromkeys(near, whole), front)
    return [float(h) for h in front.heights]


def missed(
    outline: Outline,
    curve: Curve,
    number: int,
    draw: Random,
    way: Way,
    least: int,
    most: int | None,
) -> tuple[int, int]:
    """How many rectangles were asked for that fit with `least` to `most` um to spare, and missed.

    Both sides have that much to spare. Without `most` they have up to half of themselves.
    """
    row = curve.any if way == "any" else curve.along
    if not row:
        return 0, 0
    narrowest = row[0].w0 if way == "any" else least
    widths = sorted(draw.uniform(narrowest, row[-1].w1 + least) for _ in range(number))
    asked = gone = 0
    for w, h in zip(widths, finest(outline, widths, way), strict=True):
        if h <= least * 2 or w <= least * 2 or (way == "any" and h > w):
            continue
        less = [draw.uniform(least, most or max(size / 2, least + 1)) for size in (w, h)]
        asked += 1
        gone += not curve.claims(max(int(w - less[0]), 1), max(int(h - less[1]), 1), way)
    return asked, gone
