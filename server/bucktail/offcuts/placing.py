"""Where on an offcut a blank is best cut: so that what stays is worth most to the workshop.

The blank is tried in some dozens of places where it touches the edge of the metal, with one of its
edges along an edge there. Each is judged by what still fits afterwards of the sizes that the
workshop asks for (worth.py); where that says nothing, by shares of the offcut's own size. A second
suggestion lies elsewhere. Lengths are nm, angles millionths of a degree.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely

from bucktail.offcuts.blanks import edge_along_edge, lay
from bucktail.offcuts.fitting.curve import Curve
from bucktail.offcuts.innerfit import (
    Points,
    polygon_of,
    rings_of_polygon,
    simpler,
    turned,
)
from bucktail.offcuts.laying import Blank, Ground, Lying, places
from bucktail.offcuts.worth import Size, Worth, frames_of

#: So many places are compared, at no fewer than MOST_ANGLES angles where there are as many.
MOST_PLACES, MOST_ANGLES = 64, 10
#: So many sizes and frames are asked about, and so many points of the outline.
MOST_SIZES, MOST_FRAMES, SOME_POINTS = 16, 3, 60
#: Shares of the offcut's own length and width, for what the workshop's sizes say nothing about.
SHARES = ((1.0, 0.8), (1.0, 0.5), (1.0, 0.25), (0.75, 0.75), (0.75, 0.5), (0.5, 0.5), (0.25, 0.25))
#: How much such a share counts beside the sizes asked for.
SHARE_WEIGHT = 0.02


@dataclass(frozen=True, slots=True)
class Place:
    """A place for the blank, with what it leaves.

    `left_um2`: the largest piece that stays. `keeps` of the `fitted` sizes that the workshop asks
    for, which fitted before, still fit. `kept` is the worth that stays, as a share.
    """

    lying: Lying
    left_um2: int
    keeps: int
    fitted: int
    kept: float
    pieces: int

    @property
    def reason(self) -> str:
        """Why here, in a sentence or two."""
        if not self.fitted:
            said = "None of the sizes that this workshop asks for fitted before."
        elif self.keeps == self.fitted:
            said = "Every size that this workshop asks for and that fitted before still fits."
            if self.fitted == 1:
                said = "The one size that this workshop asks for and that fitted before still fits."
        else:
            said = (
                f"{self.keeps or 'None'} of the {self.fitted} sizes that this workshop asks for "
                f"and that fitted before still {'fits' if self.keeps == 1 else 'fit'}."
            )
        if self.pieces == 0:
            return f"{said} Next to nothing stays."
        if self.pieces == 1:
            return f"{said} What stays is one piece."
        return f"{said} What stays falls into {self.pieces} pieces."


@dataclass(frozen=True, slots=True)
class Tried:
    """A touching place that was judged: its turn, place and worth."""

    angle: int
    place: Points
    worth: float
    keeps: int


def best_places(
    ground: Ground,
    blank: Blank,
    sizes: Sequence[Size] = (),
    turns: Sequence[int] | None = None,
    kerf: int = 0,
    curve: Curve | None = None,
) -> list[Place]:
    """The best place for the blank and a second one elsewhere; empty where none is found.

    `sizes` are what the workshop asks for, with their weights; `kerf` is what a cut takes around
    the blank.
    """
    touching = touching_places(ground, blank, turns, curve)
    if not touching:
        return []
    asked = most_weighty(sizes)
    worth = Worth.of(_simple(ground), [*asked, *_shares(ground, asked)], _frames(ground))
    hull = hull_of(blank, kerf)
    tried = [one for angle, at in touching for one in _judged(worth, angle, hull, at, len(asked))]
    tried.sort(key=lambda one: -one.worth)
    apart = 0.5 * min(np.ptp(blank.rings[0], axis=0))
    middle = np.array(polygon_of(blank.rings).centroid.coords)
    chosen: list[Tried] = []
    for one in tried:
        if all(_apart(one, other, middle) > apart for other in chosen):
            chosen.append(one)
        if len(chosen) == 2:
            break
    fitted = int(worth.fitting[: len(asked)].sum())
    whole = worth.value or 1.0
    return [_told(ground, blank, kerf, one, fitted, one.worth / whole) for one in chosen]


def touching_places(
    ground: Ground, blank: Blank, turns: Sequence[int] | None, curve: Curve | None = None
) -> list[tuple[int, Points]]:
    """Places where the blank touches the edge from inside, by angle: (angle, array of places)."""
    if turns == () or blank.area > ground.area:
        return []
    angles = turns
    if angles is None:
        angles = list(
            dict.fromkeys([*edge_along_edge(ground, blank), *range(0, 360_000_000, 90_000_000)])
        )
    found: list[tuple[int, Points]] = []
    count = 0
    for angle in itertools.islice(angles, 4 * MOST_ANGLES):
        at = list(itertools.islice(places(ground, blank, angle), MOST_PLACES))
        if at:
            found.append((angle, np.array(at)))
            count += len(at)
        if len(found) >= MOST_ANGLES and count >= MOST_PLACES:
            break
    if found or turns is not None:
        return found
    only = lay(ground, blank, None, curve)
    if only is None:
        return []
    at = [np.array((only.x, only.y), dtype=float), *places(ground, blank, only.angle)]
    return [(only.angle, np.array(at))]


def most_weighty(sizes: Sequence[Size], most: int = MOST_SIZES) -> list[Size]:
    """Like sizes put together, and of those the ones that count most."""
    together: dict[tuple[int, int], float] = {}
    for size in sizes:
        key = (max(size.width, size.height), min(size.width, size.height))
        together[key] = together.get(key, 0.0) + size.weight
    merged = [Size(*key, weight) for key, weight in together.items()]
    return sorted(merged, key=lambda size: (-size.worth, size.width, size.height))[:most]


def hull_of(blank: Blank, kerf: int) -> Points:
    """The hull of what cutting the blank out takes, counter-clockwise, in the blank's frame."""
    whole = shapely.convex_hull(polygon_of(blank.rings))
    return rings_of_polygon(shapely.buffer(whole, kerf, join_style="mitre") if kerf else whole)[0]


