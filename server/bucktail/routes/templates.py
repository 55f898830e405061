"""A piece wanted as a template at full size: on paper, as DXF, as SVG."""

from __future__ import annotations

import re
from datetime import datetime
from typing import TYPE_CHECKING, Any

from flask import Blueprint, Response, g, request

from bucktail.routes.errors import Refused
from bucktail.routes.guard import database
from bucktail.storage.cards import state_of
from bucktail.storage.tables import Session

if TYPE_CHECKING:
    from bucktail.offcuts.template.drawing import Template
    from bucktail.offcuts.template.page import Paper
    from bucktail.offcuts.template.shapes import Drawn

templates = Blueprint("templates", __name__)

TYPES = {"pdf": "application/pdf", "dxf": "image/vnd.dxf", "svg": "image/svg+xml"}
#: paper that goes with the workshop's unit where none is asked for
PAPERS: dict[str, Paper] = {"in": "letter", "mm": "a4"}


@templates.get("/api/wanted/<piece>/template.<form>")
def template(piece: str, form: str) -> Response:
    """The file; `paper` is a4 or letter. Header Bucktail-Pages: the number of pages of a PDF."""
    if form not in TYPES:
        raise Refused(404, "form", "A template is made as pdf, dxf or svg.")
    paper = _paper()
    session = database()
    state = state_of(session, piece)
    code = _code(session, state) if state else ""
    session.rollback()
    if state is None or state["sort"] != "wanted":
        raise Refused(404, "unknown", "This piece has not reached the workshop computer yet.")
    made, pages = _made(state, form, paper, code)
    answer = Response(made, mimetype=TYPES[form])
    answer.headers["Content-Disposition"] = f'attachment; filename="{_named(state)}.{form}"'
    if pages:
        answer.headers["Bucktail-Pages"] = str(pages)
    return answer


def _paper() -> Paper:
    asked = request.args.get("paper", "")
    if asked in ("a4", "letter"):
        return "a4" if asked == "a4" else "letter"
    if asked:
        raise Refused(422, "paper", "Templates are printed on a4 or letter.")
    return PAPERS[g.workshop.unit]


def _code(session: Session, state: dict[str, Any]) -> str:
    """The tag of the piece, or of the part it was made into; empty where there is none."""
    made = state_of(session, state["met"]) if state.get("met") else None
    for one in filter(None, (state, made)):
        for tag in one["tags"]:
            if not tag["old"]:
                return str(tag["code"])
    return ""


def _made(state: dict[str, Any], form: str, paper: Paper, code: str) -> tuple[bytes, int]:
    """The file and, for paper, its pages. Drawing is loaded here: nothing else needs it."""
    from bucktail.offcuts.template.marks import draw
    from bucktail.offcuts.template.piece import template_of

    now = datetime.now().astimezone()
    laid = template_of(state, g.workshop.unit, f"{now.day} {now:%b %Y}", code)
    drawn = draw(laid)
    if form == "pdf":
        return _pdf(laid, drawn, paper, now)
    if form == "dxf":
        from bucktail.offcuts.template.dxf import template_dxf

        return template_dxf(laid, drawn), 0
    from bucktail.offcuts.template.svg import template_svg

    return template_svg(laid, drawn), 0


def _pdf(
    laid: Template, drawn: tuple[Drawn, ...], paper: Paper, now: datetime
) -> tuple[bytes, int]:
    from bucktail.offcuts.template.pdf import TooLarge, template_pdf

    try:
        return template_pdf(laid, drawn, paper, now)
    except TooLarge as problem:
        raise Refused(422, "too large", str(problem)) from None


def _named(state: dict[str, Any]) -> str:
    """A name for the file that every system takes."""
    plain = re.sub(r"[^a-z0-9]+", "-", state["name"].lower()).strip("-")[:60]
    return f"template-{plain}" if plain else "template"
