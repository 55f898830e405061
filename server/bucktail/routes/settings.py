"""What the whole workshop agrees on: its name, the unit of a bare number, what sawing takes."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, Response, jsonify, request
from marshmallow import Schema, ValidationError, fields, post_load, validate

from bucktail.routes.errors import Refused
from bucktail.routes.guard import database
from bucktail.rules.rulebook import version
from bucktail.storage.settings import ensure_workshop, sawing, say_sawing, write
from bucktail.sync.wire.exact import Whole
from bucktail.sync.wire.reading import sentence
from bucktail.sync.wire.values import text

settings = Blueprint("settings", __name__)


MOST_NM = 1_000_000_000  # an allowance is at most 1 m


class Allowed(Schema):
    """A length that sawing takes. Unlike other lengths it may be nothing: shears take none."""

    nm = Whole(required=True, validate=validate.Range(0, MOST_NM))
    text = text(required=True)


class SawingAsked(Schema):
    """What sawing takes; null goes back to what is common practice."""

    kerf = fields.Nested(Allowed, allow_none=True)
    dress_off = fields.Nested(Allowed, allow_none=True)
    shortest = fields.Nested(Allowed, allow_none=True)
    narrowest = fields.Nested(Allowed, allow_none=True)


class SettingsAsked(Schema):
    """The settings to change; what is not named stays as it is."""

    name = fields.String(validate=validate.Length(1, 60))
    unit = fields.String(validate=validate.OneOf(("in", "mm")))
    sawing = fields.Nested(SawingAsked)

    @post_load
    def _on_one_line(self, asked: dict[str, Any], **_: Any) -> dict[str, Any]:
        if "name" in asked:
            asked["name"] = " ".join(asked["name"].split())
            if not asked["name"]:
                raise ValidationError("Give the workshop a name.", "name")
        return asked


@settings.post("/api/settings")
def change() -> Response:
    """Change settings; answers {"name", "unit", "sawing"} as they are now."""
    try:
        asked = SettingsAsked().load(request.get_json(silent=True) or {})
    except ValidationError as problem:
        raise Refused(422, "settings", sentence(problem)) from None
    session = database()
    say_sawing(session, asked.pop("sawing", {}))
    for name, value in asked.items():
        write(session, name, value)
    now = ensure_workshop(session)
    said = sawing(session)
    session.commit()
    return jsonify({"name": now.name, "unit": now.unit, "sawing": said})


@settings.get("/api/rules")
def rules() -> Response:
    """The version of the rules that this computer reckons with: {"version"}."""
    return jsonify({"version": version()})
