"""What one fact had seen of another, and the order in which facts are read.

A fact is one line of the record as a card carries it::

    {"id", "kind", "device", "seq", "at", "pos", "base", "by", "via", "body"}

`at` is the effective time (UTC ms), `pos` the position in the workshop's record (None while a
phone has not sent it), `base` the position the phone had seen when it wrote the fact. A fact
that lost a claim carries `lost`, the id of the thing that holds it; a kept sum that the workshop's
computer reckons otherwise carries `judged`, {"rulebook", "answer"}.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

Fact = dict[str, Any]


def reading_order(fact: Fact) -> tuple[int, str, int, str]:
    """Sort key: effective time, then device, then the device's own count."""
    return (fact["at"], fact["device"], fact["seq"], fact["id"])


def saw(later: Fact, earlier: Fact) -> bool:
    """True where whoever wrote `later` had `earlier` before them."""
    if later["device"] == earlier["device"]:
        return bool(earlier["seq"] < later["seq"])
    return earlier["pos"] is not None and bool(earlier["pos"] <= later["base"])


def arrival_order(fact: Fact) -> tuple[bool, int, str]:
    """Sort key: as they reached the workshop's computer; what a phone has not sent comes last."""
    position = fact["pos"]
    return (position is None, fact["seq"] if position is None else position, fact["id"])


def standing(facts: Iterable[Fact]) -> list[Fact]:
    """Facts in reading order without those taken back; taking back a taking back restores.

    Neither times nor the order of arrival play a part: something is gone when anything that takes
    it back is not gone itself.
    """
    ordered = sorted(facts, key=reading_order)
    taken_back_by: dict[str, list[str]] = {}
    for fact in ordered:
        if fact["kind"] == "event.withdrawn.v1" and "body" in fact:
            taken_back_by.setdefault(fact["body"]["event"], []).append(fact["id"])

    def gone(event: str, asked: frozenset[str]) -> bool:
        """A circle of withdrawals, which nobody can write honestly, ends where it is entered."""
        takers = [one for one in taken_back_by.get(event, ()) if one not in asked]
        return any(not gone(one, asked | {one}) for one in takers)

    return [
        fact
        for fact in ordered
        if fact["kind"] != "event.withdrawn.v1" and not gone(fact["id"], frozenset((fact["id"],)))
    ]


def heads(facts: list[Fact]) -> list[Fact]:
    """Of facts in reading order, those that no other one had seen and so replaced.

    Events that claim to have seen each other in a circle cannot all be right: the last stands.
    """
    left = [fact for fact in facts if not any(saw(other, fact) for other in facts)]
    return left or facts[-1:]
