"""An application on a workshop of its own for every test."""

from __future__ import annotations

import secrets
from collections.abc import Iterator
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from bucktail.app import create_app
from bucktail.storage.ids import uuid7
from bucktail.storage.opening import open_session
from bucktail.storage.pairing_store import StoredPairings
from bucktail.workshop.pairing import PairingDesk
from running.browser import Browser
from running.workshop import now_ms

AT_HOME = {"base_url": "https://localhost"}


@pytest.fixture
def app(tmp_path: Path) -> Flask:
    """The application, answering to localhost and bench.local."""
    return create_app(tmp_path / "workshop", ("localhost", "bench.local"))


@pytest.fixture
def phone(app: Flask) -> Browser:
    """A paired phone."""
    return Browser(app)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "workshop"


@pytest.fixture
def client(folder: Path) -> Iterator[FlaskClient]:
    """A browser that belongs to the workshop."""
    app = create_app(folder)
    with open_session(folder) as session:
        desk = PairingDesk(
            StoredPairings(session), now_ms, secrets.token_bytes, lambda: uuid7(now_ms())
        )
        secret = desk.start().secret
    browser = app.test_client()
    names = {"device_name": "phone", "person_name": "Sam", "device": uuid7(now_ms())}
    joined = browser.post("/api/pair", json={"answer": secret, **names}, **AT_HOME)
    assert joined.status_code == 200, joined.text
    yield browser
