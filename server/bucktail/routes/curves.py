"""Fit curves for the phones, a line each, and the measuring beside the server."""

from __future__ import annotations

from flask import Blueprint, Flask, Response, current_app, request
from marshmallow import Schema, ValidationError, fields, validate

from bucktail.events.envelope import canonical
from bucktail.routes.errors import Refused
from bucktail.routes.guard import database
from bucktail.storage import curves as stored
from bucktail.storage.tables import db
from bucktail.sync.wire.reading import sentence
from bucktail.workshop.measuring import Measuring

curves = Blueprint("curves", __name__)

PAGE = 500
PLACE = "measuring"


class CurvesAsked(Schema):
    """Which curves a phone has: all up to this number."""

    after = fields.Integer(load_default=0, validate=validate.Range(0, 2**53))


def measured_beside(app: Flask, measuring: Measuring) -> None:
    """Have outlines measured while this application runs, those first that wait already."""
    app.extensions[PLACE] = measuring
    with app.app_context():
        waiting = stored.waiting(db.session())
        db.session.rollback()
        measure_if_any(waiting)


def measure_if_any(waiting: int) -> None:
    """Wake the measuring where outlines wait. Call it when what brought them is committed."""
    measuring: Measuring | None = current_app.extensions.get(PLACE)
    if waiting and measuring is not None:
        measuring.wake()


@curves.get("/api/curves")
def after() -> Response:
    """Curves above the number `after`: a first line about the answer, then a curve a line.

    The first line is {"last": the number of the newest curve in this answer or, where it holds
    none, of the newest there is; "more": whether there are curves above it; "waiting": how many
    outlines are still to be measured}. A curve is {"n", "event", "curve"}, `event` being the entry
    that brought the outline.
    """
    try:
        asked = CurvesAsked().load(request.args)
    except ValidationError as problem:
        raise Refused(400, "curves", sentence(problem)) from None
    session = database()
    found = stored.after(session, asked["after"], PAGE)
    newest = stored.last(session)
    last = found[-1][0] if found else newest
    first = {"last": last, "more": last < newest, "waiting": stored.waiting(session)}
    session.rollback()
    measure_if_any(first["waiting"])
    lines = [canonical(first)]
    lines += [f'{{"n":{n},"event":"{event}","curve":{text}}}' for n, event, text in found]
    return Response("\n".join(lines) + "\n", mimetype="application/x-ndjson")
