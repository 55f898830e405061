"""What a phone could not send, brought over as a file.

The phone writes the file itself, without a network. It is lines of JSON. The first line says what
the file is: {"bucktail": "outbox", "version": 1, "workshop", "device", "device_name", "person",
"person_name", "saved_at", "entries", "photos"}. Then comes every entry byte for byte as it would
have been sent, then every photo as {"photo": its SHA-256, "jpeg": its bytes in base64}.
"""

from __future__ import annotations

import base64
import binascii
import json
import uuid
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from bucktail.storage.eventlog import OtherWorkshop, take_up
from bucktail.storage.pairing_records import Person
from bucktail.storage.pairing_store import StoredPairings, people
from bucktail.storage.photos import PhotoRefused, keep_photo
from bucktail.storage.settings import ensure_workshop
from bucktail.storage.tables import Session
from bucktail.sync.wire.reading import read_event
from bucktail.workshop.pairing import NAME_LENGTH

NEWEST = 1


class FileRefused(Exception):
    """The file as a whole cannot be brought in, and nothing of it was. The message says why."""


@dataclass(frozen=True)
class OutboxFile:
    """A file as read: what its first line says, and (line number, bytes) of what follows."""

    says: dict[str, Any]
    entries: list[tuple[int, bytes]]
    photos: list[tuple[int, str, str]]  # line number, digest, base64

    @property
    def missing(self) -> int:
        """How many entries the first line promises that are not in the file."""
        promised = self.says.get("entries")
        return max(0, promised - len(self.entries)) if isinstance(promised, int) else 0


@dataclass
class BroughtIn:
    """What became of a file: entries stored now, known before, set aside; photos likewise.

    `aside` and `photos_aside` are (line number, reason); `missing` counts entries that the file
    promises and does not hold.
    """

    stored: int = 0
    known: int = 0
    aside: list[tuple[int, str]] = field(default_factory=list)
    photos: int = 0
    photos_aside: list[tuple[int, str]] = field(default_factory=list)
    missing: int = 0


def read_outbox(data: bytes) -> OutboxFile:
    """The file in `data`. Raises FileRefused where it is not such a file at all.

    A damaged line is an entry like any other here: taking it up will say what is wrong with it.
    """
    lines = data.removeprefix(b"\xef\xbb\xbf").split(b"\n")
    # mail programs end lines in CR LF; an entry itself ends in a brace
    numbered = [(at, line.rstrip(b"\r")) for at, line in enumerate(lines, 1) if line.strip()]
    says = _first_line(numbered[0][1]) if numbered else None
    if says is None:
        raise FileRefused(
            "This is not a file of unsent entries. Bucktail makes such a file on the phone: This"
            " workshop, “Save what is not sent as a file”."
        )
    rest = numbered[1:] if "bucktail" in says else numbered
    entries: list[tuple[int, bytes]] = []
    photos: list[tuple[int, str, str]] = []
    for number, line in rest:
        photo = _photo(line)
        if photo:
            photos.append((number, *photo))
        else:
            entries.append((number, line))
    return OutboxFile(says if "bucktail" in says else {}, entries, photos)


def _first_line(line: bytes) -> dict[str, Any] | None:
    """What the first line says; an entry will do, where the line above it was lost."""
    found = _object(line)
    if found is None:
        return None
    if found.get("bucktail") == "outbox":
        version = found.get("version")
        if not isinstance(version, int) or version > NEWEST:
            raise FileRefused(
                "This file was saved by a newer Bucktail than this one. Bring this computer up to"
                " date, then bring the file in again."
            )
        return found
    return found if {"id", "kind", "workshop", "device", "body"} <= found.keys() else None


def _object(line: bytes) -> dict[str, Any] | None:
    try:
        found = json.loads(line.decode("utf-8"))
    except (ValueError, RecursionError):
        return None
    return found if isinstance(found, dict) else None


def _photo(line: bytes) -> tuple[str, str] | None:
    if not line.startswith(b'{"photo":'):
        return None
    found = _object(line) or {}
    digest, jpeg = found.get("photo"), found.get("jpeg")
    return (digest, jpeg) if isinstance(digest, str) and isinstance(jpeg, str) else None


def bring_in(session: Session, folder: Path, data: bytes, now: int) -> BroughtIn:
    """Take up everything in a file, whichever device of this workshop wrote it. `now` is UTC ms.

    The caller owns the transaction. Raises FileRefused, OtherWorkshop for a file of another
    workshop, or NoRoomForPhoto; then the caller takes the transaction back.
    """
    file = read_outbox(data)
    workshop = ensure_workshop(session)
    if file.says.get("workshop", workshop.id) != workshop.id:
        raise OtherWorkshop
    done = BroughtIn(missing=file.missing)
    taken = take_up(
        session,
        [raw for _, raw in file.entries],
        read_event,
        workshop=workshop.id,
        received_at=now,
        offset=0,
        device=None,
    )
    for (number, _), one in zip(file.entries, taken, strict=True):
        if one.result == "stored":
            done.stored += 1
        elif one.result == "known":
            done.known += 1
        else:
            done.aside.append((number, one.reason or "no reason given"))
    _know_person(session, file.says)
    for number, digest, text in file.photos:
        try:
            keep_photo(session, folder, digest, base64.b64decode(text, validate=True), now)
            done.photos += 1
        except (PhotoRefused, binascii.Error) as problem:
            done.photos_aside.append((number, str(problem)))
    return done


def _know_person(session: Session, says: dict[str, Any]) -> None:
    """Enter the one who recorded, where this record does not know that person (it was restored)."""
    person, name = says.get("person"), says.get("person_name")
    if not isinstance(person, str) or not isinstance(name, str) or person in people(session):
        return
    try:
        person = str(uuid.UUID(person))
    except ValueError:
        return
    name = " ".join(name.split())[:NAME_LENGTH]
    if name:
        StoredPairings(session).add_person(Person(person, name))
