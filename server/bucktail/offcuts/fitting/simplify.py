"""An outline with fewer points that lies wholly inside the given one, and close to it."""

from __future__ import annotations

from bucktail.offcuts.fitting.angles import Rings


def simplified(rings: Rings) -> Rings:
    """`rings` for now."""
    return rings
