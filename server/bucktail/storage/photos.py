"""Photos: each lies in the photos folder under its own SHA-256, and is never altered."""

from __future__ import annotations

import errno
import hashlib
import json
import os
import tempfile
from pathlib import Path

from sqlalchemy import select
from sqlalchemy.orm import Session

from bucktail.storage.tables import Photo, StoredEvent

#: A photo of 2560 px is 1 to 2 MB; this leaves room and bounds what a phone can send.
LARGEST_PHOTO = 8 * 1024 * 1024
#: Every JPEG starts with the marker SOI and the first byte of another (ISO/IEC 10918-1, B.1.1.3).
JPEG_START = b"\xff\xd8\xff"
NO_ROOM = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})


class PhotoRefused(Exception):
    """These bytes are not the photo they should be. `word` names the reason."""

    def __init__(self, word: str, sentence: str) -> None:
        super().__init__(sentence)
        self.word = word


class NoRoomForPhoto(Exception):
    """The disk is full, or cannot be written: nothing was kept and the sender keeps the photo."""

    def __init__(self, full: bool) -> None:
        super().__init__("no room" if full else "the disk cannot be written")
        self.full = full


def is_digest(text: str) -> bool:
    """True for the SHA-256 of something: 64 lower-case hexadecimal digits."""
    return len(text) == 64 and not set(text) - set("0123456789abcdef")


def path_of(folder: Path, digest: str) -> Path:
    """Where a photo lies in the workshop folder, whether it is there or not."""
    return folder / "photos" / digest[:2] / digest


def check_size(size: int) -> None:
    """Raise PhotoRefused for more bytes than a photo may have."""
    if size > LARGEST_PHOTO:
        raise PhotoRefused(
            "too large",
            f"A photo may be {LARGEST_PHOTO // 1024 // 1024} MB at most. Take it again, smaller.",
        )


def check_photo(digest: str, data: bytes) -> None:
    """Raise PhotoRefused where `data` is not the JPEG whose SHA-256 is `digest`."""
    check_size(len(data))
    if not data.startswith(JPEG_START):
        raise PhotoRefused("not a photo", "This is not a JPEG photo. Take it again with the app.")
    if hashlib.sha256(data).hexdigest() != digest:
        raise PhotoRefused(
            "damaged", "The photo arrived damaged. The phone keeps it and sends it again."
        )


def keep_photo(session: Session, folder: Path, digest: str, data: bytes, now: int) -> bool:
    """Keep a photo for good and note it in the record; False where it was already here.

    Checks the bytes first. `now` is UTC ms. The caller owns the transaction. Raises PhotoRefused,
    or NoRoomForPhoto where the disk does not take it.
    """
    check_photo(digest, data)
    path = path_of(folder, digest)
    new = not path.is_file()
    if new:
        try:
            _write(path, data)
        except OSError as problem:
            raise NoRoomForPhoto(problem.errno in NO_ROOM) from problem
    if session.get(Photo, digest) is None:
        session.add(Photo(digest=digest, size=len(data), received_at=now))
        session.flush()
    return new


def _write(path: Path, data: bytes) -> None:
    """Write under another name, down to the disk, and rename: whole, or not there."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=".part-", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(name, path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    for folder in (path.parent, path.parent.parent):
        _to_disk(folder)


def _to_disk(folder: Path) -> None:
    """Bring a folder's own entries to the disk, so that the rename outlives a power cut."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def missing_photos(session: Session, folder: Path) -> list[str]:
    """Digests that the record names and whose bytes are not here (yet), first named first."""
    rows = session.execute(
        select(StoredEvent.raw)
        .where(StoredEvent.kind == "photo.attached.v1")
        .order_by(StoredEvent.position)
    ).scalars()
    named = dict.fromkeys(str(json.loads(raw)["body"]["photo"]) for raw in rows)
    return [digest for digest in named if not path_of(folder, digest).is_file()]
