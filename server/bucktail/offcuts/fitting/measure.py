"""From an outline to its fit curve."""

from __future__ import annotations

from bucktail.offcuts.fitting import knots
from bucktail.offcuts.fitting.angles import Rings
from bucktail.offcuts.fitting.curve import Curve
from bucktail.offcuts.fitting.search import Search
from bucktail.offcuts.fitting.simplify import simplified
from bucktail.offcuts.outline import Outline

NM_PER_UM = 1000
#: how often it is looked again where no piece could be proved
MENDING_ROUNDS = 6


def measure(outline: Outline) -> Curve:
    """The fit curve of `outline`: some hundredths of a second compiled, some tenths plain."""
    rings = rings_um(outline)
    inner, prover = simplified(rings), knots.Prover(rings)
    rows = []
    for upright in (False, True):
        search = Search(inner, upright)
        row, gaps = knots.pieces(search.stands, prover)
        for _ in range(MENDING_ROUNDS):
            if not search.mend(gaps):
                break
            row, gaps = knots.pieces(search.stands, prover)
        rows.append(row)
    return Curve(outline.area_um2, knots.without_taller(rows[0]), rows[1])


def rings_um(outline: Outline) -> Rings:
    """The rings of an outline as points in um."""
    return [[(x / NM_PER_UM, y / NM_PER_UM) for x, y in ring] for ring in outline.rings]
