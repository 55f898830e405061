"""Whether a blank of any shape fits in an offcut of any shape, and where it may lie.

Three looks, each dearer than the one before:

1. **The fit curve**, where it is known. Yes where the smallest rectangle around the blank fits; no
   where a rectangle that lies inside the blank does not.
2. **The inner-fit region** of the blank (innerfit.py), first at the angles at which one of its
   longer edges lies along a longer edge of the offcut. Then whole spans of angles are passed over
   by the blank's core (laying.py), and what is left of them is halved until nothing is.
3. **Containment** of the blank grown by a hair, without a grid. Nothing is claimed without it: a
   yes is always real.

A no is not proved in the same way: a blank that goes in only at an angle between two of the last
that were tried is missed. Lengths are nanometres, angles millionths of a degree, counter-clockwise.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from bucktail.offcuts.fitting.curve import DEGREE, Curve, Piece, Way
from bucktail.offcuts.innerfit import turned
from bucktail.offcuts.laying import (
    ALIKE,
    QUARTER,
    WHOLE_TURN,
    Blank,
    Ground,
    Lying,
    places,
    room_for_core,
)

#: So many of the angles at which edges lie along each other are tried before anything else.
QUICK = 8
#: Half of the span of angles looked at in one, at first and at last; how many spans are followed.
WIDEST, NARROWEST, MOST_SPANS = 5_000_000, 70_000, 20
#: Offcuts of more edges than this are not looked at in the finest steps.
MANY_EDGES = 300
NM_PER_UM = 1000
#: By so much (um) a rectangle that a fit curve denies may be too small and fit all the same.
CURVE_SHORT_UM = 500
#: What one question may cost, counted in pairs of edges.
MOST_PAIRS = 60_000


def lay(
    ground: Ground,
    blank: Blank,
    turns: Sequence[int] | None = None,
    curve: Curve | None = None,
    blank_curve: Curve | None = None,
) -> Lying | None:
    """A place where the blank lies inside the offcut with its clearance; None where none is found.

    `turns`: the angles allowed (see `turns_allowed`), None for any. `curve` is the offcut's fit
    curve where it is known; `blank_curve` that of the blank itself, worth measuring where the blank
    is asked of many offcuts.
    """
    if blank.area > ground.area or turns == ():
        return None
    if curve is not None:
        if blank_curve is not None and denied(curve, blank, blank_curve, turns):
            return None
        if found := granted(curve, ground, blank, turns):
            return found
    if turns is not None:
        return _first(ground, blank, turns)
    along = edge_along_edge(ground, blank)
    found = _first(ground, blank, along[:QUICK])
    return found or _first(ground, blank, _narrowed(ground, blank, along[QUICK:]))


def granted(
    curve: Curve, ground: Ground, blank: Blank, turns: Sequence[int] | None
) -> Lying | None:
    """The place that the fit curve gives the smallest rectangles around the blank."""
    for turn in [-one for one in blank.directions] if turns is None else turns:
        ring = turned(blank.proof[0], turn)
        low, high = ring.min(axis=0), ring.max(axis=0)
        width, height = (math.ceil(side / NM_PER_UM) for side in (high - low).tolist())
        witness = curve.witness(width, height, "any" if turns is None else "along")
        if witness is None:
            continue
        angle = round(witness.degrees * DEGREE)
        place = np.array((witness.x, witness.y)) * NM_PER_UM - turned(low, angle)
        whole = np.rint(place)
        if ground.inside.holds([turned(one, turn + angle) for one in blank.proof], whole):
            return blank.at((turn + angle) % WHOLE_TURN, whole)
    return None


def denied(curve: Curve, blank: Blank, blank_curve: Curve, turns: Sequence[int] | None) -> bool:
    """True where some rectangle that lies inside the blank does not fit in the offcut at all.

    A curve denies a little too much, so the rectangle is taken `CURVE_SHORT_UM` smaller.
    """
    rows: list[tuple[Way, tuple[Piece, ...]]] = [("any", blank_curve.any)]
    if turns is not None:
        way: Way = "along" if turns[0] % (2 * QUARTER) == 0 else "across"
        rows = [(way, blank_curve.along)]
    more = 2 * blank.clearance // NM_PER_UM - CURVE_SHORT_UM
    for way, row in rows:
        for piece in row:
            for w, h in ((piece.w0, piece.h0), (piece.w1, piece.h1)):
                for wider, taller in ((more, -CURVE_SHORT_UM), (-CURVE_SHORT_UM, more)):
                    size = (w + wider, h + taller)
                    if min(size) > 0 and not curve.claims(*size, way):
                        return True
    return False


def edge_along_edge(ground: Ground, blank: Blank) -> list[int]:
    """The angles at which an edge of the blank lies along one of the offcut, the longest first."""
    pairs = sorted(
        itertools.product(enumerate(ground.directions), enumerate(blank.directions)),
        key=lambda pair: pair[0][0] + pair[1][0],
    )
    angles = [(edge - side) % WHOLE_TURN for (_, edge), (_, side) in pairs]
    alike = {angle // ALIKE: angle for angle in reversed(angles)}
    return list(dict.fromkeys(alike[angle // ALIKE] for angle in angles))


def _first(ground: Ground, blank: Blank, angles: Iterable[int]) -> Lying | None:
    cost = max(blank.edges * ground.edges, 1)
    for angle in itertools.islice(angles, max(MOST_PAIRS // cost, 12)):
        for place in places(ground, blank, angle):
            return blank.at(angle, place)
    return None


def _narrowed(ground: Ground, blank: Blank, along: Sequence[int]) -> Iterator[int]:
    """Angles worth a look: those of `along`, then finer and finer, where the blank's core fits.

    A blank that fits at some angle within `half` of another one has a core (what all of its turns
    within `half` have in common) that fits at that other one. So where the core does not fit, the
    whole span of angles is passed over.
    """
    spans = list(range(WIDEST, WHOLE_TURN, 2 * WIDEST))
    half = WIDEST
    # a few thousand edges to a question: what is as rough as that is looked at less finely
    narrowest = NARROWEST if ground.coarse.edges <= MANY_EDGES else WIDEST // 2
    while half >= narrowest and spans:
        room = [(room_for_core(ground, blank, half, angle), angle) for angle in spans]
        kept = sorted((pair for pair in room if pair[0] > 0.0), reverse=True)
        spans = [angle for _, angle in kept[: MOST_SPANS if half < WIDEST else None]]
        if half == WIDEST // 2:
            yield from (angle for angle in along if any(_near(angle, one, half) for one in spans))
        if half <= WIDEST // 8:
            yield from spans
        half //= 2
        spans = [angle + side for angle in spans for side in (-half, half)]


def _near(angle: int, other: int, half: int) -> bool:
    return abs((angle - other + WHOLE_TURN // 2) % WHOLE_TURN - WHOLE_TURN // 2) <= half
