"""When an event counts as having happened, and the chain that makes tampering evident."""

from __future__ import annotations

import hashlib


def effective_time(at: int, offset: int, not_before: int, received_at: int) -> int:
    """The time an event is read at (UTC ms): the phone's, corrected and kept within reason.

    `offset` is this push's measured difference (workshop minus phone). `not_before` is the
    newest effective time the phone had seen on that subject or given itself: a wrong clock
    cannot put an event before what its writer had in front of them, nor after its arrival.
    """
    return min(max(at + offset, not_before), received_at)


def chain_link(
    previous: str, position: int, received_at: int, effective_at: int, raw: bytes
) -> str:
    """SHA-256 (hex) over the previous link, what the computer added, and the bytes received."""
    head = f"{previous}|{position}|{received_at}|{effective_at}|".encode()
    return hashlib.sha256(head + raw).hexdigest()
