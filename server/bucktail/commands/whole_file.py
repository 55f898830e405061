"""A file that a command makes: written beside its place, and given its name only when whole."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path


class CannotWrite(Exception):
    """A file cannot be written where it was asked for; the message says what to do."""


class WholeFile:
    """Opens the way for one file: `with WholeFile(path, replace) as file: file.write(data)`.

    Raises CannotWrite before anything else is done when the file is already there (and `replace`
    is false) or its folder takes no files, so that work which cannot be undone can wait for it.
    """

    def __init__(self, path: Path, replace: bool) -> None:
        self._path = path
        if path.is_dir():
            raise CannotWrite(f"{path} is a folder. Give the name of a file.")
        if path.exists() and not replace:
            raise CannotWrite(
                f"{path} is already there and was left as it is. Choose another name, "
                "or add --replace."
            )
        try:
            handle, name = tempfile.mkstemp(prefix=f".{path.stem}-", dir=path.parent)
        except OSError as problem:
            raise CannotWrite(
                f"{path} cannot be written ({problem.strerror}). Choose another folder."
            ) from None
        os.close(handle)
        self._part = Path(name)

    def __enter__(self) -> WholeFile:
        return self

    def __exit__(self, *_: object) -> None:
        self._part.unlink(missing_ok=True)

    def write(self, data: bytes) -> None:
        """Write all of it, then give it its name."""
        try:
            self._part.write_bytes(data)
            self._part.chmod(0o644)
            self._part.replace(self._path)
        except OSError as problem:
            raise CannotWrite(f"{self._path} could not be written ({problem.strerror}).") from None
