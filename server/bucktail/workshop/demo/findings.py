"""A finding of the demo: an edge that is too short, which waits for the kit maker's answer."""

from __future__ import annotations

import random
from collections.abc import Iterator

from bucktail.workshop.demo.year import BUILDER, FRIEND, Entry, evening

SHORT_EDGE = "finding short edge"
MINUTE = 60_000


def findings(end: int, draw: random.Random) -> Iterator[Entry]:
    """Written down the day the edge was measured, put to the maker by the friend who looked."""
    at = evening(end, 6, draw)
    yield Entry(
        at,
        BUILDER,
        "finding.opened.v1",
        SHORT_EDGE,
        {"on": "TP-08", "what": "Edge too short at the upper left corner", "op": "drill"},
    )
    decided = {
        "decision": "ask the maker",
        "who": "Ellis Tarn, second pair of eyes",
        "what": "Send the photo and the figure, 3/16 in for a 1/8 in rivet. Leave it until then.",
    }
    yield Entry(at + 30 * MINUTE, FRIEND, "finding.decided.v1", SHORT_EDGE, decided)
