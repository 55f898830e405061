"""One of several writers at once, in a thread or a process of its own."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from bucktail.storage.opening import open_session
from bucktail.storage.settings import ensure_workshop
from running.bodies import uuid_of
from running.pen import Pen, take

PUSHES, EACH = 6, 3
SUBJECT = uuid_of(1)


def write(folder: Path, number: int, ready: Any = None) -> None:
    """One device: some pushes of some events about the same thing, and about others."""
    with open_session(folder) as session:
        workshop = ensure_workshop(session).id
        session.rollback()
        pen = Pen(workshop, uuid_of(100 + number))
        if ready is not None:
            ready.wait()
        for push in range(PUSHES):
            events = [pen.part(f"{number}.{push}.{n}", subject=SUBJECT) for n in range(EACH)]
            for n, event in enumerate(events):
                event["id"] = uuid_of(number * 1000 + push * 10 + n + 1)
            take(session, *events)
