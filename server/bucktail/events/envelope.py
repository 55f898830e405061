"""The envelope of an event, and the one way it becomes text."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from bucktail.events.order import Fact

#: Whole numbers beyond this are not exact in every reader of JSON.
LARGEST = 2**53 - 1


@dataclass(frozen=True)
class Event:
    """One event as a device wrote it. `raw` is the text received, byte for byte."""

    raw: bytes
    id: str
    kind: str
    workshop: str
    device: str
    seq: int
    at: int
    tz: str
    by: str
    base: int
    base_chain: str
    subject: str
    via: str | None
    group: str | None
    body: dict[str, Any] | None  # None where the kind is not known to this version


class Unreadable(Exception):
    """Bytes that are not an event this version can take up. The message says why.

    `event` is what could be read of it: the envelope, where only the body is at fault.
    """

    def __init__(self, why: str, event: Event | None = None) -> None:
        super().__init__(why)
        self.event = event


def canonical(value: Any) -> str:
    """JSON with sorted keys and no spaces. Raises ValueError for a number that is not whole."""

    _refuse_fractions(value)
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def _refuse_fractions(value: Any) -> None:
    """Raise ValueError at the first number that is not whole, or too large to be exact."""
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list):
        for item in value:
            _refuse_fractions(item)
    elif isinstance(value, float) or (isinstance(value, int) and abs(value) > LARGEST):
        raise ValueError(f"{value!r}: only whole numbers up to {LARGEST} are recorded")


def fact_of(
    event: Event,
    position: int | None,
    effective_at: int,
    lost: str | None,
    judged: dict[str, Any] | None = None,
) -> Fact:
    """The fact that a card carries for this event."""
    fact: Fact = {
        "id": event.id,
        "kind": event.kind,
        "device": event.device,
        "seq": event.seq,
        "at": effective_at,
        "pos": position,
        "base": event.base,
        "by": event.by,
        "via": event.via,
    }
    if event.body is not None:
        fact["body"] = event.body
    if lost is not None:
        fact["lost"] = lost
    if judged is not None:
        fact["judged"] = judged
    return fact
