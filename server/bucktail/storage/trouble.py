"""What the database can do to a request, in words that the edge can use."""

from __future__ import annotations

from sqlalchemy.exc import OperationalError

#: Raised when the database cannot be written or read: disk full, locked, gone.
DatabaseTrouble = OperationalError


def disk_is_full(trouble: OperationalError) -> bool:
    """True where the reason is that no room is left."""
    return "full" in str(trouble.orig)
