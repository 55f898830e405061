"""Invented offcuts of every kind that a bench sheds, the same for the same seed.

Sizes 20 to 1200 mm, points on whole tenths of a millimetre, up to three holes.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from random import Random

from shapely import affinity
from shapely.geometry import MultiPolygon, Point, Polygon, box

from bucktail.offcuts.outline import Outline, OutlineFaulty, outline, tidied

NM_PER_TENTH = 100_000
HOLED = 0.25


def _rectangle(draw: Random) -> Polygon:
    return box(0, 0, _size(draw), _size(draw))


def _strip(draw: Random) -> Polygon:
    return box(0, 0, draw.uniform(200, 1200), draw.uniform(20, 90))


def _ell(draw: Random) -> Polygon:
    wide, high = _size(draw, 60), _size(draw, 60)
    return _rectangle_of(wide, high).difference(
        box(wide * draw.uniform(0.2, 0.8), high * draw.uniform(0.2, 0.8), wide + 1, high + 1)
    )


def _triangle(draw: Random) -> Polygon:
    wide = _size(draw, 60)
    return Polygon([(0, 0), (wide, 0), (wide * draw.uniform(-0.2, 1.2), _size(draw, 40))])


def _notched(draw: Random) -> Polygon:
    wide, high = _size(draw, 80), _size(draw, 80)
    made = _rectangle_of(wide, high)
    for _ in range(draw.randint(1, 4)):
        x, deep = wide * draw.random(), high * draw.uniform(0.05, 0.5)
        broad = wide * draw.uniform(0.02, 0.2)
        notch = (
            box(x, -1, x + broad, deep)
            if draw.random() < 0.5
            else box(x, high - deep, x + broad, high + 1)
        )
        made = made.difference(notch)
    return made


def _bitten(draw: Random) -> Polygon:
    wide, high = _size(draw, 80), _size(draw, 80)
    made = _rectangle_of(wide, high)
    for _ in range(draw.randint(1, 3)):
        on = draw.choice([(draw.random() * wide, 0), (0, draw.random() * high), (wide, high)])
        made = made.difference(_round(draw, on, min(wide, high) * draw.uniform(0.1, 0.5)))
    return made


def _skeleton(draw: Random) -> Polygon:
    """What is left of a sheet of which blanks were cut: a web between windows and bays."""
    wide, high = _size(draw, 300), _size(draw, 300)
    made = _rectangle_of(wide, high)
    across, up = draw.randint(2, 3), draw.randint(1, 2)
    for i in range(across):
        for j in range(up):
            if draw.random() < 0.75:
                cell = (wide / across, high / up)
                left, low = (
                    (i + draw.uniform(-0.05, 0.15)) * cell[0],
                    (j + draw.uniform(-0.05, 0.15)) * cell[1],
                )
                size = draw.uniform(0.5, 0.85)
                made = made.difference(box(left, low, left + size * cell[0], low + size * cell[1]))
    return made


def _curved(draw: Random) -> Polygon:
    size, points = _size(draw, 60) / 2, draw.randint(24, 72)
    waves = [(n, draw.uniform(0, 0.5 / n), draw.uniform(0, 6)) for n in (1, 2, 3, 5)]
    ring = []
    for k in range(points):
        turn = 2 * math.pi * k / points
        far = size * (1 + sum(a * math.cos(n * turn + p) for n, a, p in waves) / 2)
        ring.append((far * math.cos(turn), far * math.sin(turn) * 0.7))
    return Polygon(ring)


KINDS: dict[str, Callable[[Random], Polygon]] = {
    "rectangle": _rectangle,
    "strip": _strip,
    "ell": _ell,
    "triangle": _triangle,
    "notched": _notched,
    "bitten": _bitten,
    "skeleton": _skeleton,
    "curved": _curved,
}


def outlines(seed: int, number: int) -> Iterator[tuple[str, Outline]]:
    """`number` outlines, each with its kind."""
    draw = Random(seed)
    made = 0
    while made < number:
        kind = draw.choice(list(KINDS))
        found = _finished(draw, KINDS[kind](draw))
        if found is not None:
            made += 1
            yield kind, found


def _finished(draw: Random, shape: Polygon) -> Outline | None:
    """The shape with its holes, turned and brought to whole tenths; None where that spoils it."""
    if draw.random() < HOLED:
        for _ in range(draw.randint(1, 3)):
            shape = shape.difference(_hole(draw, shape))
    if isinstance(shape, MultiPolygon):
        shape = max(shape.geoms, key=lambda one: one.area)
    if draw.random() < 0.5:
        shape = affinity.rotate(shape, draw.uniform(0, 360))
    if not isinstance(shape, Polygon) or len(shape.interiors) > 3:
        return None
    rings = [
        tidied(
            [(round(x * 10) * NM_PER_TENTH, round(y * 10) * NM_PER_TENTH) for x, y in ring.coords]
        )
        for ring in (shape.exterior, *shape.interiors)
    ]
    try:
        made = outline(rings[0], rings[1:])
    except OutlineFaulty:
        return None
    return made if min(made.size_nm) >= 200 * NM_PER_TENTH else None


def _hole(draw: Random, shape: Polygon) -> Polygon:
    left, low, right, high = shape.bounds
    at = (draw.uniform(left, right), draw.uniform(low, high))
    size = min(right - left, high - low) * draw.uniform(0.03, 0.15)
    if draw.random() < 0.5:
        return _round(draw, at, size)
    hole = box(at[0] - size, at[1] - size, at[0] + size * draw.uniform(0.3, 3), at[1] + size)
    return affinity.rotate(hole, draw.choice([0, 0, draw.uniform(0, 90)]))


def _round(draw: Random, at: tuple[float, float], radius: float) -> Polygon:
    return Point(at).buffer(radius, quad_segs=draw.randint(3, 8))


def _rectangle_of(wide: float, high: float) -> Polygon:
    return box(0, 0, wide, high)


def _size(draw: Random, least: float = 20) -> float:
    """A length in mm, short ones more often."""
    return math.exp(draw.uniform(math.log(least), math.log(1200)))
