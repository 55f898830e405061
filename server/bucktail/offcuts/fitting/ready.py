"""Compiling ahead of use, so that the first outline of a workshop does not wait for it."""

from __future__ import annotations

from bucktail.offcuts.fitting.compiled import COMPILED
from bucktail.offcuts.fitting.measure import measure
from bucktail.offcuts.outline import outline

MM = 1_000_000
_OUTER = [(0, 0), (90, 0), (120, 40), (100, 80), (0, 60)]
_HOLE = [(30, 20), (40, 20), (40, 35)]


def ready() -> bool:
    """Measure a small outline, which compiles the kernel and keeps it; False without a compiler."""
    rings = [[(x * MM, y * MM) for x, y in ring] for ring in (_OUTER, _HOLE)]
    measure(outline(rings[0], rings[1:]))
    return COMPILED
