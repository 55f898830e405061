"""A file of what some phone could not send, brought in by a device that belongs to the workshop."""

from __future__ import annotations

import time
from pathlib import Path

from flask import Blueprint, Response, current_app, jsonify, request

from bucktail.routes.errors import Refused
from bucktail.routes.guard import database
from bucktail.storage.photos import NoRoomForPhoto
from bucktail.workshop.outbox_file import FileRefused, bring_in

outbox = Blueprint("outbox", __name__)


@outbox.post("/api/outbox")
def take_file() -> Response:
    """Take the file in the body up, whichever device of this workshop wrote it.

    Answers {"stored", "known", "aside": [{line, reason}], "photos", "photos_aside", "missing"}.
    """
    folder: Path = current_app.config["WORKSHOP_FOLDER"]
    session = database()
    try:
        done = bring_in(session, folder, request.get_data(), int(time.time() * 1000))
    except FileRefused as problem:
        session.rollback()
        raise Refused(422, "not such a file", str(problem)) from None
    except NoRoomForPhoto:
        session.rollback()
        raise Refused(
            507,
            "disk full",
            "The workshop computer cannot write a photo of this file; its disk may be full. Nothing"
            " was taken up. Make room there and bring the file in again.",
        ) from None
    session.commit()
    return jsonify(
        {
            "stored": done.stored,
            "known": done.known,
            "aside": _lines(done.aside),
            "photos": done.photos,
            "photos_aside": _lines(done.photos_aside),
            "missing": done.missing,
        }
    )


def _lines(found: list[tuple[int, str]]) -> list[dict[str, object]]:
    return [{"line": number, "reason": reason} for number, reason in found]
