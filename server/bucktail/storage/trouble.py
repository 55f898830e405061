"""What the database can do to a request, in words that the edge can use."""

from __future__ import annotations

from sqlalchemy.exc import OperationalError

#: Raised when the database cannot be written or read: disk full, locked, gone.
DatabaseTrouble = OperationalError


def disk_is_full(trouble: OperationalError) -> bool:
    """True where the reason is that no room is left.

    SQLite ends the transaction by itself when the disk is full; what is tried afterwards fails for
    another reason, and the first one stands behind it.
    """
    reason: BaseException | None = trouble
    while reason is not None:
        if isinstance(reason, OperationalError) and "full" in str(reason.orig):
            return True
        reason = reason.__cause__ or reason.__context__
    return False
