"""Reading one event from its bytes: envelope first, then the body if its kind is known."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

from marshmallow import Schema, ValidationError, fields, validate

from bucktail.events.envelope import LARGEST, Event, Unreadable, canonical
from bucktail.sync.wire.bodies import KINDS
from bucktail.sync.wire.exact import Id, Whole

#: An event is small; photos travel by themselves.
LARGEST_EVENT = 64 * 1024


class Seen(Schema):
    """What the phone had seen of the workshop's record when it wrote."""

    position = Whole(required=True, validate=validate.Range(0, LARGEST))
    chain = fields.String(required=True, validate=validate.Regexp(r"^([0-9a-f]{64})?\Z"))


class Envelope(Schema):
    """The envelope of every event, of whatever kind."""

    id = Id(required=True)
    kind = fields.String(required=True, validate=validate.Regexp(r"^[a-z]+\.[a-z]+\.v[0-9]{1,3}\Z"))
    workshop = Id(required=True)
    device = Id(required=True)
    seq = Whole(required=True, validate=validate.Range(1, LARGEST))
    at = Whole(required=True, validate=validate.Range(0, LARGEST))
    # a name of the IANA time zone database
    tz = fields.String(required=True, validate=validate.Regexp(r"^[A-Za-z0-9_+/-]{1,64}\Z"))
    by = Id(required=True)
    base = fields.Nested(Seen, required=True)
    subject = Id(required=True)
    via = fields.String(
        required=True, allow_none=True, validate=validate.Regexp(r"^[A-Za-z0-9]{1,16}\Z")
    )
    group = Id(required=True, allow_none=True)
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
    told = "; ".join(lines)[:400]
    return told.encode("utf-8", "backslashreplace").decode("utf-8")


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
    event = _event(raw, data)
    schema = BODIES.get(event.kind)
    if schema is None:
        return event
    try:
        problems = schema.validate(data["body"])
        canonical(data["body"]).encode("utf-8")
    except (ValueError, RecursionError) as problem:
        raise Unreadable(f"its content cannot be kept exactly: {problem}", event) from None
    if problems:
        raise Unreadable(sentence(ValidationError({"body": problems})), event)
    return replace(event, body=data["body"])


def _event(raw: bytes, data: dict[str, Any]) -> Event:
    """The envelope in `data`, its body left out."""
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
        body=None,
    )
