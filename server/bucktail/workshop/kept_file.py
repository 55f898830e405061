"""Files of the workshop folder that must be whole or absent, and private where they hold a key."""

from __future__ import annotations

import os
import secrets
from pathlib import Path

PRIVATE = 0o600
READABLE = 0o644


def _written_beside(path: Path, data: bytes, mode: int) -> Path:
    """Write `data` to a new file in the folder of `path`, safe on the disk, and return it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f".{path.name}.{secrets.token_hex(6)}.part")
    handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        os.chmod(beside, mode)  # the umask may have taken bits off a readable file
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
    return beside


def _folder_to_disk(folder: Path) -> None:
    """Make a rename last through a power cut, where the system lets a folder be synced."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def write_whole(path: Path, data: bytes, mode: int = PRIVATE) -> None:
    """Put `data` at `path` in one move: a reader sees the old bytes or all the new ones.

    The file is never readable with wider rights than `mode`, not even while it is written.
    Raises OSError when the disk refuses; the old file is then untouched.
    """
    beside = _written_beside(path, data, mode)
    try:
        os.replace(beside, path)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
    _folder_to_disk(path.parent)


def write_first(path: Path, data: bytes, mode: int = PRIVATE) -> bool:
    """Put `data` at `path` only if nothing is there; say whether it was this call that did.

    Two programs that start at once agree on whichever file came first. On a file system
    without hard links the check and the move are two steps.
    """
    beside = _written_beside(path, data, mode)
    try:
        os.link(beside, path)
    except FileExistsError:
        return False
    except OSError:
        if path.exists():
            return False
        os.replace(beside, path)
    finally:
        beside.unlink(missing_ok=True)
    _folder_to_disk(path.parent)
    return True
