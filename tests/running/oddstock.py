"""Offcuts of odd shapes for tests: outlines as recorded, and a measuring that takes no time."""

from __future__ import annotations

import json
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
