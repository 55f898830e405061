"""What comes of the bench sums: pieces that have to be made, and sums kept with a thing."""

from __future__ import annotations

from marshmallow import Schema, fields, validate

from bucktail.sync.wire.exact import Id, Whole
from bucktail.sync.wire.values import Length, Long, one_of, text, whole

PIECES = ("shim", "splice", "doubler", "patch", "stiffener", "spacer", "other")
GRAINS = ("a", "b", "any")
CLADDINGS = ("clad", "bare", "unknown")


class Bend(Schema):
    """A bend line across the blank: how far from its end, by how many degrees, how tight inside."""

    at = fields.Nested(Length, required=True)
    angle = Whole(required=True, validate=validate.Range(min=1, max=180))
    radius = fields.Nested(Length, required=True)


class PieceFields(Schema):
    """A piece that is wanted. `a` and `b` are the sides of its blank; every key replaces.

    `grain` names the side along which the grain has to run.
    """

    what = one_of(PIECES)
    name = fields.String(validate=validate.Length(min=1, max=200))
    why = text(allow_none=True)
    alloy = text(allow_none=True)
    temper = text(allow_none=True)
    clad = one_of(CLADDINGS)
    thickness = fields.Nested(Length)
    a = fields.Nested(Length)
    b = fields.Nested(Length)
    grain = one_of(GRAINS)
    count = Whole(validate=validate.Range(min=1, max=10_000))
    holes = whole(allow_none=True)
    notes = fields.String(validate=Long, allow_none=True)
    for_parts = fields.List(Id(), validate=validate.Length(max=40))
    lines = fields.List(Id(), validate=validate.Length(max=40))
    bends = fields.List(fields.Nested(Bend), validate=validate.Length(max=40))


class PieceWanted(PieceFields):
    """A piece is wanted."""

    what = one_of(PIECES, required=True)
    name = fields.String(required=True, validate=validate.Length(min=1, max=200))
    clad = one_of(CLADDINGS, required=True)
    thickness = fields.Nested(Length, required=True)
    a = fields.Nested(Length, required=True)
    b = fields.Nested(Length, required=True)
    grain = one_of(GRAINS, required=True)
    count = Whole(required=True, validate=validate.Range(min=1, max=10_000))


class PieceMet(Schema):
    """The piece was made and is that part now; null: it is wanted again."""

    part = Id(required=True, allow_none=True)


def named(most: int, longest: int) -> fields.Dict:
    """At most so many texts of at most so many characters, by a short key in plain letters.

    Plain letters only, so that every reader sorts the keys alike.
    """
    return fields.Dict(
        keys=fields.String(validate=validate.Regexp(r"^[a-z][a-z0-9_]{0,39}\Z")),
        values=fields.String(validate=validate.Length(max=longest)),
        required=True,
        validate=validate.Length(max=most),
    )


class SumKept(Schema):
    """A sum with its answer, as the phone worked it out with the rules it had.

    `answer` is text: figures as decimals without an exponent, yes and no as "yes" and "no", lists
    with ", " between. `rulebook` is the version of the rules.
    """

    sum = fields.String(required=True, validate=validate.Regexp(r"^[a-z][a-z0-9_ -]{0,39}\Z"))
    inputs = named(20, 200)
    unit = one_of(("in", "mm"), required=True)
    rulebook = fields.String(required=True, validate=validate.Regexp(r"^[0-9a-f]{8,64}\Z"))
    answer = named(60, 2000)
    note = fields.String(validate=Long, allow_none=True)
