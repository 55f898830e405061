"""The outline of an offcut out of a DXF file. Nothing is recorded: the phone shows it first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from flask import Blueprint, Response, jsonify, request

from bucktail.routes.errors import Refused

if TYPE_CHECKING:
    from bucktail.offcuts.dxf import DxfRefused, Read

outlines = Blueprint("outlines", __name__)

LARGEST = 16 * 1024 * 1024  # of the whole request, the form around the file included
MOST_SHOWN = 5_000  # points of a refused drawing that are sent back to be drawn


@outlines.post("/api/offcuts/outline")
def outline_of_file() -> Response:
    """Multipart: `file`; `unit` (mm or in) and `layer` where they are chosen.

    Answers {"outlines": [{"outer", "holes", "area_um2", "unit"}], "notes", "layers"}: whole nm,
    the largest first. A drawing that cannot be used is refused with 422: beside problem and
    sentence, `at` and `sides` are where the fault is, `rings` what was found, in the drawing's own
    frame, and `layers` those to choose from.
    """
    if (request.content_length or 0) > LARGEST:
        raise Refused(
            413, "too large", "A DXF of at most 12 MB is read. Save the outline alone in a file."
        )
    sent = request.files.get("file")
    if sent is None:
        raise Refused(422, "no file", "Choose a DXF file.")
    unit, layer = request.form.get("unit", ""), request.form.get("layer", "")
    if unit not in ("", "mm", "in"):
        raise Refused(422, "unit", "The unit of a drawing is said as mm or in.")
    from bucktail.offcuts.dxf import DxfRefused, read_outlines

    try:
        return _told(read_outlines(sent.read(), unit, layer))
    except DxfRefused as problem:
        return _refused(problem)


def _told(read: Read) -> Response:
    found = [
        {
            "outer": one.outer,
            "holes": one.holes,
            "area_um2": one.area_um2,
            "unit": read.unit,
        }
        for one in read.outlines
    ]
    return jsonify({"outlines": found, "notes": read.notes, "layers": read.layers})


def _refused(problem: DxfRefused) -> Response:
    shown = problem.rings if sum(map(len, problem.rings)) <= MOST_SHOWN else ()
    answer = jsonify(
        {
            "problem": problem.word,
            "sentence": str(problem),
            "at": problem.spots,
            "sides": problem.sides,
            "rings": shown,
            "layers": problem.layers,
        }
    )
    answer.status_code = 422
    return answer
