"""Which rectangles fit in an outline: sound fit curves with the place for each rectangle.

`measure(outline)` makes a `Curve`; `Curve.claims`, `Curve.witness` and `Curve.to_json` are what
others use. The kernel (slabs, sweep, proof) is compiled where a compiler can be had.
"""

from bucktail.offcuts.fitting.curve import Curve, Piece, Way, Witness
from bucktail.offcuts.fitting.measure import measure

__all__ = ["Curve", "Piece", "Way", "Witness", "measure"]
