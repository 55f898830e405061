"""Rivet lines: what they join, what fills their holes, and where along them the stack changes."""

from __future__ import annotations

from marshmallow import Schema, fields, validate

from bucktail.sync.wire.exact import Id, Whole, YesNo
from bucktail.sync.wire.values import Length, one_of, text, whole

#: A rivet's length in halves of its dash number, which counts sixteenths of an inch: -3.5 is 7.
Dash = validate.Range(min=1, max=200)


class LeftOpen(Schema):
    """Holes left open on purpose, and what will fill them."""

    n = whole(required=True)
    fills = text(required=True)


class Fastener(Schema):
    """What fills the holes of a line."""

    kind = one_of(("rivet", "pulled rivet", "nut plate", "bolt", "screw"), required=True)
    text = text(required=True)


class Layer(Schema):
    """One layer of a joint, counted from the factory head."""

    part = Id(required=True)
    thickness = fields.Nested(Length, allow_none=True)
    treat = one_of(("plain", "dimple", "countersink"), required=True)


class LineSet(Schema):
    """A rivet line as a whole: the layers of the joint in order from the factory head."""

    name = text(required=True)
    assembly = Id(allow_none=True)
    count = whole(allow_none=True, required=True)
    supplied = one_of(("none", "pilot", "final"), required=True)
    head = one_of(("protruding", "flush"), required=True)
    fastener = fields.Nested(Fastener, required=True)
    layers = fields.List(fields.Nested(Layer), required=True, validate=validate.Length(1, 12))
    open = fields.List(fields.Nested(LeftOpen), required=True)


class Segment(Schema):
    """Holes of a line that share one stack. Its rivets wait where `confirmed` is false.

    `dash` and `was_dash` are a rivet's length in halves of its dash number: -3.5 is 7.
    """

    name = text(required=True)
    count = whole(allow_none=True, required=True)
    layers = fields.List(fields.Nested(Layer), required=True, validate=validate.Length(1, 12))
    fastener = fields.Nested(Fastener, required=True)
    dash = Whole(required=True, allow_none=True, validate=Dash)
    was_dash = Whole(required=True, allow_none=True, validate=Dash)
    confirmed = YesNo(required=True)


class LineSegments(Schema):
    """Where along a line the stack changes; replaces the whole. None: one stack all along."""

    segments = fields.List(fields.Nested(Segment), required=True, validate=validate.Length(max=40))
