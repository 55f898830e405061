"""Photos, as bytes under their SHA-256. What they are photos of, the events say."""

from __future__ import annotations

import time
from pathlib import Path

from flask import Blueprint, Response, current_app, jsonify, request, send_file

from bucktail.routes.errors import Refused
from bucktail.routes.guard import database
from bucktail.storage.photos import (
    NoRoomForPhoto,
    PhotoRefused,
    check_size,
    is_digest,
    keep_photo,
    missing_photos,
    path_of,
)

photos = Blueprint("photos", __name__)

STATUS = {"too large": 413, "not a photo": 415, "damaged": 422}
FULL = (
    "The workshop computer's disk is full. Make room there; the phone keeps the photo and "
    "sends it again."
)
NOT_WRITTEN = (
    "The workshop computer cannot write the photo just now. The phone keeps it and sends it again."
)


def _folder() -> Path:
    folder: Path = current_app.config["WORKSHOP_FOLDER"]
    return folder


def _known(digest: str) -> str:
    if not is_digest(digest):
        raise Refused(404, "unknown", "A photo's address ends in its 64 hexadecimal digits.")
    return digest


@photos.put("/api/photos/<digest>")
def put_photo(digest: str) -> Response:
    """Take a photo's bytes up: {"kept": digest, "new": whether it was not here before}."""
    _known(digest)
    try:
        check_size(request.content_length or 0)  # before the bytes are read
        new = keep_photo(database(), _folder(), digest, request.get_data(), int(time.time() * 1000))
    except PhotoRefused as problem:
        raise Refused(STATUS[problem.word], problem.word, str(problem)) from None
    except NoRoomForPhoto as problem:
        if problem.full:
            raise Refused(507, "disk full", FULL) from None
        raise Refused(503, "disk", NOT_WRITTEN) from None
    database().commit()
    answer = jsonify({"kept": digest, "new": new})
    answer.status_code = 201 if new else 200
    return answer


@photos.get("/api/photos/<digest>")
def get_photo(digest: str) -> Response:
    """A photo. Its address names its content, so a browser may keep it as long as it likes."""
    path = path_of(_folder(), _known(digest))
    if not path.is_file():
        raise Refused(404, "not here yet", "This photo has not reached the workshop computer yet.")
    answer = send_file(path, mimetype="image/jpeg", etag=digest, conditional=True)
    answer.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return answer


@photos.get("/api/photos/missing")
def missing() -> Response:
    """Photos that the record names and that are not here: {"missing": [digest]}."""
    listed = missing_photos(database(), _folder())
    database().rollback()
    return jsonify({"missing": listed})
