"""Where a shape may lie inside an outline without being turned: its inner-fit region.

A shape keeps its angle and is moved about. The places that its own origin may take, with the shape
inside the metal, make up the inner-fit region: what is left of the plane when the sum of the
metal's edge and the shape turned by half a turn is taken away (Minkowski). The corners of the
region are the places where the shape touches the metal's edge in two points or more, so they are
where one would lay it.

Lengths are nanometres. Coordinates go through a grid of 0.1 um (whole numbers, as the clipping
library wants them), so shapes are grown by `HAIR_NM` first and what is claimed in the end is looked
at again without a grid (`Inside`). This module needs numpy, shapely and pyclipper: import it where
it is used, not where the server starts.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import Any, Protocol

import numpy as np
import pyclipper
import shapely
from numpy.typing import NDArray

Points = NDArray[np.float64]

GRID_NM = 100
HAIR_NM = 1000
#: An outline of more points is made simpler, inward only, before shapes are moved about in it.
MANY_POINTS = 160
SIMPLER_NM = (100_000, 300_000, 1_000_000)
#: The same for what is made simpler outward, and how many points that may keep.
WIDER_NM, FAIRLY_MANY = (100_000, 300_000, 1_000_000, 3_000_000), 100
#: So many triangles are joined to larger convex parts; more are left as they are.
MOST_JOINED = 120


class Metal(Protocol):
    """What has an outline: `outer` counter-clockwise and `holes` clockwise, in nm, not closed."""

    @property
    def outer(self) -> Sequence[tuple[int, int]]: ...

    @property
    def holes(self) -> Sequence[Sequence[tuple[int, int]]]: ...


def rings_of(metal: Metal) -> list[Points]:
    """The outer ring and then the holes, each as an array of points in nm."""
    return [np.array(ring, dtype=np.float64) for ring in (metal.outer, *metal.holes)]


def polygon_of(rings: Sequence[Points]) -> Any:
    """A shapely polygon of rings as `rings_of` gives them."""
    return shapely.Polygon(rings[0], list(rings[1:]))


def rings_of_polygon(polygon: Any) -> list[Points]:
    """The rings of a shapely polygon: the outer one counter-clockwise, the holes clockwise."""
    turned_right = shapely.geometry.polygon.orient(polygon)
    return [
        np.asarray(ring.coords, dtype=np.float64)[:-1]
        for ring in (turned_right.exterior, *turned_right.interiors)
    ]


def turned(points: Points, udeg: int) -> Points:
    """Points turned about the origin by millionths of a degree, counter-clockwise.

    Quarter turns are exact.
    """
    cos, sin = _cos_sin(udeg)
    moved: Points = points @ np.array([[cos, sin], [-sin, cos]])
    return moved


def _cos_sin(udeg: int) -> tuple[float, float]:
    quarters, rest = divmod(udeg, 90_000_000)
    angle = math.radians(rest / 1e6)
    cos, sin = math.cos(angle), math.sin(angle)
    for _ in range(quarters % 4):
        cos, sin = -sin, cos
    return cos, sin


def simpler(polygon: Any, most: int = MANY_POINTS) -> Any:
    """A polygon of fewer points that lies inside `polygon`, where it has more than `most`.

    Where no simpler one is found the polygon itself comes back. What is taken off at its edge is
    at most 2 mm.
    """
    best = polygon
    for tolerance in SIMPLER_NM:
        if shapely.get_num_coordinates(best) <= most:
            return best
        smaller = shapely.simplify(
            shapely.buffer(polygon, -tolerance, join_style="mitre"), tolerance
        )
        if smaller.geom_type == "Polygon" and not smaller.is_empty and polygon.covers(smaller):
            best = smaller
    return best


def around(polygon: Any, by: float, most: int = 40) -> Any:
    """A polygon that holds all points within `by` of `polygon`, and a little more.

    Corners are kept sharp up to three times `by`. Where there are more than `most` points some are
    left out, outward only; where nothing else helps what comes back is the convex hull.
    """
    larger = shapely.buffer(polygon, by, join_style="mitre", mitre_limit=3.0)
    if shapely.get_num_coordinates(larger) <= most:
        return larger
    best = larger
    for tolerance in WIDER_NM:
        wide = shapely.buffer(polygon, by + tolerance, join_style="mitre", mitre_limit=3.0)
        plain = shapely.simplify(wide, tolerance)
        if plain.geom_type == "Polygon" and plain.is_valid and plain.covers(larger):
            best = plain
        if shapely.get_num_coordinates(best) <= max(most, FAIRLY_MANY):
            return best
    return shapely.convex_hull(larger)


def with_clearance(polygon: Any, clearance: int) -> Any:
    """All points within `clearance` of `polygon`: what a blank takes up with its clearance.

    Sides are exact; the arcs at the corners are drawn around (by 0.5 % of the clearance), so that
    nothing nearer than the clearance is passed over.
    """
    if clearance <= 0:
        return polygon
    rounded = shapely.buffer(polygon, clearance / math.cos(math.pi / 32), quad_segs=8)
    return shapely.intersection(rounded, shapely.buffer(polygon, clearance, join_style="mitre"))


def convex_parts(polygon: Any) -> list[Points]:
    """Convex polygons (counter-clockwise) that together make up `polygon`, as few as come easily.

    Triangles first, then any two that share an edge and make a convex polygon are joined.
    """
    if _is_convex(polygon):
        return [rings_of_polygon(polygon)[0]]
    left = [one for one in shapely.constrained_delaunay_triangles(polygon).geoms if one.area > 0]
    joined: list[Any] = left if len(left) > MOST_JOINED else []
    while left and joined is not left:
        part = left.pop(0)
        grew = True
        while grew:
            grew = False
            for other in left:
                both = shapely.union(part, other)
                if both.geom_type == "Polygon" and _is_convex(both):
                    part, grew = both, True
                    left.remove(other)
                    break
        joined.append(part)
    return [rings_of_polygon(part.convex_hull)[0] for part in joined]


def _is_convex(polygon: Any) -> bool:
    hull = shapely.convex_hull(polygon).area
    return not polygon.interiors and bool(hull - polygon.area <= 1e-9 * hull)


class Border:
    """The edge of the metal made ready for inner-fit regions, in the frame it is given in."""

    def __init__(self, rings: Sequence[Points]) -> None:
        paths = [_grid(ring)[::-1] for ring in rings]  # so that what is not metal is on the left
        start, self.ends = 0, []
        after = []
        for path in paths:
            after.append(np.arange(start + 1, start + len(path) + 1))
            start += len(path)
            after[-1][-1] = start - len(path)
            self.ends.append(start)
        self._end = np.concatenate(after)
        self.edges = start
        points = np.concatenate(paths)
        self._to = points[self._end]
        steps = self._to - points
        then = steps[self._end]
        self._heading = np.arctan2(steps[:, 1], steps[:, 0])
        cross = steps[:, 0] * then[:, 1] - steps[:, 1] * then[:, 0]
        self._way = np.where(cross >= 0, 1, -1)
        self.doubled = -_doubled(paths[0].astype(np.float64))
        low, high = points.min(axis=0), points.max(axis=0)
        self.size: Points = (high - low) * float(GRID_NM)
        self.low: Points = low * float(GRID_NM)
        far = int((high - low).max()) * 4 + 1000
        (x0, y0), (x1, y1) = (low - far).tolist(), (high + far).tolist()
        self.frame: list[list[int]] = [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]

    def convolved(self, part: NDArray[np.int64]) -> list[list[list[int]]]:
        """The convolution of every ring with a convex polygon."""
        sides = np.concatenate([part[1:], part[:1]]) - part
        facing = np.arctan2(sides[:, 1], sides[:, 0])
        first = int(facing.argmin())
        in_order = np.concatenate([facing[first:], facing[:first]])
        corner = (in_order.searchsorted(self._heading) + first) % len(part)
        more = (self._way * (corner[self._end] - corner)) % len(part) + 1
        last = more.cumsum()
        index = np.repeat(np.arange(len(more)), more)
        nth = np.arange(len(index)) - (last - more)[index]
        chosen = (corner[index] + self._way[index] * nth) % len(part)
        path: list[list[int]] = (self._to[index] + part[chosen]).tolist()
        cuts = [0, *(int(last[end - 1]) for end in self.ends)]
        return [path[one:two] for one, two in itertools.pairwise(cuts)]


def regions(border: Border, parts: Sequence[Points]) -> list[Points]:
    """The inner-fit region of a shape made up of convex `parts`: rings of places for its origin.

    Outer rings run counter-clockwise, holes in the region clockwise. Right up to the grid. The
    metal's edge is taken once for each part: every edge is moved by the corner of the part that
    comes to lie on it, and where the edge turns, the part's own edges between are put in. Where
    such a path (a convolution) winds round a place, the part meets the edge there.
    """
    backs = [_convex_on_grid(-part) for part in parts]
    return _regions(border, backs) if all(len(back) >= 3 for back in backs) else []


def _regions(border: Border, backs: Sequence[NDArray[np.int64]]) -> list[Points]:
    """As `regions`, of convex parts on the grid that are turned by half a turn."""
    # a part that holds the whole metal meets its edge nowhere, and is not inside
    if any(_doubled(back.astype(np.float64)) >= border.doubled for back in backs):
        return []
    paths = [path for back in backs for path in border.convolved(back)]
    clipper = pyclipper.Pyclipper()
    clipper.AddPaths([border.frame] * len(backs) + paths, pyclipper.PT_SUBJECT, True)
    try:
        found = clipper.Execute(pyclipper.CT_UNION, pyclipper.PFT_POSITIVE, pyclipper.PFT_POSITIVE)
    except pyclipper.ClipperException:
        return []
    return [_off_grid(path[::-1]) for path in found if border.frame[0] not in path]


def _doubled(ring: Points) -> float:
    """Twice the area within a ring; below zero where it runs clockwise."""
    onward = np.concatenate([ring[1:], ring[:1]])
    return float((ring[:, 0] * onward[:, 1] - ring[:, 1] * onward[:, 0]).sum())


def _convex_on_grid(points: Points) -> NDArray[np.int64]:
    """A convex part on the grid; without points where nothing of it is left there."""
    ring = _grid(points)
    sides = np.concatenate([ring[1:], ring[:1]]) - ring
    then = np.concatenate([sides[1:], sides[:1]])
    if np.all(sides[:, 0] * then[:, 1] > sides[:, 1] * then[:, 0]):
        return ring
    hull = shapely.convex_hull(shapely.MultiPoint(ring.astype(np.float64)))
    if hull.geom_type != "Polygon":
        return np.zeros((0, 2), dtype=np.int64)
    return rings_of_polygon(hull)[0].astype(np.int64)


def rectangle_regions(border: Border, width: float, height: float) -> list[Points]:
    """The inner-fit region of a rectangle laid square, as rings of places for its lower left.

    A side is taken up to the next step of the grid.
    """
    w, h = (-(-int(side) // GRID_NM) for side in (width, height))
    if w <= 0 or h <= 0:
        return []
    return _regions(border, [np.array([(-w, -h), (0, -h), (0, 0), (-w, 0)], dtype=np.int64)])


def take_away(region: Sequence[Points], convex: Points) -> list[Points]:
    """The region without the inside of a convex polygon (counter-clockwise)."""
    if not region:
        return []
    clipper = pyclipper.Pyclipper()
    try:
        clipper.AddPaths([_on_grid(ring) for ring in region], pyclipper.PT_SUBJECT, True)
        clipper.AddPath(_on_grid(convex), pyclipper.PT_CLIP, True)
        found = clipper.Execute(
            pyclipper.CT_DIFFERENCE, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO
        )
    except pyclipper.ClipperException:
        return []
    return [_off_grid(path) for path in found]


def _on_grid(points: Points) -> list[list[int]]:
    path: list[list[int]] = _grid(points).tolist()
    return path


def _grid(points: Points) -> NDArray[np.int64]:
    return np.rint(points / GRID_NM).astype(np.int64)


def _off_grid(path: list[list[int]]) -> Points:
    return np.array(path, dtype=np.float64) * GRID_NM


class Inside:
    """Whether a shape lies inside the metal, looked at without a grid."""

    def __init__(self, polygon: Any) -> None:
        self.polygon = polygon
        shapely.prepare(polygon)

    def holds(self, rings: Sequence[Points], at: Points) -> bool:
        """True where the shape of `rings`, moved by `at` (x, y), lies inside or touches."""
        moved = shapely.Polygon(rings[0] + at, [ring + at for ring in rings[1:]])
        return bool(shapely.covers(self.polygon, moved))
