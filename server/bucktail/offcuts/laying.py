"""A blank and an offcut made ready to lie on each other, and how the grain lets the blank turn.

Lengths are nanometres, angles millionths of a degree, counter-clockwise.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
import shapely

from bucktail.offcuts.innerfit import (
    HAIR_NM,
    Border,
    Inside,
    Metal,
    Points,
    around,
    convex_parts,
    polygon_of,
    regions,
    rings_of,
    rings_of_polygon,
    simpler,
    turned,
    with_clearance,
)

Grain = Literal["a", "b", "unknown"]
WantedGrain = Literal["any", "along width", "along height"]

WHOLE_TURN = 360_000_000
QUARTER = 90_000_000
#: Directions nearer to each other than this count as one.
ALIKE = 100_000
#: So many directions of the offcut and of the blank are looked at, those with most edge first.
OFFCUT_EDGES, BLANK_EDGES = 14, 8
#: A core of more points than this is not asked.
CORE_POINTS = 100


@dataclass(frozen=True, slots=True)
class Lying:
    """A place for a blank: turned by `angle` about its own origin, then moved by (x, y).

    `ring` is its outer ring there, in the offcut's frame, each corner rounded to whole nm.
    """

    angle: int
    x: int
    y: int
    ring: tuple[tuple[int, int], ...]


def turns_allowed(grain: Grain, wanted: WantedGrain) -> tuple[int, ...] | None:
    """The turns at which a blank's grain is right; None: any, empty: none, the grain is unknown.

    The grain of an offcut runs along its x ("a") or y ("b"); the blank's width lies along its x.
    """
    if wanted == "any":
        return None
    if grain == "unknown":
        return ()
    square = (wanted == "along width") == (grain == "a")
    return (0, 2 * QUARTER) if square else (QUARTER, 3 * QUARTER)


class Blank:
    """A blank made ready to be asked of many offcuts.

    `clearance` is kept between the blank and every edge of the offcut (nm). `moved` is the blank
    with its clearance and two hairs, of few points, as it is moved about; `proof` is the blank with
    its clearance and one hair, which has to lie inside.
    """

    def __init__(self, metal: Metal, clearance: int = 0) -> None:
        self.rings = rings_of(metal)
        self.clearance = clearance
        taken = with_clearance(polygon_of(self.rings), clearance)
        grown = shapely.buffer(taken, HAIR_NM, join_style="mitre", mitre_limit=3.0)
        self.proof = rings_of_polygon(grown)
        self.moved = convex_parts(around(taken, 2 * HAIR_NM))
        self.area = float(taken.area)
        self.edges = sum(len(part) for part in self.moved)
        self._whole = shapely.Polygon(taken.exterior)
        self._cores: dict[int, list[Points] | None] = {}

    @cached_property
    def directions(self) -> list[int]:
        """The directions of the longer edges of the blank's hull."""
        return directions(rings_of_polygon(shapely.convex_hull(self._whole)), BLANK_EDGES)

    def at(self, angle: int, place: Points) -> Lying:
        """The blank turned and moved, as it is answered."""
        x, y = int(place[0]), int(place[1])
        corners = np.rint(turned(self.rings[0], angle) + (x, y)).astype(int)
        return Lying(angle, x, y, tuple((int(px), int(py)) for px, py in corners))

    def core(self, half: int) -> list[Points] | None:
        """What all turns of the blank within `half` have in common, in convex parts.

        Turned about the middle of the blank. None where nothing is left of it: then nothing can be
        said. Of few points, and inside the true one.
        """
        if half not in self._cores:
            self._cores[half] = self._make_core(half)
        return self._cores[half]

    def _make_core(self, half: int) -> list[Points] | None:
        ring = rings_of_polygon(self._whole)[0] - np.array(self._whole.centroid.coords[0])
        reach = float(np.max(np.hypot(*ring.T)))
        common = shapely.Polygon(ring)
        for part in (-half, -half // 2, half // 2, half):
            common = shapely.intersection(common, shapely.Polygon(turned(ring, part)))
        step = math.radians(half / 1e6) / 4
        trim = reach * step * step / 2 + HAIR_NM
        for plain in (reach * step / 4, 0.0):
            inner = shapely.buffer(common, -trim - plain, join_style="mitre")
            inner = shapely.simplify(inner, plain)
            few = shapely.get_num_coordinates(inner) <= CORE_POINTS
            if inner.geom_type == "Polygon" and not inner.is_empty and few:
                return convex_parts(inner)
        return None


class Ground:
    """An offcut made ready to have blanks laid on it.

    `rings` and `border` are of few points and inside the outline, `coarse` of fewer and around it.
    """

    def __init__(self, metal: Metal) -> None:
        polygon = polygon_of(rings_of(metal))
        self.inside = Inside(polygon)
        self.rings = rings_of_polygon(simpler(polygon))
        self.border = Border(self.rings)
        self.area = float(polygon.area)
        self.edges = sum(len(ring) for ring in self.rings)

    @cached_property
    def coarse(self) -> Border:
        """The outline with less detail, a little larger."""
        by = 0.002 * float(np.max(self.border.size))
        return Border(rings_of_polygon(around(self.inside.polygon, by, most=12)))

    @cached_property
    def directions(self) -> list[int]:
        """The directions of the longer edges, those of holes among them."""
        return directions(self.rings, OFFCUT_EDGES)


def places(ground: Ground, blank: Blank, angle: int) -> Iterator[Points]:
    """Every place where the blank, turned by `angle`, touches the offcut's edge from inside."""
    if np.any(_extent(blank.moved, angle) > ground.border.size):
        return
    proof = [turned(ring, angle) for ring in blank.proof]
    for ring in regions(ground.border, [turned(part, angle) for part in blank.moved]):
        yield from (place for place in ring if ground.inside.holds(proof, place))


def room_for_core(ground: Ground, blank: Blank, half: int, angle: int) -> float:
    """How much room the blank's core has to move about in, in nm2; 0 where it does not fit.

    1 where there is no core to be asked.
    """
    core = blank.core(half)
    if core is None:
        return 1.0
    if np.any(_extent(core, angle) > ground.coarse.size):
        return 0.0
    found = regions(ground.coarse, [turned(part, angle) for part in core])
    return sum((abs(float(shapely.area(shapely.Polygon(ring)))) for ring in found), 0.0)


def _extent(parts: Sequence[Points], angle: int) -> Points:
    """How far the parts, turned by `angle`, reach along x and y."""
    extent: Points = np.ptp(np.concatenate([turned(part, angle) for part in parts]), axis=0)
    return extent


def directions(rings: Sequence[Points], most: int) -> list[int]:
    """The directions of the edges, those with the most length first; at most `most`."""
    steps = np.concatenate([np.roll(ring, -1, axis=0) - ring for ring in rings])
    angles = np.rint(np.degrees(np.arctan2(steps[:, 1], steps[:, 0])) * 1e6).astype(np.int64)
    lengths: dict[int, float] = {}
    exact: dict[int, int] = {}
    edges = zip((angles % WHOLE_TURN).tolist(), np.hypot(*steps.T).tolist(), strict=True)
    for angle, length in sorted(edges, key=lambda edge: -edge[1]):
        key = angle // ALIKE
        lengths[key] = lengths.get(key, 0.0) + length
        exact.setdefault(key, angle)
    ranked = sorted(lengths, key=lambda key: -lengths[key])
    return [exact[key] for key in ranked[:most]]
