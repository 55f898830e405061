"""The shape of an offcut: a rectangle by its sides, an outline by its corners, or a length.

What is looked at here is what an event may hold at all. Whether an outline is one that metal can
have (no side crosses another, every hole lies inside) is a question for `bucktail.offcuts`.
"""

from __future__ import annotations

from typing import Any, ClassVar

from marshmallow import Schema, ValidationError, fields, validate, validates_schema

from bucktail.sync.wire.stock import Run
from bucktail.sync.wire.values import Length, one_of, text

LONGEST_NM = 10_000_000_000
MOST_POINTS = 2_000
MOST_HOLES = 100
MOST_TEXTS = 400
#: How an outline was told: by which question of the form, from a file, or left over from a cut.
WAYS = ("corner off", "ell", "triangle", "walked", "offsets", "dxf", "remnant", "keep-outs")

Ring = list[list[int]]


class Corners(fields.Field[Ring]):
    """Corners in order, each as [x, y] in whole nm from 0 to 10 m; the first is not repeated."""

    def _deserialize(self, value: Any, attr: Any, data: Any, **more: Any) -> Ring:
        if not isinstance(value, list) or not 3 <= len(value) <= MOST_POINTS:
            raise ValidationError(f"Not a list of 3 to {MOST_POINTS} corners.")
        for corner in value:
            if not isinstance(corner, list) or len(corner) != 2:
                raise ValidationError("A corner is two numbers.")
            # `True` is an int too, and 1.0 would not be kept as it was written
            if any(type(at) is not int or not 0 <= at <= LONGEST_NM for at in corner):
                raise ValidationError("A corner lies 0 to 10 m from both edges, in whole nm.")
        return value


def doubled_area(ring: Ring) -> int:
    """Twice the area in nm2; above zero for corners that follow each other counter-clockwise."""
    onward = [*ring[1:], ring[0]]
    return sum(x * v - u * y for (x, y), (u, v) in zip(ring, onward, strict=True))


class Rectangle(Schema):
    """A rectangular outline by its two sides."""

    kind = one_of(("rectangle",), required=True)
    a = fields.Nested(Length, required=True)
    b = fields.Nested(Length, required=True)


class Entered(Schema):
    """How an outline was told, so that the questions can be filled again."""

    way = one_of(WAYS, required=True)
    texts = fields.Dict(
        keys=fields.String(validate=validate.Length(1, 40)),
        values=text(),
        required=True,
        validate=validate.Length(max=MOST_TEXTS),
    )


class Outline(Schema):
    """Any outline: outer corners counter-clockwise, those of each hole clockwise.

    The x axis lies along the grain where `grain` is "a"; the lowest x and the lowest y are 0.
    """

    kind = one_of(("outline",), required=True)
    outer = Corners(required=True)
    holes = fields.List(Corners(), required=True, validate=validate.Length(max=MOST_HOLES))
    entered = fields.Nested(Entered, required=True)

    @validates_schema
    def _turned_and_placed(self, data: dict[str, Any], **_: Any) -> None:
        outer: Ring = data["outer"]
        holes: list[Ring] = data["holes"]
        if len(outer) + sum(len(hole) for hole in holes) > MOST_POINTS:
            raise ValidationError(f"More than {MOST_POINTS} corners in all.", "outer")
        if doubled_area(outer) <= 0:
            raise ValidationError("The corners are not counter-clockwise.", "outer")
        if min(x for x, _ in outer) or min(y for _, y in outer):
            raise ValidationError("The lowest x and the lowest y are not 0.", "outer")
        if any(doubled_area(hole) >= 0 for hole in holes):
            raise ValidationError("The corners of a hole are not clockwise.", "holes")


class Shape(fields.Field[dict[str, Any]]):
    """A shape of any kind; its `kind` says which."""

    kinds: ClassVar[dict[str, type[Schema]]] = {
        "rectangle": Rectangle,
        "outline": Outline,
        "length": Run,
    }

    def _deserialize(self, value: Any, attr: Any, data: Any, **more: Any) -> dict[str, Any]:
        kind = value.get("kind") if isinstance(value, dict) else None
        schema = self.kinds.get(kind) if isinstance(kind, str) else None
        if schema is None:
            raise ValidationError(f"Its kind is none of {', '.join(self.kinds)}.")
        loaded: dict[str, Any] = schema().load(value)
        return loaded
