"""Pairing: a browser that was shown the workshop's code becomes one of its devices."""

from __future__ import annotations

import secrets
import time

from flask import Blueprint, Response, current_app, g, jsonify, request
from marshmallow import Schema, ValidationError, fields, validate

from bucktail.routes.errors import Refused
from bucktail.routes.guard import cookie_name, database
from bucktail.storage.ids import uuid7
from bucktail.storage.pairing_store import StoredPairings, paired, people
from bucktail.storage.settings import ensure_workshop
from bucktail.sync.wire.reading import sentence
from bucktail.workshop.origin import remembered
from bucktail.workshop.pairing import Newcomer, PairingDesk, PairingRefused
from bucktail.workshop.pairing_code import pairing_link, shown_in_fours
from bucktail.workshop.symbol import rows_of_digits

pair = Blueprint("pair", __name__)
YEAR_S = 400 * 24 * 3600  # the longest that browsers keep a cookie (RFC 6265bis, 5.5)
STATUS = {"unknown": 404, "used": 410, "expired": 410, "wrong": 403, "closed": 403, "names": 422}


class PairAsked(Schema):
    """What a browser says of itself when it brings a pairing code."""

    answer = fields.String(required=True, validate=validate.Length(1, 300))
    device = fields.String(required=True, validate=validate.Length(max=64))
    device_name = fields.String(required=True, validate=validate.Length(max=200))
    person_name = fields.String(required=True, validate=validate.Length(max=200))


def now_ms() -> int:
    """The workshop computer's clock, UTC ms."""
    return int(time.time() * 1000)


def desk() -> PairingDesk:
    """The pairing desk on this request's session."""
    return PairingDesk(
        StoredPairings(database()), now_ms, secrets.token_bytes, lambda: uuid7(now_ms())
    )


@pair.post("/api/pair")
def redeem() -> Response:
    """Give this browser its token, in a cookie that scripts cannot read."""
    try:
        asked = PairAsked().load(request.get_json(silent=True) or {})
    except ValidationError as problem:
        raise Refused(422, "names", sentence(problem)) from None
    newcomer = Newcomer(asked["device"], asked["device_name"], asked["person_name"])
    try:
        found = desk().redeem(asked["answer"], newcomer)
    except PairingRefused as problem:
        raise Refused(STATUS.get(problem.reason, 403), problem.reason, str(problem)) from None
    workshop = ensure_workshop(database())
    answer = jsonify(
        {
            "workshop": workshop.id,
            "name": workshop.name,
            "unit": workshop.unit,
            "device": found.device.id,
            "device_name": found.device.name,
            "person": found.person.id,
            "person_name": found.person.name,
        }
    )
    answer.set_cookie(
        cookie_name(workshop.id),
        found.token,
        max_age=YEAR_S,
        secure=True,
        httponly=True,
        samesite="Strict",
        path="/",
    )
    return answer


@pair.post("/api/devices/offer")
def offer() -> Response:
    """A paired device opens a pairing for another one.

    Answers {"link", "rows" (the link as a QR symbol, "1" is dark), "typed", "for_ms" (how long it
    is good for), "trust" (the page on which a new phone learns to trust this computer, or null)}.
    """
    made = desk().start()
    at = remembered(current_app.config["WORKSHOP_FOLDER"])
    link = pairing_link(at.url if at else f"https://{request.host}", made.secret)
    return jsonify(
        {
            "link": link,
            "rows": rows_of_digits(link),
            "typed": shown_in_fours(made.typed),
            "for_ms": made.expires_at - now_ms(),
            "trust": at.trust_url if at else None,
        }
    )


@pair.get("/api/devices")
def devices() -> Response:
    """The workshop's devices: {"devices": [{id, name, person, paired_at, last_seen, revoked_at,
    "this": whether it is the one that asks}], "now"}; times are UTC ms."""
    names = people(database())
    listed = [
        {
            "id": device.id,
            "name": device.name,
            "person": names.get(device.person, ""),
            "paired_at": device.paired_at,
            "last_seen": device.last_seen,
            "revoked_at": device.revoked_at,
            "this": device.id == g.device.id,
        }
        for device in paired(database())
    ]
    return jsonify({"devices": listed, "now": now_ms()})


@pair.post("/api/devices/<uuid:device>/revoke")
def revoke(device: object) -> Response:
    """Let a device in no more, at once."""
    try:
        desk().revoke(str(device))
    except PairingRefused as problem:
        raise Refused(404, problem.reason, str(problem)) from None
    return jsonify({"revoked": str(device)})
