"""What cuts from edge to edge leave of rectangles, written down for the phone's tests."""

from __future__ import annotations

import json
from collections.abc import Iterator

from bucktail.offcuts.cutting import Axis, Box, cut_rectangle
from bucktail.offcuts.vectors import Draw

_IN = 25_400_000
_MM = 1_000_000

Case = tuple[int, int, Box, int, Axis]


def _cases() -> Iterator[Case]:
    draw = Draw(2026)
    for n in range(400):
        step = (_IN // 64, _IN // 8, 500_000, 1)[n % 4]
        a, b = (draw.between(2, 30 * _IN // step) * step for _ in range(2))
        x0, y0 = (draw.between(0, side // step // 2) * step for side in (a, b))
        if n % 3:
            x0, y0 = (0, 0) if n % 3 == 1 else (x0, 0)
        x1 = x0 + draw.between(1, (a - x0) // step) * step
        y1 = y0 + draw.between(1, (b - y0) // step) * step
        kerf = (0, _MM, _IN // 16, 1)[draw.between(0, 3)]
        for first in ("x", "y"):
            yield a, b, (x0, y0, x1, y1), kerf, first


def outputs() -> dict[str, str]:
    """The vectors: a row is [[a, b, blank, kerf, first], boxes that stay, dust in um2]."""
    rows = []
    for case in _cases():
        a, b, blank, kerf, first = case
        leaves = cut_rectangle(a, b, [blank], kerf, first)
        boxes = sorted([*region.outer[0], *region.outer[2]] for region in leaves.remnants)
        rows.append(json.dumps([case, boxes, leaves.dust_um2], separators=(",", ":")))
    return {"tests/vectors/cuts.json": "[\n" + ",\n".join(rows) + "\n]\n"}
