"""Fit curves: which outlines still wait for theirs, and those there are, by rising number.

A curve belongs to the entry that brought the outline, so it never goes stale; another answer or a
change of the shape is another entry. Which entry counts is followed in the card's transaction.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from sqlalchemy import ColumnElement, Select, and_, delete, func, select, update
from sqlalchemy.orm import Session

from bucktail.events.envelope import canonical
from bucktail.events.fold import State
from bucktail.storage.tables import Card, FitCurve, ShownOutline

#: Raise this when curves are to be made anew. Those of an earlier number serve until then.
MADE_BY = 1
#: An outline whose measuring was begun this often and never ended is given up.
MOST_TRIES = 3


@dataclass(frozen=True)
class ToMeasure:
    """An outline that waits: the entry it came with, its shape as recorded, earlier tries."""

    event: str
    shape: dict[str, Any]
    tries: int


def follow(session: Session, subject: str, state: State) -> None:
    """Note which outline a card shows now, if it shows one of a piece that is still there."""
    gone = state.get("retired") or state.get("cut")
    event = None if gone else state.get("shape_from")
    if event is None and "shape" not in state:
        return  # not an offcut
    shown = session.get(ShownOutline, subject)
    if event is None:
        if shown is not None:
            session.delete(shown)
    elif shown is None:
        session.add(ShownOutline(subject=subject, event=event, tries=0))
    elif shown.event != event:
        shown.event, shown.tries = event, 0


def begin_anew(session: Session) -> None:
    """Forget which outlines are shown, as all cards are made anew; what failed may try again."""
    session.execute(delete(ShownOutline))
    failed = update(FitCurve).where(FitCurve.text.like('{"v":1,"why":%'))
    session.execute(failed.values(made_by=0))
    session.expire_all()


def last(session: Session) -> int:
    """The number of the newest curve; 0 where there is none."""
    return session.execute(select(func.max(FitCurve.n))).scalar() or 0


def _waiting() -> Select[Any]:
    """Shown outlines without a curve of the present making."""
    made: ColumnElement[bool] = and_(
        FitCurve.event == ShownOutline.event, FitCurve.made_by >= MADE_BY
    )
    return select(ShownOutline).outerjoin(FitCurve, made).where(FitCurve.n.is_(None))


def waiting(session: Session) -> int:
    """How many outlines are still to be measured."""
    outlines = _waiting().with_only_columns(ShownOutline.event).distinct().subquery()
    return session.execute(select(func.count()).select_from(outlines)).scalar() or 0


def take_next(session: Session) -> ToMeasure | None:
    """The outline to measure next, its try counted; None where none waits.

    Those never tried come first, the newest of them before all. The caller commits before it
    measures, so that a try that ends the process is counted too.
    """
    order = _waiting().order_by(ShownOutline.tries, ShownOutline.event.desc())
    shown = session.execute(order.limit(1)).scalars().first()
    if shown is None:
        return None
    card = session.get(Card, shown.subject)
    state = json.loads(card.text)["state"] if card else {}
    if state.get("shape_from") != shown.event:  # never so while every card is followed
        session.delete(shown)
        session.flush()
        return take_next(session)
    found = ToMeasure(shown.event, state["shape"], shown.tries)
    shown.tries += 1
    session.flush()
    return found


def keep(session: Session, event: str, text: str) -> int:
    """Keep the curve of an entry, in place of an earlier one; its number."""
    n = last(session) + 1
    session.execute(delete(FitCurve).where(FitCurve.event == event))
    session.add(FitCurve(n=n, event=event, made_by=MADE_BY, text=text))
    session.execute(update(ShownOutline).where(ShownOutline.event == event).values(tries=0))
    session.flush()
    return n


def cannot(why: str) -> str:
    """What is kept where an outline cannot be measured; `why` is a sentence for the screen."""
    return canonical({"v": 1, "why": why})


def after(session: Session, n: int, limit: int) -> list[tuple[int, str, str]]:
    """(number, entry, text) of at most `limit` curves above a number, in rising order."""
    table = select(FitCurve.n, FitCurve.event, FitCurve.text)
    rows = session.execute(table.where(FitCurve.n > n).order_by(FitCurve.n).limit(limit))
    return [(row.n, row.event, row.text) for row in rows]
