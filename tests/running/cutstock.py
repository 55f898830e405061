"""Odd sheets and blanks that lie on them, drawn at random, to be cut."""

from __future__ import annotations

from cmath import rect
from math import radians
from random import Random

from shapely import Polygon

from bucktail.offcuts.cutting import Region, Ring, doubled_area, to_corner

MM = 1_000_000


def drawn_outline(draw: Random) -> Region:
    """A star-shaped outline with a hole now and then, 20 mm to 1 m across."""
    count = draw.randint(3, 14)
    size = draw.randint(20 * MM, 1_000 * MM)
    turns = sorted(draw.sample(range(3600), count))
    ring = [rect(size * draw.uniform(0.25, 0.5), radians(tenths / 10)) for tenths in turns]
    corners = tuple((round(one.real) + size, round(one.imag) + size) for one in ring)
    outline = Polygon(corners)
    if not outline.is_valid or outline.area < size * size / 50 or not outline.exterior.is_ccw:
        return drawn_outline(draw)
    holes: tuple[Ring, ...] = ()
    if draw.random() < 0.5:
        at = outline.representative_point()
        r = round(size / 60)
        x, y = round(at.x), round(at.y)
        hole = ((x - r, y - r), (x - r, y + r), (x + r, y + r), (x + r, y - r))
        if outline.buffer(-2).contains(Polygon(hole)):
            holes = (hole,)
    return to_corner(Region(corners, holes))[0]


def blank_on(draw: Random, region: Region) -> Ring | None:
    """A turned rectangle that lies on the region; None where none was found soon."""
    metal = Polygon(region.outer, region.holes)
    x0, y0, x1, y1 = metal.bounds
    for _ in range(40):
        x, y = draw.uniform(x0, x1), draw.uniform(y0, y1)
        w, h = (draw.uniform(0.02, 0.5) * (x1 - x0) for _ in range(2))
        turn = rect(1, draw.choice([0, 0, draw.uniform(0, 3.14)]))
        corners = (0, w, complex(w, h), complex(0, h))
        ring = tuple(
            (round(x + (one * turn).real), round(y + (one * turn).imag)) for one in corners
        )
        if metal.contains(Polygon(ring)) and doubled_area(ring) > 0:
            return ring
    return None
