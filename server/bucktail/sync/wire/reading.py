"""Reading one event from its bytes: envelope first, then the body if its kind is known."""

from __future__ import annotations

import json
from typing import Any

from marshmallow import Schema, ValidationError, fields, validate

from bucktail.events.envelope import LARGEST, Event, Unreadable, canonical
from bucktail.sync.wire.bodies import KINDS

#: An event is small; photos travel by themselves.
LARGEST_EVENT = 64 * 1024


class Seen(Schema):
    """What the phone had seen of the workshop's record when it wrote."""

    position = fields.Integer(strict=True, required=True, validate=validate.Range(0, LARGEST))
    chain = fields.String(required=True, validate=validate.Regexp(r"^([0-9a-f]{64})?$"))


class Envelope(Schema):
    """The envelope of every event, of whatever kind."""

    id = fields.UUID(required=True)
    kind = fields.String(required=True, validate=validate.Regexp(r"^[a-z]+\.[a-z]+\.v[0-9]{1,3}$"))
    workshop = fields.UUID(required=True)
    device = fields.UUID(required=True)
    seq = fields.Integer(strict=True, required=True, validate=validate.Range(1, LARGEST))
    at = fields.Integer(strict=True, required=True, validate=validate.Range(0, LARGEST))
    tz = fields.String(required=True, validate=validate.Length(max=64))
    by = fields.UUID(required=True)
    base = fields.Nested(Seen, required=True)
    subject = fields.UUID(required=True)
    via = fields.String(required=True, allow_none=True, validate=validate.Length(max=16))
    group = fields.UUID(required=True, allow_none=True)
    body = fields.Dict(required=True)


ENVELOPE = Envelope()
BODIES = {kind: schema() for kind, schema in KINDS.items()}


def sentence(problem: ValidationError) -> str:
    """A validation error as one readable line: where, and what is wrong."""
    lines: list[str] = []

    def walk(where: str, found: Any) -> None:
        if isinstance(found, dict):
            for key, inner in found.items():
                walk(f"{where}.{key}" if where else str(key), inner)
        else:
            words = " ".join(str(word) for word in found) if isinstance(found, list) else str(found)
            lines.append(f"{where}: {words}")

    walk("", problem.messages)
    return "; ".join(lines)[:400]


def read_event(raw: bytes) -> Event:
    """The event in `raw`. Raises Unreadable, with a sentence, for anything not an event."""
    if len(raw) > LARGEST_EVENT:
        raise Unreadable(f"it is {len(raw)} bytes long; at most {LARGEST_EVENT} are taken")
    try:
        data = json.loads(raw.decode("utf-8"))
        problems = ENVELOPE.validate(data)
    except (ValueError, RecursionError) as problem:
        raise Unreadable(f"it is not readable: {problem}") from None
    if problems:
        raise Unreadable(sentence(ValidationError(problems)))
    body = data["body"]
    schema = BODIES.get(data["kind"])
    if schema is not None:
        try:
            problems = schema.validate(body)
            canonical(body).encode("utf-8")
        except (ValueError, RecursionError) as problem:
            raise Unreadable(f"its content cannot be kept exactly: {problem}") from None
        if problems:
            raise Unreadable(sentence(ValidationError({"body": problems})))
    return Event(
        raw=raw,
        id=data["id"],
        kind=data["kind"],
        workshop=data["workshop"],
        device=data["device"],
        seq=data["seq"],
        at=data["at"],
        tz=data["tz"],
        by=data["by"],
        base=data["base"]["position"],
        base_chain=data["base"]["chain"],
        subject=data["subject"],
        via=data["via"],
        group=data["group"],
        body=body if schema is not None else None,
    )
