"""Offcuts of odd shapes for tests: outlines as recorded, and a measuring that takes no time."""

from __future__ import annotations

import json
from random import Random
from typing import Any

from running.sheetstock import sheet

NM_PER_MM = 1_000_000
Points = list[tuple[float, float]]


def ring(points: Points) -> list[list[int]]:
    """Corners in mm as they are recorded."""
    return [[round(x * NM_PER_MM), round(y * NM_PER_MM)] for x, y in points]


def outline(outer: Points, *holes: Points, way: str = "walked") -> dict[str, Any]:
    """The shape of an offcut by its corners in mm: outer counter-clockwise, holes clockwise."""
    return {
        "kind": "outline",
        "outer": ring(outer),
        "holes": [ring(hole) for hole in holes],
        "entered": {"way": way, "texts": {}},
    }


def ell(a: float, b: float, arm_a: float, arm_b: float) -> dict[str, Any]:
    """An L of a x b mm: along the bottom it is arm_b wide, along the left side arm_a."""
    return outline([(0, 0), (a, 0), (a, arm_b), (arm_a, arm_b), (arm_a, b), (0, b)], way="ell")


def odd(shape: dict[str, Any], **change: Any) -> dict[str, Any]:
    """The body of offcut.added for such a shape; otherwise as `sheet` makes it."""
    return sheet(1, 1, **{**change, "shape": shape})


def told_curve(shape: dict[str, Any]) -> str:
    """Stands for measuring: one square in the corner of the outline, whatever its shape."""
    side = min(x for x, _ in shape["outer"] if x) // 1000
    piece = [0, side, side, 0, 0, side, side, 0, 0]
    told = {"v": 1, "area_um2": side * side, "any": [piece], "along": [piece]}
    return json.dumps(told, sort_keys=True, separators=(",", ":"))


def drawn_shape(draw: Random, largest: float = 900) -> dict[str, Any]:
    """An odd outline as workshops have them: corners off, Ls, wedges, bites, skeleton webs; mm."""
    a, b = draw.uniform(60, largest), draw.uniform(40, largest / 2)
    p, q = draw.uniform(0.15, 0.7) * a, draw.uniform(0.15, 0.7) * b
    forms: list[Points] = [
        [(0, 0), (a, 0), (a, b - q), (a - p, b), (0, b)],
        [(0, 0), (a, 0), (a, q), (p, q), (p, b), (0, b)],
        [(0, 0), (a, 0), (p, b)],
        [(0, q), (p, 0), (a, q / 2), (a - p / 9, b), (p / 3, b - q / 3)],
        [(0, 0), (a, 0), (a, b), (a - p / 3, b), (a - p / 2, b - q), (p / 4, b - q), (p / 4, b),
         (0, b)],
    ]  # fmt: skip
    outer = draw.choice(forms)
    low, left = min(y for _, y in outer), min(x for x, _ in outer)
    outer = [(x - left, y - low) for x, y in outer]
    holes: list[Points] = []
    if draw.random() < 0.4:
        r = min(a, b) / 30
        x, y = (p / 4 + 2 * r, min(q, b - q) / 2) if len(outer) != 3 else (a / 2, b / 5)
        holes = [[(x - r, y - r), (x - r, y + r), (x + r, y + r), (x + r, y - r)]]
    made = outline(outer, *holes)
    return made if _sound(made) else drawn_shape(draw, largest)


def _sound(shape: dict[str, Any]) -> bool:
    from bucktail.offcuts.outline import faults

    rings = [[(x, y) for x, y in ring] for ring in (shape["outer"], *shape["holes"])]
    return not faults(rings[0], rings[1:])
