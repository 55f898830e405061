"""Outlines from a GeoJSON file (RFC 7946), its coordinates taken as millimetres.

A polygon is a list of rings; the first goes round the metal, the others round its holes; each
repeats its first point at its end (RFC 7946, 3.1.6). Points named twice in a row and points in line
between others are left out; which way a ring turns does not matter.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import Any, NoReturn

from bucktail.offcuts.outline import (
    MOST_POINTS,
    Fault,
    Outline,
    OutlineFaulty,
    Point,
    outline,
    tidied,
)

NM_PER_MM = 1_000_000
#: a ring with more points than this is refused before it is looked at (the limit is for all rings,
#: and after points in line have been left out)
MOST_LISTED = 50 * MOST_POINTS
#: coordinates beyond this (mm) are refused: 10 km
FARTHEST_MM = Decimal(10_000_000)


class Unmapped(ValueError):
    """A file that holds no outlines to read; the text says why and what to do."""


@dataclass(frozen=True, slots=True)
class Mapped:
    """One outline of the file: either the outline, or what is wrong with it.

    `moved` is where the outline's own origin lies in the frame of the file, nm.
    """

    outline: Outline | None
    moved: Point = (0, 0)
    faults: tuple[Fault, ...] = ()


def mapped(text: str) -> list[Mapped]:
    """Every outline of a FeatureCollection, in order. Raises Unmapped."""
    try:
        told = json.loads(text, parse_float=Decimal, parse_constant=_no_number)
    except RecursionError:
        raise Unmapped("The outlines are no GeoJSON: brackets within brackets.") from None
    except (ValueError, InvalidOperation) as trouble:
        raise Unmapped(f"The outlines are no GeoJSON that can be read: {trouble}.") from None
    features = told.get("features") if isinstance(told, dict) else None
    if not isinstance(features, list):
        raise Unmapped(
            "The outlines are no GeoJSON FeatureCollection. Save them as one, with a Polygon for "
            "each offcut, in millimetres."
        )
    return [_one(feature) for feature in features]


def _no_number(text: str) -> NoReturn:
    raise ValueError(f"{text} is no length")


def _one(feature: Any) -> Mapped:
    geometry = feature.get("geometry") if isinstance(feature, dict) else None
    if not isinstance(geometry, dict) or geometry.get("type") != "Polygon":
        return _faulty("polygon", "It is no Polygon. Draw each offcut as one outline with holes.")
    rings = geometry.get("coordinates")
    if not isinstance(rings, list) or not rings:
        return _faulty("few", "The outline has no points.")
    listed = sum(len(ring) for ring in rings if isinstance(ring, list))
    if listed > MOST_LISTED:
        return _faulty(
            "many",
            f"The outline has {listed:,} points; at most {MOST_POINTS:,} can be measured. Leave "
            "out points that lie closer together than you can measure.",
        )
    try:
        read = [tidied(map(_point, ring)) for ring in rings]
        moved = min(x for x, _ in read[0]), min(y for _, y in read[0])
        return Mapped(outline(read[0], read[1:]), moved)
    except OutlineFaulty as faulty:
        return Mapped(None, faults=faulty.faults)
    except (TypeError, IndexError, ValueError, ArithmeticError):
        return _faulty("points", "Its points are not pairs of lengths within 10 km.")


def _faulty(code: str, sentence: str) -> Mapped:
    return Mapped(None, faults=(Fault(code, sentence),))


def _point(pair: Sequence[Any]) -> Point:
    x, y = (
        Decimal(one) if isinstance(one, int | Decimal) else _no_number(str(one)) for one in pair[:2]
    )
    if abs(x) > FARTHEST_MM or abs(y) > FARTHEST_MM:
        raise ValueError("too far out")
    return round(x * NM_PER_MM), round(y * NM_PER_MM)
