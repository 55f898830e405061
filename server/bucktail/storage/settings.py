"""The workshop's settings, and what is made once when a workshop is."""

from __future__ import annotations

import json
import secrets
import time
import uuid
from dataclasses import dataclass
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from bucktail.storage.ids import uuid7
from bucktail.storage.tables import Person, Setting

#: The one who records what the workshop's own computer does (printing tags, the demo).
COMPUTER = "the workshop computer"


@dataclass(frozen=True)
class Workshop:
    """Who this workshop is: ids as text, `unit` "in" or "mm"."""

    id: str
    name: str
    unit: str
    device: str  # the workshop computer's own device id, for what it records itself
    person: str


def read(session: Session, name: str) -> str | None:
    """A setting's value, or None."""
    row = session.get(Setting, name)
    return row.value if row else None


def write(session: Session, name: str, value: str) -> None:
    """Set a setting."""
    row = session.get(Setting, name) or Setting(name=name)
    row.value = value
    session.add(row)
    session.flush()


def sawing(session: Session) -> dict[str, Any]:
    """What the workshop says that sawing takes, by name: lengths as on the wire.

    Empty where it has said nothing; then what stands in tables/sawing.csv is meant.
    """
    said: dict[str, Any] = json.loads(read(session, "sawing") or "{}")
    return said


def say_sawing(session: Session, changed: dict[str, Any]) -> None:
    """Change some of it; None takes back what was said of that one."""
    said = {**sawing(session), **changed}
    kept = {name: length for name, length in said.items() if length is not None}
    write(session, "sawing", json.dumps(kept, ensure_ascii=False, sort_keys=True))


def ensure_workshop(session: Session, name: str = "My workshop", unit: str = "in") -> Workshop:
    """The workshop's identity, made the first time it is opened."""
    known = dict(session.execute(select(Setting.name, Setting.value)).all())
    if "workshop" not in known:
        now = int(time.time() * 1000)
        person = uuid7(now)
        session.add(Person(id=person, name=COMPUTER))
        known = {
            "workshop": str(uuid.UUID(bytes=secrets.token_bytes(16), version=4)),
            "name": name,
            "unit": unit,
            "device": uuid7(now),
            "person": person,
        }
        for key, value in known.items():
            write(session, key, value)
    return Workshop(
        known["workshop"], known["name"], known["unit"], known["device"], known["person"]
    )
