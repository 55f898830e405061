"""From an outline to its fit curve."""

from __future__ import annotations

from bucktail.offcuts.fitting import knots, search
from bucktail.offcuts.fitting.curve import Curve
from bucktail.offcuts.fitting.simplify import simplified
from bucktail.offcuts.outline import Outline

NM_PER_UM = 1000


def measure(outline: Outline) -> Curve:
    """The fit curve of `outline`: a few milliseconds compiled, a few tenths of a second plain."""
    rings = [[(x / NM_PER_UM, y / NM_PER_UM) for x, y in ring] for ring in outline.rings]
    inner, prover = simplified(rings), knots.Prover(rings)
    turned = search.any_way(inner)
    upright = search.along_grain(inner)
    return Curve(
        outline.area_um2,
        knots.pieces([one for one in turned if one.h > 0], prover),
        knots.pieces([one for one in upright if one.h > 0], prover),
    )
