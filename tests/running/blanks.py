"""Blanks and questions for offcuts of odd shapes, the same for the same seed."""

from __future__ import annotations

import math
from random import Random

from shapely import LineString, Point, Polygon, affinity

from bucktail.offcuts.laying import Blank
from bucktail.offcuts.outline import Outline, OutlineFaulty, outline, tidied

MM = 1_000_000


def polygon(metal: Outline) -> Polygon:
    """An outline as a shapely polygon, nm."""
    return Polygon(metal.outer, metal.holes)


def rectangle(width: int, height: int, clearance: int = 0) -> Blank:
    """A rectangular blank (nm)."""
    ring = ((0, 0), (width, 0), (width, height), (0, height))
    return Blank(Outline(ring), clearance)


def planted(draw: Random, metal: Outline, spare_mm: float, tight: float = 0.5) -> Outline | None:
    """A blank that fits in `metal` with `spare_mm` all round, turned by any angle; None by chance.

    Its corners lie on rays from one point, `tight` to all of the way to the edge.
    """
    room = polygon(metal).buffer(-spare_mm * MM)
    part = max(getattr(room, "geoms", [room]), key=lambda one: one.area)
    if part.area < 100 * MM**2:
        return None
    x0, y0, x1, y1 = part.bounds
    for _ in range(30):
        middle = Point(draw.uniform(x0, x1), draw.uniform(y0, y1))
        if not part.contains(middle):
            continue
        corners = []
        for angle in sorted(draw.uniform(0, 2 * math.pi) for _ in range(draw.randint(3, 8))):
            end = (middle.x + 3000 * MM * math.cos(angle), middle.y + 3000 * MM * math.sin(angle))
            ray = LineString([middle, end]).intersection(part)
            parts = getattr(ray, "geoms", [ray])
            first = min(parts, key=lambda one: one.distance(middle))
            reach = first.length * draw.uniform(tight, 1)
            corners.append((middle.x + reach * math.cos(angle), middle.y + reach * math.sin(angle)))
        star = Polygon(corners)
        if not star.is_valid:
            continue
        inner = star.intersection(part)
        if inner.geom_type != "Polygon" or inner.area < 0.1 * part.area:
            continue
        whole = Polygon(inner.exterior)
        if not part.buffer(1).contains(whole):
            continue
        ring = affinity.rotate(whole, draw.uniform(0, 360), origin=(0, 0)).exterior.coords
        try:
            return outline(tidied([(round(x), round(y)) for x, y in ring]))
        except OutlineFaulty:
            continue
    return None
