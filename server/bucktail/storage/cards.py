"""Cards: one per thing, folded from its facts, and read by position for the phones."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from bucktail.events.envelope import canonical
from bucktail.events.fold import State, fold
from bucktail.events.order import Fact, reading_order
from bucktail.storage import curves
from bucktail.storage.tables import Card


def card_text(subject: str, facts: list[Fact], state: State) -> str:
    """The card as every phone gets it: canonical JSON."""
    ordered = sorted(facts, key=reading_order)
    return canonical({"facts": ordered, "id": subject, "sort": state["sort"], "state": state})


def add_fact(session: Session, subject: str, fact: Fact) -> State:
    """Fold one more fact into a thing's card and write it. Returns the new state."""
    card = session.get(Card, subject)
    facts = [*(json.loads(card.text)["facts"] if card else []), fact]
    return _write(session, card, subject, facts)


def _write(session: Session, card: Card | None, subject: str, facts: list[Fact]) -> State:
    state = fold(facts)
    text = card_text(subject, facts, state)
    position = max(fact["pos"] for fact in facts)
    if card is None:
        session.add(Card(subject=subject, sort=state["sort"], position=position, text=text))
    else:
        card.sort, card.position, card.text = state["sort"], position, text
    curves.follow(session, subject, state)
    session.flush()
    return state


def state_of(session: Session, subject: str) -> State | None:
    """The state of one thing, or None where nothing is recorded of it."""
    card = session.get(Card, subject)
    return json.loads(card.text)["state"] if card else None


def states(session: Session, sort: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """(id, state) of all things of one sort, oldest id first."""
    rows = session.execute(
        select(Card.subject, Card.text).where(Card.sort == sort).order_by(Card.subject)
    )
    for subject, text in rows:
        yield subject, json.loads(text)["state"]


def changed_after(session: Session, position: int, limit: int) -> list[tuple[int, str]]:
    """(position, text) of cards that changed after a position, in order.

    At most `limit`, or a few more where several cards share the last position.
    """
    table = select(Card.position, Card.text).order_by(Card.position, Card.subject)
    rows = session.execute(table.where(Card.position > position).limit(limit)).all()
    if len(rows) == limit:
        last = rows[-1].position
        rows = [row for row in rows if row.position < last]
        rows += session.execute(table.where(Card.position == last)).all()
    return [(row.position, row.text) for row in rows]
