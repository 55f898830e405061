"""Numbers that name things: UUID version 7 (RFC 9562, 5.7), sortable by when they were made."""

from __future__ import annotations

import secrets
import uuid
from collections.abc import Callable


def uuid7(now_ms: int, draw_bits: Callable[[int], int] = secrets.randbits) -> str:
    """A version 7 UUID for a time in ms since 1970; `draw_bits(k)` gives k random bits."""
    value = (now_ms & (2**48 - 1)) << 80 | 0x7 << 76 | draw_bits(12) << 64
    return str(uuid.UUID(int=value | 0b10 << 62 | draw_bits(62)))
