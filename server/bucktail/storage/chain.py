"""Checking that the record is as it was written: positions without a gap, every link unbroken."""

from __future__ import annotations

import json

from sqlalchemy import select
from sqlalchemy.orm import Session

from bucktail.storage.tables import StoredEvent
from bucktail.sync.times import chain_link

#: What a row repeats of the bytes, so that it can be searched.
REPEATED = ("id", "kind", "subject", "device", "seq")
MOST = 20


def check_chain(session: Session) -> list[str]:
    """What is wrong with the record, at most 20 sentences; empty for a sound one.

    Everything the chain covers is worked out again from the received bytes: a changed byte, a
    moved time, a missing or added entry shows at its position and stops nothing after it.
    """
    wrong: list[str] = []
    link, expected = "", 1
    rows = select(StoredEvent).order_by(StoredEvent.position)
    for row in session.execute(rows.execution_options(yield_per=500)).scalars():
        if row.position != expected:
            wrong.append(f"Entry {row.position} follows entry {expected - 1}: some are missing.")
        made = chain_link(link, row.position, row.received_at, row.effective_at, row.raw)
        if made != row.chain:
            wrong.append(f"Entry {row.position} is not as it was written, or not in its place.")
        elif any(value != getattr(row, name) for name, value in _repeated(row.raw).items()):
            wrong.append(f"Entry {row.position} is filed under something that it does not say.")
        if len(wrong) >= MOST:
            break
        link, expected = row.chain, row.position + 1
        session.expunge(row)
    return wrong


def _repeated(raw: bytes) -> dict[str, object]:
    read = json.loads(raw)
    return {name: read[name] for name in REPEATED}
