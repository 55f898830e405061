"""The web app's own files, as the build left them, with their compressed twins."""

from __future__ import annotations

import mimetypes
from pathlib import Path

from flask import Blueprint, Response, request, send_file
from werkzeug.security import safe_join

from bucktail.routes.errors import Refused

webapp = Blueprint("webapp", __name__)
FOLDER = Path(__file__).parent.parent / "webapp"
TYPES = {".wasm": "application/wasm", ".webmanifest": "application/manifest+json"}


@webapp.get("/")
@webapp.get("/<path:name>")
def page(name: str = "index.html") -> Response:
    """A file of the build; any other address without a dot in it is the app's first page."""
    if name.startswith("api/"):
        raise Refused(404, "unknown", "There is no such address.")
    if "." not in name:
        name = "index.html"
    path = safe_join(str(FOLDER), name)
    if path is None or not Path(path).is_file():
        raise Refused(404, "unknown", f"There is no file {name}. Build the app: scripts/run")
    kind = TYPES.get(Path(path).suffix) or mimetypes.guess_type(path)[0]
    for coding, ending in (("br", ".br"), ("gzip", ".gz")):
        if coding in request.accept_encodings and Path(path + ending).is_file():
            answer = send_file(path + ending, mimetype=kind, conditional=True)
            answer.headers["Content-Encoding"] = coding
            break
    else:
        answer = send_file(path, mimetype=kind, conditional=True)
    answer.headers["Vary"] = "Accept-Encoding"
    fixed = name.startswith("assets/")  # these names carry their own hash
    answer.headers["Cache-Control"] = "public, max-age=31536000, immutable" if fixed else "no-cache"
    return answer
