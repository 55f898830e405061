"""An application on a workshop of its own for every test."""

from __future__ import annotations

from pathlib import Path

import pytest
from flask import Flask

from bucktail.app import create_app
from running.browser import Browser


@pytest.fixture
def app(tmp_path: Path) -> Flask:
    """The application, answering to localhost and bench.local."""
    return create_app(tmp_path / "workshop", ("localhost", "bench.local"))


@pytest.fixture
def phone(app: Flask) -> Browser:
    """A paired phone."""
    return Browser(app)
