"""A workshop of its own for every test."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from bucktail.storage.opening import open_session
from bucktail.storage.settings import ensure_workshop
from bucktail.storage.tables import Session
from running.pen import Pen


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Where the workshop is."""
    return tmp_path / "workshop"


@pytest.fixture
def session(folder: Path) -> Iterator[Session]:
    """A session on a blank workshop, without a transaction."""
    with open_session(folder) as opened:
        yield opened


@pytest.fixture
def pen(session: Session) -> Pen:
    """A device of that workshop."""
    return another(session)


def another(session: Session) -> Pen:
    """One more device of the workshop."""
    workshop = ensure_workshop(session).id
    session.rollback()
    return Pen(workshop)
