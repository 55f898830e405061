"""What the workshop's computer reckoned where a kept sum said something else.

It is decided once, when the sum reaches this computer, and stays beside the bytes as it was: later
rules reckon later sums.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from bucktail.events.envelope import Event, canonical
from bucktail.storage.tables import Judgement

Judged = dict[str, Any]
#: From the body of a kept sum: what is reckoned here, or None where it is the same.
Judge = Callable[[dict[str, Any]], Judged | None]


def ruling(event: Event, judge: Judge) -> Judged | None:
    """What is reckoned here, where the event keeps a sum and its answer is another."""
    if event.kind != "sum.kept.v1" or event.body is None:
        return None
    return judge(event.body)


def keep(session: Session, position: int, judged: Judged | None) -> None:
    """Put a judgement beside the event at `position`."""
    if judged is not None:
        session.add(Judgement(position=position, text=canonical(judged)))


def all_judged(session: Session) -> dict[int, Judged]:
    """Position -> what was reckoned otherwise than the sum kept there."""
    rows = session.execute(select(Judgement.position, Judgement.text))
    return {row.position: json.loads(row.text) for row in rows}
