"""The body of every kind of event this version knows. A kind's shape never changes once used."""

from __future__ import annotations

from marshmallow import Schema, ValidationError, fields, validate

from bucktail.events.findings import CARRIES_OUT, DECISIONS, NO_FAULT
from bucktail.offcuts.material import FORMS
from bucktail.parts.operations import CHANGES, SIDES, operations
from bucktail.sync.wire.cut import OffcutCut
from bucktail.sync.wire.exact import Id, Whole, YesNo
from bucktail.sync.wire.joints import LeftOpen, LineSegments, LineSet
from bucktail.sync.wire.reckoned import PieceFields, PieceMet, PieceWanted, SumKept
from bucktail.sync.wire.shapes import Shape
from bucktail.sync.wire.stock import Section
from bucktail.sync.wire.values import Length, Long, one_of, text, whole
from bucktail.tags.code import check, is_code

OPS = tuple(row.op for row in operations())


def _code(text: str) -> None:
    if not is_code(text):
        raise ValidationError(f"{text!r} is not a tag code: {check(text).sentence}")


class PartFields(Schema):
    """What is known of a part. Every key given replaces what stood there."""

    name = text()
    number = text(allow_none=True)
    assembly = Id(allow_none=True)
    pieces = Whole(validate=validate.Range(min=1, max=100_000))
    hand = one_of(("left", "right"), allow_none=True)
    twin = Id(allow_none=True)
    station = text(allow_none=True)
    material = text(allow_none=True)
    thickness = fields.Nested(Length, allow_none=True)
    note = fields.String(validate=Long, allow_none=True)


class PartAdded(PartFields):
    """A part, or a bag of like parts, is entered."""

    name = fields.String(required=True, validate=validate.Length(min=1, max=200))


class SplitOff(Schema):
    """A part taken out of a bag."""

    id = Id(required=True)
    pieces = Whole(required=True, validate=validate.Range(min=1, max=100_000))


class PartSplit(Schema):
    """Pieces were taken out of a bag to be parts of their own."""

    into = fields.List(fields.Nested(SplitOff), required=True, validate=validate.Length(1, 200))


class Holes(Schema):
    """The holes of a part: how many (null: not counted) and how they came."""

    count = whole(allow_none=True, required=True)
    supplied = one_of(("none", "pilot", "final"), required=True)


class StepsSet(Schema):
    """What this part needs; replaces the whole. Keys of ops: an operation, or operation:side."""

    template = text(required=True)
    ops = fields.Dict(
        keys=one_of(OPS + tuple(f"{op}:{side}" for op in OPS for side in SIDES)),
        values=one_of(("do", "not", "bare")),
        required=True,
    )
    holes = fields.Nested(Holes, required=True)
    open = fields.List(fields.Nested(LeftOpen), required=True)
    along_lines = YesNo(required=True)
    final_after_dimple = YesNo(required=True)
    die = text(allow_none=True, required=True)
    window_h = whole(allow_none=True, required=True)


class StepRecorded(Schema):
    """The result of an operation on a target, absolute, never an increment."""

    op = one_of(OPS, required=True)
    result = one_of(("all", "some", "none"), required=True)
    done = whole(allow_none=True, required=True)
    of = whole(allow_none=True, required=True)
    open = fields.List(fields.Nested(LeftOpen))
    layer = Id(allow_none=True)
    sides = fields.List(one_of(SIDES), validate=validate.Length(1, 2))
    die = text(allow_none=True)
    lot = text(allow_none=True)
    coats = whole(allow_none=True)
    looked = YesNo()
    note = fields.String(validate=Long)


class MetalChanged(Schema):
    """The metal itself was changed outside the usual steps."""

    change = one_of(CHANGES, required=True)
    holes = whole(allow_none=True)
    note = fields.String(validate=Long)


class ThingMoved(Schema):
    """A thing lies somewhere else now (null: nowhere that is known)."""

    to = Id(required=True, allow_none=True)


class ThingRetired(Schema):
    """A thing leaves the lists."""

    why = one_of(("entered by mistake", "scrapped", "merged into"), required=True)
    into = Id(allow_none=True)


class PlaceFields(Schema):
    """A place, or an assembly: a place that moves with what is in it."""

    name = text()
    form = one_of(("room", "shelf", "rack", "bin", "box", "bench", "assembly", "other"))
    note = fields.String(validate=Long, allow_none=True)


class PlaceAdded(PlaceFields):
    """A place is entered."""

    name = fields.String(required=True, validate=validate.Length(min=1, max=200))


