"""The command as a person runs it, on a workshop of its own, and entries as a phone writes them."""

from __future__ import annotations

import json
import uuid
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from bucktail import cli
from bucktail.storage.opening import open_workshop
from bucktail.storage.settings import ensure_workshop

AT = 1_772_366_400_000  # 2026-03-01 12:00:00 UTC


@dataclass(frozen=True)
class Said:
    """How a command ended: its exit code and what it printed."""

    code: int
    out: str
    err: str


@dataclass
class PhoneFile:
    """Entries of a phone that belongs to the workshop `workshop`, and the file it saves."""

    workshop: str
    device: str = field(default_factory=lambda: str(uuid.uuid4()))
    person: str = field(default_factory=lambda: str(uuid.uuid4()))
    lines: list[bytes] = field(default_factory=list)

    def add_part(self, name: str, **changes: object) -> bytes:
        """One entry: a part is entered. `changes` replace fields of it."""
        seq = len(self.lines) + 1
        entry = {
            "id": str(uuid.uuid4()),
            "kind": "part.added.v1",
            "workshop": self.workshop,
            "device": self.device,
            "seq": seq,
            "at": AT + seq,
            "tz": "UTC",
            "by": self.person,
            "base": {"position": 0, "chain": ""},
            "subject": str(uuid.uuid4()),
            "via": None,
            "group": None,
            "body": {"name": name},
            **changes,
        }
        # not how the server would write it: the bytes must stay as they came
        self.lines.append(json.dumps(entry, ensure_ascii=False, indent=None).encode())
        return self.lines[-1]

    def head(self, **changes: object) -> bytes:
        """The first line of the file."""
        says = {
            "bucktail": "outbox",
            "version": 1,
            "workshop": self.workshop,
            "device": self.device,
            "device_name": "bench phone",
            "person": self.person,
            "person_name": "Sam Rivers",
            "saved_at": AT,
            "entries": len(self.lines),
            "photos": 0,
            **changes,
        }
        return json.dumps(says).encode()

    def data(self, *more: bytes, ends: bytes = b"\n", **changes: object) -> bytes:
        """The whole file; `more` are lines after the entries, `changes` go to the first line."""
        return ends.join([self.head(**changes), *self.lines, *more, b""])


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A blank workshop."""
    made = tmp_path / "workshop"
    with open_workshop(made):
        pass
    return made


@pytest.fixture
def phone_file(folder: Path) -> PhoneFile:
    """A phone's file for the workshop in `folder`."""
    with open_workshop(folder) as session:
        return PhoneFile(ensure_workshop(session).id)


@pytest.fixture
def bucktail(capsys: pytest.CaptureFixture[str]) -> Callable[..., Said]:
    """Runs the command with these words."""

    def run(*words: object) -> Said:
        try:
            code = cli.main([str(word) for word in words])
        except SystemExit as end:
            code = int(end.code or 0)
        said = capsys.readouterr()
        return Said(code, said.out, said.err)

    return run
