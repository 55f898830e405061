"""What the workshop's own computer records: it writes events as any other device does."""

from __future__ import annotations

import time
from typing import Any

from bucktail.events.envelope import canonical
from bucktail.storage.eventlog import Taken, head, last_seq, take_up
from bucktail.storage.ids import uuid7
from bucktail.storage.settings import ensure_workshop
from bucktail.storage.tables import Session
from bucktail.sync.wire.reading import read_event


class Recorder:
    """Writes events for one device into an open session.

    `device` and `person` default to the workshop computer's own. Times are UTC ms.
    """

    def __init__(
        self, session: Session, device: str | None = None, person: str | None = None
    ) -> None:
        workshop = ensure_workshop(session)
        self.session = session
        self.workshop = workshop.id
        self.device = device or workshop.device
        self.person = person or workshop.person
        self.seq = last_seq(session, self.device)

    def record(
        self,
        kind: str,
        body: dict[str, Any],
        subject: str | None = None,
        at: int | None = None,
        base: tuple[int, str] | None = None,
        group: str | None = None,
    ) -> str:
        """Record one event and return its subject (a new one unless given).

        Raises ValueError with the reason where the event is not one that can be taken up.
        """
        now = int(time.time() * 1000)
        at = now if at is None else at
        subject = subject or uuid7(at)
        position, chain = base if base is not None else head(self.session)
        self.seq += 1
        envelope = {
            "id": uuid7(at),
            "kind": kind,
            "workshop": self.workshop,
            "device": self.device,
            "seq": self.seq,
            "at": at,
            "tz": "UTC",
            "by": self.person,
            "base": {"position": position, "chain": chain},
            "subject": subject,
            "via": None,
            "group": group,
            "body": body,
        }
        (taken,) = self._take_up([canonical(envelope).encode("utf-8")], now)
        if taken.result == "aside":
            raise ValueError(f"{kind}: {taken.reason}")
        return subject

    def _take_up(self, raws: list[bytes], now: int) -> list[Taken]:
        return take_up(
            self.session,
            raws,
            read_event,
            workshop=self.workshop,
            received_at=now,
            offset=0,
            device=self.device,
        )
