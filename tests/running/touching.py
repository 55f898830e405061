"""Random places for a rectangle at the edge of an offcut, to compare a chosen one with."""

from __future__ import annotations

from random import Random

import numpy as np

from bucktail.offcuts.innerfit import Border, Points, rectangle_regions, rings_of, turned
from bucktail.offcuts.outline import Outline

Ring = tuple[tuple[int, int], ...]


def random_places(draw: Random, metal: Outline, width: int, height: int, number: int) -> list[Ring]:
    """Rings of rectangles that touch the edge at random angles and places."""
    found: list[Ring] = []
    rings = rings_of(metal)
    blank = np.array([(0, 0), (width, 0), (width, height), (0, height)], dtype=float)
    for _ in range(number * 10):
        angle = draw.randrange(360_000_000)
        spots: list[Points] = rectangle_regions(
            Border([turned(ring, -angle) for ring in rings]), width, height
        )
        for spot in spots[:2]:
            for _ in range(4):
                n, share = draw.randrange(len(spot)), draw.choice((0.0, draw.random()))
                at = spot[n] * (1 - share) + spot[(n + 1) % len(spot)] * share
                laid = np.rint(turned(blank + at, angle)).astype(int).tolist()
                found.append(tuple((x, y) for x, y in laid))
        if len(found) >= number:
            return found[:number]
    return []
