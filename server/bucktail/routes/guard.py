"""Who may in: paired devices only, from this origin only, with the headers that keep it so."""

from __future__ import annotations

import secrets
import time

from flask import Flask, Response, g, request

from bucktail.routes.errors import Refused
from bucktail.storage.pairing_store import StoredPairings
from bucktail.storage.settings import ensure_workshop
from bucktail.storage.tables import Session, db
from bucktail.workshop.pairing import PairingDesk, PairingRefused

POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; "
    "style-src 'self'; font-src 'self'; img-src 'self' blob:; media-src 'self' blob:; "
    "connect-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'"
)
#: Open to a browser that is not paired yet: to be paired, and nothing else.
OPEN = frozenset({"/api/pair"})
LARGEST_BODY = 24 * 1024 * 1024


def cookie_name(workshop_id: str) -> str:
    """Cookies carry the workshop in their name: two workshops on one computer do not mix."""
    return f"__Host-bucktail-{workshop_id[:8]}"


def database() -> Session:
    """The request's session. Its transaction is the request's: errors.py takes it back."""
    return db.session()


def add_guard(app: Flask) -> None:
    """Check every request before its route, and set the headers after it."""
    app.config["MAX_CONTENT_LENGTH"] = LARGEST_BODY

    @app.before_request
    def _check() -> None:
        _own_host(app)
        if request.method not in ("GET", "HEAD"):
            _own_origin()
        if request.path.startswith("/api/") and request.path not in OPEN:
            _paired()

    @app.after_request
    def _headers(answer: Response) -> Response:
        answer.headers.setdefault("Content-Security-Policy", POLICY)
        answer.headers["X-Content-Type-Options"] = "nosniff"
        answer.headers["Referrer-Policy"] = "no-referrer"
        answer.headers["Cross-Origin-Opener-Policy"] = "same-origin"
        answer.headers["Cross-Origin-Resource-Policy"] = "same-origin"
        answer.headers["Permissions-Policy"] = "camera=(self), microphone=(), geolocation=()"
        if request.path.startswith("/api/"):
            answer.headers.setdefault("Cache-Control", "no-store")
        return answer


def _own_host(app: Flask) -> None:
    """Answer only to the names this workshop goes by, so that no foreign name is bound to it."""
    allowed = app.config["HOSTS"]
    host = request.host.rsplit(":", 1)[0] if not request.host.endswith("]") else request.host
    if host not in allowed:
        raise Refused(421, "host", f"This workshop is at {', '.join(sorted(allowed))}.")


def _own_origin() -> None:
    """Only the app's own pages change anything."""
    site = request.headers.get("Sec-Fetch-Site", "same-origin")
    origin = request.headers.get("Origin")
    if site != "same-origin" or (origin is not None and origin != f"https://{request.host}"):
        raise Refused(403, "origin", "Only the Bucktail app itself may change the record.")


def _paired() -> None:
    """Find the device behind the request."""
    session = database()
    workshop = ensure_workshop(session)
    token = request.cookies.get(cookie_name(workshop.id), "")
    desk = PairingDesk(StoredPairings(session), _clock, secrets.token_bytes, str)
    try:
        g.device = desk.authenticate(token)
    except PairingRefused as problem:
        raise Refused(401, "not paired", str(problem)) from None
    finally:
        session.rollback()
    g.workshop = workshop


def _clock() -> int:
    return int(time.time() * 1000)
