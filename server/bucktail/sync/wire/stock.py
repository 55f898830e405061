"""Section stock on the wire: the section of angle, channel and tube, and a length of it."""

from __future__ import annotations

from marshmallow import Schema, fields, validate

from bucktail.offcuts.sections import HANDS
from bucktail.sync.wire.exact import Whole, YesNo
from bucktail.sync.wire.values import Length, one_of


class Run(Schema):
    """A length of section stock; `square_ends` of it are square and dressed (not told: none)."""

    kind = one_of(("length",), required=True)
    length = fields.Nested(Length, required=True)
    square_ends = Whole(validate=validate.Range(0, 2))


class Section(Schema):
    """The section of a length of stock; its wall is the thickness of the offcut.

    `sides`: the two legs of an angle; web and flange of a channel; the outside diameter of a tube,
    or the two outside sides of one that is `square`. `hand` is that of a worked end.
    """

    sides = fields.List(fields.Nested(Length), required=True, validate=validate.Length(1, 2))
    hand = one_of(HANDS, required=True)
    square = YesNo()
