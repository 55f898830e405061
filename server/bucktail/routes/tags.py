"""Tags on paper: a sheet, or labels of a roll, as a PDF."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

from flask import Blueprint, Response, request
from marshmallow import Schema, ValidationError, fields, validate, validates_schema

from bucktail.routes.errors import Refused
from bucktail.routes.guard import database
from bucktail.storage.tables import Session
from bucktail.sync.wire.reading import sentence
from bucktail.tags.code import NoUnusedCode, check
from bucktail.tags.draw import CannotPrint
from bucktail.tags.sheet import Printed, Printing, plan, print_labels
from bucktail.tags.typeset import LabelText
from bucktail.workshop.printing import make_tags, texts_for

tags = Blueprint("tags", __name__)

#: From a phone; the command prints up to a thousand at a time.
MOST = 200


class SheetAsked(Schema):
    """What to print: a number of new blank tags, or tags that exist, by their codes."""

    new = fields.Integer(strict=True, validate=validate.Range(1, MOST))
    codes = fields.List(fields.String(), validate=validate.Length(1, MOST))
    size = fields.String(load_default="normal")
    paper = fields.String(load_default="a4", validate=validate.Length(max=40))
    dpi = fields.Integer(strict=True, load_default=300)
    skip = fields.Integer(strict=True, load_default=0, validate=validate.Range(0, 1000))

    @validates_schema
    def _one_of_both(self, asked: dict[str, Any], **_: Any) -> None:
        if ("new" in asked) == ("codes" in asked):
            raise ValidationError("Say either how many new tags, or which tags to print again.")


@tags.post("/api/tags/sheet")
def sheet() -> Response:
    """A PDF. New tags are recorded with it, all or none; nothing is recorded where it fails.

    Headers: Bucktail-Tags and Bucktail-Pages, the numbers of both.
    """
    try:
        asked = SheetAsked().load(request.get_json(silent=True) or {})
    except ValidationError as problem:
        raise Refused(422, "sheet", sentence(problem)) from None
    how = Printing(asked["size"], asked["paper"], asked["dpi"], skip=asked["skip"])
    session = database()
    try:
        plan(how)  # before any tag is made
        codes = make_tags(session, asked["new"]) if "new" in asked else _checked(asked["codes"])
        printed = _print(session, codes, how)
    except (CannotPrint, NoUnusedCode) as problem:
        session.rollback()
        raise Refused(422, "cannot print", str(problem)) from None
    session.commit()
    answer = Response(printed.pdf, mimetype="application/pdf")
    answer.headers["Content-Disposition"] = 'attachment; filename="tags.pdf"'
    answer.headers["Bucktail-Tags"] = str(len(codes))
    answer.headers["Bucktail-Pages"] = str(printed.pages)
    return answer


def _checked(typed: list[str]) -> list[str]:
    """The codes, each well formed; raises CannotPrint about the first that is not."""
    codes = []
    for text in typed:
        found = check(text)
        if not found.ok:
            raise CannotPrint(f"{text}: {found.sentence}")
        codes.append(found.code)
    return codes


def _print(session: Session, codes: list[str], how: Printing) -> Printed:
    texts = texts_for(session, codes)
    labels = [(code, texts.get(code, LabelText())) for code in codes]
    return print_labels(labels, how, datetime.now(UTC))
