"""Leftover sheet for tests, entered on the workshop's computer."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from bucktail.storage.opening import open_workshop
from bucktail.workshop.recorder import Recorder
from running.phone import BenchPhone

NM_PER_IN = 25_400_000


def inches(figure: float, text: str | None = None) -> dict[str, Any]:
    """A length typed in inches, as events carry it."""
    return {"nm": round(figure * NM_PER_IN), "text": text or f"{figure:g}"}


def sheet(a: float, b: float, thickness: float = 0.032, **change: Any) -> dict[str, Any]:
    """The body of offcut.added: a marked, bare piece of 2024-T3 clad, its grain along side a."""
    return {
        "name": None,
        "alloy": "2024",
        "temper": "T3",
        "clad": "clad",
        "form": "sheet",
        "thickness": inches(thickness, f"{thickness:.3f}".lstrip("0")),
        "measured": "bare",
        "known_by": "mill marking",
        "shape": {"kind": "rectangle", "a": inches(a), "b": inches(b)},
        "grain": "a",
        "note": None,
        **change,
    }


def enter(folder: Path, *bodies: dict[str, Any]) -> list[str]:
    """Enter these offcuts; their ids."""
    with open_workshop(folder) as session:
        recorder = Recorder(session)
        return [recorder.record("offcut.added.v1", body) for body in bodies]


def fetched(phone: BenchPhone, subject: str, lines: int) -> dict[str, Any]:
    """The card of a thing once this phone has fetched it with so many lines of its record."""
    for _ in range(150):
        card = json.loads(phone.cards().get(subject, '{"facts":[]}'))
        if len(card["facts"]) >= lines:
            found: dict[str, Any] = card
            return found
        phone.page.wait_for_timeout(100)
    raise AssertionError(f"{lines} lines about {subject} did not come in within 15 s")
