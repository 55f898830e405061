"""Reading one event from its bytes: one form of every value, and a sentence for all else."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as some
from marshmallow import Schema, fields

from bucktail.events.envelope import LARGEST, Unreadable, canonical
from bucktail.sync.wire import bodies
from bucktail.sync.wire.bodies import KINDS
from bucktail.sync.wire.exact import Id, Whole, YesNo
from bucktail.sync.wire.reading import LARGEST_EVENT, Envelope, read_event
from bucktail.sync.wire.shapes import Corners, Shape
from running.bodies import uuid_of
from running.histories import History
from running.pen import Pen, raw

PEN = Pen(uuid_of(1))
PART = PEN.part()
STEPS: dict[str, Any] = {
    "template": "skin",
    "ops": {"film": "do"},
    "holes": {"count": 20, "supplied": "pilot"},
    "open": [],
    "along_lines": True,
    "final_after_dimple": False,
    "die": None,
    "window_h": 8,
}


def why(data: bytes | dict[str, Any]) -> str:
    """The sentence with which an event is not taken up."""
    text = data if isinstance(data, bytes) else json.dumps(data).encode()
    with pytest.raises(Unreadable) as caught:
        read_event(text)
    sentence = str(caught.value)
    assert sentence
    assert sentence.encode("utf-8")  # it can be kept and shown
    return sentence


def test_an_event_is_read_whole() -> None:
    event = read_event(raw({**PART, "via": "ABCDEFGH12", "base": {"position": 7, "chain": ""}}))
    assert (event.kind, event.seq, event.base, event.via) == (
        "part.added.v1",
        PART["seq"],
        7,
        "ABCDEFGH12",
    )
    assert event.body == {"name": "Rib 4"}
    assert event.raw == raw({**PART, "via": "ABCDEFGH12", "base": {"position": 7, "chain": ""}})


def test_the_body_of_a_kind_that_is_not_known_is_not_looked_at() -> None:
    event = read_event(json.dumps({**PART, "kind": "any.thing.v9", "body": {"x": 1.5}}).encode())
    assert event.body is None


@pytest.mark.parametrize(
    "wrong",
    [
        {"id": "ABCDEF00-0000-7000-8000-000000000001"},
        {"id": "{" + PART["id"] + "}"},
        {"id": PART["id"].replace("-", "")},
        {"id": PART["id"] + "\n"},
        {"subject": None},
        {"device": 7},
        {"seq": 0},
        {"seq": "1"},
        {"seq": 1.5},
        {"seq": True},
        {"at": -1},
        {"at": LARGEST + 1},
        {"kind": "part.added.v1\n"},
        {"kind": "Part.Added.v1"},
        {"kind": "part.added"},
        {"tz": ""},
        {"tz": "Europe/\ud800"},
        {"via": "\ud800"},
        {"via": "A" * 17},
        {"base": {"position": 1}},
        {"base": {"position": 1, "chain": "AB" * 32}},
        {"base": None},
        {"group": "together"},
        {"body": []},
        {"body": None},
        {"surprise": 1},
    ],
)
def test_an_envelope_is_in_one_form_only(wrong: dict[str, Any]) -> None:
    assert next(iter(wrong)) in why({**PART, **wrong})


@pytest.mark.parametrize("field", list(Envelope().fields))
def test_no_part_of_an_envelope_may_be_missing(field: str) -> None:
    assert field in why({key: value for key, value in PART.items() if key != field})


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("part.added.v1", {}),
        ("part.added.v1", {"name": ""}),
        ("part.added.v1", {"name": 7}),
        ("part.added.v1", {"name": "x" * 201}),
        ("part.added.v1", {"name": "x", "colour": "red"}),
        ("part.added.v1", {"name": "half a sign \ud83d"}),
        ("part.added.v1", {"name": "x", "pieces": True}),
        ("part.added.v1", {"name": "x", "pieces": 2.0}),
        ("part.added.v1", {"name": "x", "twin": uuid_of(0xABC).upper()}),
        ("part.added.v1", {"name": "x", "thickness": {"nm": 1.5, "text": "t"}}),
        ("steps.set.v1", {**STEPS, "along_lines": 1}),
        ("steps.set.v1", {**STEPS, "along_lines": "yes"}),
        ("steps.set.v1", {**STEPS, "ops": {"polish": "do"}}),
        ("steps.set.v1", {**STEPS, "ops": {"film": "maybe"}}),
        ("steps.set.v1", {**STEPS, "holes": {"count": -1, "supplied": "none"}}),
        ("tag.attached.v1", {"code": "AAAAAAAAAA", "on": "film"}),
        ("photo.attached.v1", {"photo": "AB" * 32, "size": 1}),
    ],
)
def test_a_body_is_in_one_form_only(kind: str, body: dict[str, Any]) -> None:
    event = {**PART, "kind": kind, "body": body}
    with pytest.raises(Unreadable) as caught:
        read_event(json.dumps(event).encode())
    # the envelope could be read, so that its group and workshop are known
    assert caught.value.event is not None
    assert caught.value.event.id == PART["id"]
    assert "body" in str(caught.value) or "content" in str(caught.value)


def test_steps_as_written_are_read() -> None:
    assert read_event(raw({**PART, "kind": "steps.set.v1", "body": STEPS})).body == STEPS


@pytest.mark.parametrize(
    "text",
    [
        b"",
        b"null",
        b"[]",
        b'"text"',
        b"{",
        b"\xff",
        b"\xef\xbb\xbf{}",
        b'{"seq":NaN}',
        b'{"seq":' + b"9" * 5000 + b"}",
        b"[" * 40_000,
        b'{"a":' * 9_000 + b"1" + b"}" * 9_000,
    ],
    ids=lambda text: repr(text[:12]),
)
def test_what_is_no_event_is_told_so(text: bytes) -> None:
    why(text)


def test_a_body_nested_without_end_is_told_so() -> None:
    text = raw({**PART, "body": {}}).decode()
    deep = text.replace('"body":{}', '"body":{"name":' + "[" * 900 + "]" * 900 + "}")
    why(deep.encode())


def test_an_event_is_small() -> None:
    long = {**PART, "kind": "any.thing.v1", "body": {"x": "y" * LARGEST_EVENT}}
    assert "at most 65536" in why(long)


@given(some.binary(max_size=200) | some.text(max_size=200).map(str.encode))
def test_any_bytes_give_an_event_or_a_sentence(data: bytes) -> None:
    try:
        read_event(data)
    except Unreadable as problem:
        assert str(problem)


@given(
    some.sampled_from(sorted(KINDS)),
    some.recursive(
        some.none() | some.booleans() | some.floats() | some.integers() | some.text(max_size=9),
        lambda inner: (
            some.lists(inner, max_size=3)
            | some.dictionaries(some.text(max_size=9) | some.sampled_from(["name", "op"]), inner)
        ),
        max_leaves=9,
    ),
)
def test_any_body_gives_an_event_or_a_sentence(kind: str, body: Any) -> None:
    text = json.dumps({**PART, "kind": kind, "body": body}).encode()
    try:
        event = read_event(text)
    except Unreadable as problem:
        assert str(problem).encode("utf-8")
    else:
        canonical(event.body)


def test_the_bodies_of_the_histories_are_read() -> None:
    for seed in range(40):
        for fact in History(seed).facts:
            if "body" in fact:
                event = {**PART, "kind": fact["kind"], "body": fact["body"]}
                assert read_event(raw(event)).body == fact["body"]


def fields_below(schema: Schema, seen: set[type[Schema]]) -> Iterator[fields.Field[Any]]:
    """Every field of a schema, and of those inside it."""
    if type(schema) in seen:
        return
    seen.add(type(schema))
    waiting: list[Any] = list(schema.fields.values())
    while waiting:
        field = waiting.pop()
        yield field
        if isinstance(field, fields.List):
            waiting.append(field.inner)
        elif isinstance(field, fields.Dict):
            waiting += filter(None, [field.key_field, field.value_field])
        elif isinstance(field, fields.Nested):
            yield from fields_below(field.schema, seen)
        elif isinstance(field, Shape):
            for kind in field.kinds.values():
                yield from fields_below(kind(), seen)


def test_no_schema_uses_a_field_that_takes_a_value_in_several_forms() -> None:
    seen: set[type[Schema]] = set()
    allowed = (fields.String, Id, Whole, YesNo, fields.Nested, fields.List, fields.Dict)
    allowed += (Shape, Corners)
    for schema in [Envelope(), *(made() for made in KINDS.values())]:
        for field in fields_below(schema, seen):
            assert isinstance(field, allowed), f"{type(schema).__name__}.{field.name}"
            assert not isinstance(field, fields.UUID)
            assert type(field) is not fields.Integer
            assert type(field) is not fields.Boolean
    assert len(seen) > len(KINDS)


def test_every_schema_of_a_body_belongs_to_a_kind_or_stands_inside_one() -> None:
    seen: set[type[Schema]] = set()
    for made in KINDS.values():
        list(fields_below(made(), seen))
    named = {
        found
        for found in vars(bodies).values()
        if isinstance(found, type) and issubclass(found, Schema) and found is not Schema
    }
    bases = {base for one in seen for base in one.__mro__}
    assert named <= bases
