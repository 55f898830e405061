"""An offcut was cut: what was made of it, what is left, and what became dust."""

from __future__ import annotations

from marshmallow import Schema, ValidationError, fields, validate, validates_schema

from bucktail.sync.wire.exact import Id, Whole
from bucktail.sync.wire.shapes import LONGEST_NM, Corners

MOST_TOGETHER = 100
LARGEST_UM2 = 10**14  # 10 m x 10 m
Area = validate.Range(0, LARGEST_UM2)
Metres = validate.Range(0, LONGEST_NM)


class MadeOfIt(Schema):
    """One piece that was made: its corners in the frame of the offcut, or its length.

    `part` is null where it was not entered as a part. `length` is nm, of section stock.
    """

    part = Id(required=True, allow_none=True)
    name = fields.String(required=True, validate=validate.Length(1, 200))
    outline = Corners()
    length = Whole(validate=validate.Range(1, LONGEST_NM))


class OffcutCut(Schema):
    """The offcut is used up. `remnants` are offcuts of their own, entered together with this.

    Of sheet, area: what was made + remnants + `recycled_um2` (cut off and thrown away) +
    `dust_um2`. Of section stock, length, with `recycled_nm` and `dust_nm`. `kerf_nm` is the width
    of each cut.
    """

    made = fields.List(
        fields.Nested(MadeOfIt), required=True, validate=validate.Length(max=MOST_TOGETHER)
    )
    remnants = fields.List(Id(), required=True, validate=validate.Length(max=MOST_TOGETHER))
    kerf_nm = Whole(required=True, validate=Metres)
    dust_um2 = Whole(validate=Area)
    recycled_um2 = Whole(validate=Area)
    dust_nm = Whole(validate=Metres)
    recycled_nm = Whole(validate=Metres)

    @validates_schema
    def _dust_of_one_kind(self, data: dict[str, object], **_: object) -> None:
        if "dust_um2" not in data and "dust_nm" not in data:
            raise ValidationError("Say what became dust.", "dust_um2")
