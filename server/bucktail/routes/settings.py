"""What the whole workshop agrees on: its name, and the unit that a bare number is read in."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, Response, jsonify, request
from marshmallow import Schema, ValidationError, fields, post_load, validate

from bucktail.routes.errors import Refused
from bucktail.routes.guard import database
from bucktail.rules.rulebook import version
from bucktail.storage.settings import ensure_workshop, write
from bucktail.sync.wire.reading import sentence

settings = Blueprint("settings", __name__)


class SettingsAsked(Schema):
    """The settings to change; what is not named stays as it is."""

    name = fields.String(validate=validate.Length(1, 60))
    unit = fields.String(validate=validate.OneOf(("in", "mm")))

    @post_load
    def _on_one_line(self, asked: dict[str, Any], **_: Any) -> dict[str, Any]:
        if "name" in asked:
            asked["name"] = " ".join(asked["name"].split())
            if not asked["name"]:
                raise ValidationError("Give the workshop a name.", "name")
        return asked


@settings.post("/api/settings")
def change() -> Response:
    """Change settings; answers {"name", "unit"} as they are now."""
    try:
        asked = SettingsAsked().load(request.get_json(silent=True) or {})
    except ValidationError as problem:
        raise Refused(422, "settings", sentence(problem)) from None
    session = database()
    for name, value in asked.items():
        write(session, name, value)
    now = ensure_workshop(session)
    session.commit()
    return jsonify({"name": now.name, "unit": now.unit})


@settings.get("/api/rules")
def rules() -> Response:
    """The version of the rules that this computer reckons with: {"version"}."""
    return jsonify({"version": version()})
