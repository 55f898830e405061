"""What the cards tell of the stock: the offcuts, what has been asked of them, their fit curves."""

from __future__ import annotations

import json
import math
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from bucktail.storage.cards import states
from bucktail.storage.tables import Card, FitCurve

CUT = "offcut.cut.v1"
#: How much a piece that was made once counts, beside one that is wanted now.
MADE = 0.5


def offcuts(session: Session) -> dict[str, dict[str, Any]]:
    """The states of all offcuts by their ids, the oldest first."""
    return dict(states(session, "offcut"))


def open_pieces(session: Session) -> dict[str, dict[str, Any]]:
    """The states of the pieces wanted and not made yet."""
    return {
        piece: state
        for piece, state in states(session, "wanted")
        if not state.get("met") and not state.get("retired")
    }


def sizes_asked(session: Session) -> list[tuple[int, int, float]]:
    """The sizes that this workshop asks for: (width, height, weight), nm.

    Pieces wanted now, by their count; pieces that were wanted or cut out before.
    """
    sizes = []
    for _, state in states(session, "wanted"):
        if not state.get("retired"):
            weight = MADE if state.get("met") else float(state["count"])
            sizes.append((state["a"]["nm"], state["b"]["nm"], weight))
    cards = select(Card.text).where(Card.sort == "offcut", Card.text.contains(f'"{CUT}"'))
    for (text,) in session.execute(cards.order_by(Card.subject)):
        for fact in json.loads(text)["facts"]:
            for made in fact["body"]["made"] if fact["kind"] == CUT and "body" in fact else ():
                if size := _size_of(made.get("outline")):
                    sizes.append((*size, MADE))
    return sizes


def _size_of(ring: list[list[int]] | None) -> tuple[int, int] | None:
    """The sides of a piece that was cut out: of its first edge and square to it, in whole nm."""
    if not ring or len(ring) < 3:
        return None
    (x0, y0), (x1, y1) = ring[0], ring[1]
    length = math.hypot(x1 - x0, y1 - y0)
    if not length:
        return None
    across, up = (x1 - x0) / length, (y1 - y0) / length
    along = [x * across + y * up for x, y in ring]
    off = [y * across - x * up for x, y in ring]
    width, height = (round(max(one) - min(one)) for one in (along, off))
    return (width, height) if width > 0 and height > 0 else None


def curve_text(session: Session, event: str | None) -> str | None:
    """The fit curve of the outline that an entry brought; None where it is not measured yet."""
    if event is None:
        return None
    return session.execute(select(FitCurve.text).where(FitCurve.event == event)).scalar()
