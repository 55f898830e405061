"""What could not be taken up into the record, kept where a person sees it."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from bucktail.storage.tables import SetAside


@dataclass(frozen=True)
class Aside:
    """One entry that was set aside: its bytes, why, when (UTC ms), and the device that sent it."""

    device: str | None
    received_at: int
    reason: str
    raw: bytes


def all_set_aside(session: Session) -> list[Aside]:
    """Everything that was set aside, oldest first."""
    rows = session.execute(select(SetAside).order_by(SetAside.received_at)).scalars()
    return [Aside(row.device, row.received_at, row.reason, row.raw) for row in rows]
