"""What an offcut is worth to the workshop: the sizes it asks for that still fit, by their area.

The worth of a piece of metal is the sum, over the sizes that the workshop asks for, of weight x
area of those of which at least one fits. Each size is tried square to a few directions (frames):
along x, and along the edges with most length.

What a cut spoils is reckoned without measuring anew. Where the corner of a size may lie is an
inner-fit region (innerfit.py). A convex piece cut out takes from it the places where the size would
meet the piece, and those too make up a convex polygon. A region is covered by a convex polygon
exactly where each of its corners is, so to know whether a size still fits it is enough to look at
the corners. So hundreds of places for a blank are compared in a few milliseconds. Lengths are nm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from bucktail.offcuts.innerfit import Border, Points, rectangle_regions, take_away, turned
from bucktail.offcuts.laying import QUARTER

#: A corner of a region this near to the edge of what is taken still counts as outside it (nm).
TOUCHING_NM = 1000.0
#: Directions of frames nearer to each other than this (millionths of a degree) count as one.
ALIKE = 500_000
AXES = np.array([(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)])


@dataclass(frozen=True, slots=True)
class Size:
    """A size that the workshop asks for (nm), and how much it counts."""

    width: int
    height: int
    weight: float = 1.0

    @property
    def worth(self) -> float:
        """Weight x area, mm2."""
        return self.weight * self.width * self.height / 1e12


@dataclass(frozen=True, slots=True)
class Room:
    """Where one size may still lie in one frame: the rings of its region, in that frame."""

    frame: int
    size: int
    width: float
    height: float
    rings: tuple[Points, ...]


class Worth:
    """What still fits in a piece of metal. `take` gives what is left of it after a cut."""

    def __init__(self, sizes: Sequence[Size], frames: Sequence[int], rooms: Sequence[Room]) -> None:
        self.sizes = tuple(sizes)
        self.frames = tuple(frames)
        self.rooms = tuple(room for room in rooms if room.rings)
        self._each = np.array([size.worth for size in sizes])
        self.fitting: NDArray[np.bool_] = np.zeros(len(sizes), dtype=bool)
        self.fitting[[room.size for room in self.rooms]] = True
        self._corners = [self._gather(n) for n in range(len(frames))]

    @classmethod
    def of(cls, rings: Sequence[Points], sizes: Sequence[Size], frames: Sequence[int]) -> Worth:
        """The worth of metal by its rings (see innerfit.rings_of)."""
        rooms = []
        for n, frame in enumerate(frames):
            border = Border([turned(ring, -frame) for ring in rings])
            for k, size in enumerate(sizes):
                for width, height in sorted({(size.width, size.height), (size.height, size.width)}):
                    if width <= border.size[0] and height <= border.size[1]:
                        found = rectangle_regions(border, width, height)
                        rooms.append(Room(n, k, width, height, tuple(found)))
        return cls(sizes, frames, rooms)

    @property
    def value(self) -> float:
        """The worth, mm2 of what still fits."""
        return float(self._each[self.fitting].sum())

    def still_fitting(self, angle: int, hull: Points, places: Points) -> NDArray[np.bool_]:
        """Which sizes still fit after a piece is cut out: (number of places, number of sizes).

        `hull` is the convex hull of the piece with its kerf, `angle` its turn, `places` where its
        origin lies, in the frame of the outline.
        """
        kept = np.zeros((len(places), len(self.sizes)), dtype=bool)
        for frame, (corners, room, owner) in zip(self.frames, self._corners, strict=True):
            if not len(corners):
                continue
            ring = turned(hull, angle - frame)
            steps = np.concatenate([ring[1:], ring[:1]]) - ring
            outward = np.concatenate([np.stack([steps[:, 1], -steps[:, 0]], axis=1), AXES])
            outward /= np.hypot(outward[:, 0], outward[:, 1])[:, None]
            reach = (outward @ ring.T).max(axis=1)
            # how far the size, laid back from its corner, reaches along each direction
            back = np.maximum(-outward[:, None, :] * room[None, :, :], 0.0).sum(axis=2)
            off = outward @ corners.T - reach[:, None] - back
            moved = outward @ turned(places, -frame).T
            outside = np.zeros((len(places), len(corners)), dtype=bool)
            for side in range(len(outward)):
                outside |= off[side][None, :] - moved[side][:, None] >= -TOUCHING_NM
            starts = np.flatnonzero(np.diff(owner, prepend=-1))
            kept[:, owner[starts]] |= np.logical_or.reduceat(outside, starts, axis=1)
        return kept

    def values(self, angle: int, hull: Points, places: Points) -> NDArray[np.float64]:
        """The worth that is left for each place of a piece; as `still_fitting`."""
        left: NDArray[np.float64] = self.still_fitting(angle, hull, places) @ self._each
        return left

    def take(self, angle: int, hull: Points, place: Points) -> Worth:
        """The worth of what is left after a piece is cut out; as `still_fitting`."""
        rings = [turned(hull, angle - frame) + turned(place, -frame) for frame in self.frames]
        rooms = []
        for room in self.rooms:
            meeting = meets(rings[room.frame], room.width, room.height)
            left = take_away(room.rings, meeting)
            rooms.append(Room(room.frame, room.size, room.width, room.height, tuple(left)))
        return Worth(self.sizes, self.frames, rooms)

    def _gather(self, frame: int) -> tuple[Points, Points, NDArray[np.int64]]:
        """In one frame, by size: the hull's corners of each region, the sides, the size's number.

        A convex polygon covers a region where it covers the corners of its hull.
        """
        rooms = sorted((one for one in self.rooms if one.frame == frame), key=lambda one: one.size)
        if not rooms:
            return np.zeros((0, 2)), np.zeros((0, 2)), np.zeros(0, dtype=np.int64)
        points = [np.concatenate(room.rings) for room in rooms]
        which = np.repeat(np.arange(len(rooms)), [len(one) for one in points])
        hulls = shapely.convex_hull(shapely.multipoints(np.concatenate(points), indices=which))
        corners, which = shapely.get_coordinates(hulls, return_index=True)
        sides = np.array([(room.width, room.height) for room in rooms])
        owner = np.array([room.size for room in rooms], dtype=np.int64)
        return corners, sides[which], owner[which]


def meets(hull: Points, width: float, height: float) -> Points:
    """Where the lower left corner of a rectangle lies when it meets a convex piece (a convex ring).

    The sum of the piece and the rectangle turned by half a turn.
    """
    corners = np.array([(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)])
    every = (hull[:, None, :] - corners[None, :, :]).reshape(-1, 2)
    ring: Points = np.asarray(shapely.convex_hull(shapely.MultiPoint(every)).exterior.coords)[:-1]
    return ring if _doubled(ring) > 0 else ring[::-1]


def _doubled(ring: Points) -> float:
    onward = np.concatenate([ring[1:], ring[:1]])
    return float((ring[:, 0] * onward[:, 1] - onward[:, 0] * ring[:, 1]).sum())


def frames_of(directions: Sequence[int], most: int) -> list[int]:
    """The frames to try: along x, and the first directions that differ from those before."""
    frames = [0]
    for direction in directions:
        turn = direction % QUARTER
        if all(min((turn - one) % QUARTER, (one - turn) % QUARTER) > ALIKE for one in frames):
            frames.append(turn)
    return frames[:most]
