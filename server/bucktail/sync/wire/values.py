"""Values that bodies of several kinds hold: lines of text, counts, words of a list, lengths."""

from __future__ import annotations

from typing import Any

from marshmallow import Schema, fields, validate

from bucktail.events.envelope import LARGEST
from bucktail.sync.wire.exact import Whole

Short = validate.Length(max=200)
Long = validate.Length(max=4000)
Count = validate.Range(min=0, max=1_000_000)


def text(**more: Any) -> fields.String:
    """A line of text of at most 200 characters."""
    return fields.String(validate=Short, **more)


def whole(**more: Any) -> Whole:
    """A whole number from 0 to 1,000,000, written as a number."""
    return Whole(validate=Count, **more)


def one_of(words: tuple[str, ...], **more: Any) -> fields.String:
    """One of some words."""
    return fields.String(validate=validate.OneOf(words), **more)


class Length(Schema):
    """A length: whole nanometres, and the text as it was typed."""

    nm = Whole(required=True, validate=validate.Range(min=1, max=LARGEST))
    text = text(required=True)