def _simple(ground: Ground) -> list[Points]:
    return rings_of_polygon(simpler(polygon_of(ground.rings), SOME_POINTS))


def _frames(ground: Ground) -> list[int]:
    return frames_of(ground.directions, MOST_FRAMES)


def _shares(ground: Ground, asked: Sequence[Size]) -> list[Size]:
    """Sizes that are shares of the offcut's own; they count for little where others are asked."""
    long, short = sorted(ground.border.size.tolist(), reverse=True)
    shares = [Size(int(long * one), int(short * two)) for one, two in SHARES]
    if not asked:
        return shares
    weight = SHARE_WEIGHT * sum(one.worth for one in asked) / sum(one.worth for one in shares)
    return [Size(one.width, one.height, weight) for one in shares]


def _judged(worth: Worth, angle: int, hull: Points, at: Points, asked: int) -> list[Tried]:
    fits = worth.still_fitting(angle, hull, at)
    each = np.array([size.worth for size in worth.sizes])
    keeps = fits[:, :asked].sum(axis=1)
    return [
        Tried(angle, place, float(value), int(kept))
        for place, value, kept in zip(at, fits @ each, keeps, strict=True)
    ]


def _apart(one: Tried, other: Tried, middle: Points) -> float:
    """How far apart the middles of the blank in two places are."""
    way = turned(middle, one.angle) + one.place - turned(middle, other.angle) - other.place
    return float(np.hypot(*way[0]))


def _told(ground: Ground, blank: Blank, kerf: int, one: Tried, fitted: int, kept: float) -> Place:
    lying = blank.at(one.angle, one.place)
    left = _left(ground, lying, kerf)
    largest = max((part.area for part in left), default=0.0)
    return Place(lying, int(largest / 1e6), one.keeps, fitted, kept, len(left))


def _left(ground: Ground, lying: Lying, kerf: int) -> list[Any]:
    """The pieces that stay, without shreds that are nowhere wider than a millimetre or so."""
    blank = shapely.Polygon(lying.ring)
    taken = shapely.buffer(blank, kerf, join_style="mitre") if kerf else blank
    left = shapely.difference(ground.inside.polygon, taken)
    return [
        part
        for part in shapely.get_parts(left)
        if part.geom_type == "Polygon" and part.area > 1e6 * shapely.length(part) / 4
    ]