class OffcutFields(Schema):
    """Leftover stock. Thickness is of the bare metal only where `measured` says so."""

    name = text(allow_none=True)
    alloy = text(allow_none=True)
    temper = text(allow_none=True)
    clad = one_of(("clad", "bare", "unknown"))
    form = one_of(FORMS)
    section = fields.Nested(Section)
    thickness = fields.Nested(Length)
    measured = one_of(("bare", "over film"))
    known_by = one_of(("mill marking", "tagged stock", "kit part", "unknown"))
    shape = Shape()
    grain = one_of(("a", "b", "unknown"))
    note = fields.String(validate=Long, allow_none=True)


class OffcutAdded(OffcutFields):
    """An offcut is entered."""

    clad = one_of(("clad", "bare", "unknown"), required=True)
    thickness = fields.Nested(Length, required=True)
    measured = one_of(("bare", "over film"), required=True)
    known_by = one_of(("mill marking", "tagged stock", "kit part", "unknown"), required=True)
    shape = Shape(required=True)
    grain = one_of(("a", "b", "unknown"), required=True)
    parent = Id()  # the offcut that it was cut from


class OffcutReserved(Schema):
    """An offcut is spoken for; null gives it free."""

    text = text(required=True, allow_none=True)
    part = Id(allow_none=True)


class PhotoAttached(Schema):
    """A photo of the thing, named by the SHA-256 of its bytes."""

    photo = fields.String(required=True, validate=validate.Regexp(r"^[0-9a-f]{64}\Z"))
    size = Whole(required=True, validate=validate.Range(1, 20_000_000))
    caption = text(allow_none=True)


class PhotoRemoved(Schema):
    """A photo is no longer shown; its bytes stay in the record."""

    photo = fields.String(required=True, validate=validate.Regexp(r"^[0-9a-f]{64}\Z"))


class TagPrinted(Schema):
    """A run of blank tags was made; the subject is the run."""

    codes = fields.List(
        fields.String(validate=_code), required=True, validate=validate.Length(1, 500)
    )


class TagAttached(Schema):
    """A printed tag is on the subject from now on."""

    code = fields.String(required=True, validate=_code)
    on = one_of(("film", "metal", "tied", "bag"), required=True)


class TagReplaced(Schema):
    """A tag is no longer the one to use; scanning it still finds the thing."""

    old = fields.String(required=True, validate=_code)
    new = fields.String(validate=_code, allow_none=True)


class EventWithdrawn(Schema):
    """One earlier entry about the same subject is taken back."""

    event = Id(required=True)


class AnswerSettled(Schema):
    """A person settled which thing a tag belongs to."""

    code = fields.String(required=True, validate=_code)
    holds = YesNo(required=True)


class FindingOpened(Schema):
    """Something is wrong, or looks wrong, about a part."""

    on = Id(required=True)
    what = text(required=True)
    op = one_of(OPS, allow_none=True)
    note = fields.String(validate=Long, allow_none=True)


class FindingDecided(Schema):
    """What is to become of it, and who said so: a named person or body, or null."""

    decision = one_of(DECISIONS, required=True)
    who = text(required=True, allow_none=True)
    what = fields.String(validate=Long, allow_none=True)


class FindingClosed(Schema):
    """It is dealt with, as the entry `decision` says; `evidence` names what shows it."""

    outcome = one_of((*CARRIES_OUT, NO_FAULT), required=True)
    decision = Id(required=True, allow_none=True)
    evidence = fields.String(required=True, validate=Long, allow_none=True)


KINDS: dict[str, type[Schema]] = {
    "part.added.v1": PartAdded,
    "part.described.v1": PartFields,
    "part.split.v1": PartSplit,
    "steps.set.v1": StepsSet,
    "line.set.v1": LineSet,
    "line.segments.v1": LineSegments,
    "step.recorded.v1": StepRecorded,
    "metal.changed.v1": MetalChanged,
    "thing.moved.v1": ThingMoved,
    "thing.retired.v1": ThingRetired,
    "place.added.v1": PlaceAdded,
    "place.described.v1": PlaceFields,
    "offcut.added.v1": OffcutAdded,
    "offcut.described.v1": OffcutFields,
    "offcut.reserved.v1": OffcutReserved,
    "offcut.cut.v1": OffcutCut,
    "photo.attached.v1": PhotoAttached,
    "photo.removed.v1": PhotoRemoved,
    "tag.printed.v1": TagPrinted,
    "tag.attached.v1": TagAttached,
    "tag.replaced.v1": TagReplaced,
    "event.withdrawn.v1": EventWithdrawn,
    "answer.settled.v1": AnswerSettled,
    "finding.opened.v1": FindingOpened,
    "finding.decided.v1": FindingDecided,
    "finding.closed.v1": FindingClosed,
    "piece.wanted.v1": PieceWanted,
    "piece.described.v1": PieceFields,
    "piece.met.v1": PieceMet,
    "sum.kept.v1": SumKept,
}
