"""Tag codes: which are printed, and which thing each one is attached to."""

from __future__ import annotations

from sqlalchemy import select
from sqlalchemy.orm import Session

from bucktail.events.envelope import Event
from bucktail.storage.cards import state_of
from bucktail.storage.tables import Code

#: Kinds after which a thing may answer to other codes than before.
ATTACHING = frozenset(
    {"tag.attached.v1", "tag.replaced.v1", "answer.settled.v1", "event.withdrawn.v1"}
)


def ruling(session: Session, event: Event) -> str | None:
    """The thing that already holds the code this event claims, or None where the claim stands."""
    if event.kind != "tag.attached.v1" or event.body is None:
        return None
    row = session.get(Code, event.body["code"])
    if row is None or row.thing is None or row.thing == event.subject:
        return None
    holder = state_of(session, row.thing)
    gone = holder is None or holder.get("retired") or holder.get("cut")
    return None if gone else row.thing


def follow(session: Session, event: Event, codes: set[str]) -> None:
    """Keep the table in step with an event that was just stored.

    `codes` are those that its subject answers to now.
    """
    if event.body is None:
        return
    if event.kind == "tag.printed.v1":
        for code in event.body["codes"]:
            row = session.get(Code, code) or Code(code=code, thing=None)
            row.sheet = event.subject
            session.add(row)
    elif event.kind in ATTACHING:
        rows = session.execute(select(Code).where(Code.thing == event.subject)).scalars()
        for row in rows:
            if row.code not in codes:
                row.thing = None
        for code in sorted(codes):
            row = session.get(Code, code) or Code(code=code, sheet=None)
            if row.thing is None or event.body.get("code") == code:
                row.thing = event.subject
            session.add(row)
    session.flush()


def all_codes(session: Session) -> set[str]:
    """Every code this workshop knows."""
    return set(session.execute(select(Code.code)).scalars())


def thing_of(session: Session, code: str) -> str | None:
    """The id of the thing that a code is attached to."""
    row = session.get(Code, code)
    return row.thing if row else None
