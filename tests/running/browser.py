"""Browsers of a workshop without a network: Flask's own client, paired as a phone is."""

from __future__ import annotations

import json
import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from flask import Flask
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from bucktail.storage.ids import uuid7
from bucktail.storage.pairing_store import StoredPairings
from bucktail.storage.settings import ensure_workshop
from bucktail.storage.tables import Session, db
from bucktail.workshop.pairing import PairingDesk
from running.pen import Pen, raw
from running.workshop import now_ms

HOME = "https://localhost"


@contextmanager
def database_of(app: Flask) -> Iterator[Session]:
    """A session on the application's database."""
    with app.app_context():
        yield db.session()
        db.session.remove()


class Browser:
    """A browser that belongs to the workshop: `pen` writes its events."""

    def __init__(self, app: Flask, name: str = "phone", person: str = "Sam") -> None:
        self.client: FlaskClient = app.test_client()
        with database_of(app) as session:
            workshop = ensure_workshop(session).id
            session.rollback()
            offer = PairingDesk(
                StoredPairings(session), now_ms, secrets.token_bytes, lambda: uuid7(now_ms())
            ).start()
        device = uuid7(now_ms())
        asked = {"answer": offer.secret, "device": device, "device_name": name}
        joined = self.post("/api/pair", json={**asked, "person_name": person})
        assert joined.status_code == 200, joined.text
        self.pen = Pen(workshop, device, joined.get_json()["person"])

    def get(self, path: str, **more: Any) -> TestResponse:
        """A GET as a page of the app makes it."""
        return self.client.get(path, base_url=HOME, **more)

    def post(self, path: str, **more: Any) -> TestResponse:
        """A POST as a page of the app makes it."""
        return self.client.post(path, base_url=HOME, **more)

    def push(self, *events: dict[str, Any] | bytes, **headers: str) -> TestResponse:
        """Send events. `seen` and `now` are the phone's headers."""
        lines = [event if isinstance(event, bytes) else raw(event) for event in events]
        names = {"seen": "Bucktail-Seen", "now": "Bucktail-Now"}
        return self.post(
            "/api/push",
            data=b"\n".join(lines) + b"\n",
            headers={names[key]: value for key, value in headers.items()},
        )

    def pull(self, position: int | str = 0, chain: str = "") -> TestResponse:
        """Fetch a page."""
        return self.get("/api/pull", query_string={"position": position, "chain": chain})

    def cards(self) -> dict[str, str]:
        """All cards, page by page: id -> text."""
        found: dict[str, str] = {}
        position, chain, more = 0, "", True
        while more:
            first, *texts = page(self.pull(position, chain))
            found |= {json.loads(text)["id"]: text for text in texts}
            told = json.loads(first)
            position, chain, more = told["position"], told["chain"], told["more"]
        return found


def page(answer: TestResponse) -> list[str]:
    """The lines of a pulled page."""
    assert answer.status_code == 200, answer.text
    return answer.get_data().decode("utf-8").removesuffix("\n").split("\n")
