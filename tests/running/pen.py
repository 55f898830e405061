"""Writing events as a device does, and taking them up as the workshop's computer does."""

from __future__ import annotations

import itertools
from typing import Any

from bucktail.events.envelope import canonical
from bucktail.storage.eventlog import Taken, head, take_up
from bucktail.storage.settings import ensure_workshop
from bucktail.storage.tables import Session
from bucktail.sync.wire.reading import read_event
from running.bodies import uuid_of

_numbers = itertools.count(1)
NOW = 1_790_000_000_000


def new_id() -> str:
    """A UUID that no other call gave."""
    return uuid_of(next(_numbers) + 0xA0_0000)


class Pen:
    """One device: counts its events, and knows what it has seen."""

    def __init__(self, workshop: str, device: str = "", person: str = "") -> None:
        self.workshop, self.device = workshop, device or new_id()
        self.person = person or new_id()
        self.seq = 0
        self.seen: tuple[int, str] = (0, "")

    def write(
        self, kind: str, body: dict[str, Any], subject: str = "", **changes: Any
    ) -> dict[str, Any]:
        """The envelope of one more event; `changes` replace parts of it."""
        self.seq += 1
        position, chain = self.seen
        return {
            "id": new_id(),
            "kind": kind,
            "workshop": self.workshop,
            "device": self.device,
            "seq": self.seq,
            "at": NOW,
            "tz": "Europe/Oslo",
            "by": self.person,
            "base": {"position": position, "chain": chain},
            "subject": subject or new_id(),
            "via": None,
            "group": None,
            "body": body,
            **changes,
        }

    def part(self, name: str = "Rib 4", **changes: Any) -> dict[str, Any]:
        """A part is entered."""
        return self.write("part.added.v1", {"name": name}, **changes)

    def step(self, subject: str, op: str, result: str = "all", **body: Any) -> dict[str, Any]:
        """A step is recorded."""
        told = {"op": op, "result": result, "done": None, "of": None, **body}
        return self.write("step.recorded.v1", told, subject)


def raw(event: dict[str, Any]) -> bytes:
    """The bytes of an event, as the phone writes them."""
    return canonical(event).encode("utf-8")


def take(
    session: Session,
    *events: dict[str, Any] | bytes,
    device: str | None = None,
    now: int = NOW,
    offset: int = 0,
) -> list[Taken]:
    """One push, in a transaction of its own."""
    session.rollback()
    with session.begin():
        workshop = ensure_workshop(session).id
        raws = [event if isinstance(event, bytes) else raw(event) for event in events]
        return take_up(
            session,
            raws,
            read_event,
            workshop=workshop,
            received_at=now,
            offset=offset,
            device=device,
        )


def look(pen: Pen, session: Session) -> None:
    """The device fetches: from now on it has seen everything."""
    pen.seen = head(session)
    session.rollback()
