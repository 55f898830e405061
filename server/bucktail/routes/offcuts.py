"""Where to cut a blank from an offcut, and which offcuts serve for a blank of any shape.

The geometry is loaded with the first question, so that starting the server stays quick.
"""

from __future__ import annotations

import time
from typing import TYPE_CHECKING, Any

from flask import Blueprint, Response, jsonify, request
from marshmallow import Schema, ValidationError, fields, validate

from bucktail.offcuts.material import CLADDINGS
from bucktail.routes.errors import Refused
from bucktail.routes.guard import database
from bucktail.storage import stock as stored
from bucktail.storage.tables import Session
from bucktail.sync.wire.exact import Id, Whole
from bucktail.sync.wire.reading import sentence
from bucktail.sync.wire.shapes import LONGEST_NM, MOST_HOLES, Corners
from bucktail.sync.wire.values import one_of, text

if TYPE_CHECKING:
    from bucktail.offcuts.fitting.curve import Curve
    from bucktail.offcuts.laying import Blank, Ground, WantedGrain
    from bucktail.offcuts.outline import Outline
    from bucktail.offcuts.placing import Place
    from bucktail.offcuts.stock import MetalWanted
    from bucktail.offcuts.worth import Size

offcuts = Blueprint("offcuts", __name__)

GRAINS = ("any", "along width", "along height")
#: A search for a blank ends after this long (s), and lists so many that serve.
LONGEST_S, MOST_LISTED = 8.0, 12
MOST_CLEARANCE_NM = 100_000_000
SIDE = validate.Range(1, LONGEST_NM)
CLEARANCE = validate.Range(0, MOST_CLEARANCE_NM)


class PlaceAsked(Schema):
    """A rectangle to be cut from one offcut."""

    offcut = Id(required=True)
    width_nm = Whole(required=True, validate=SIDE)
    height_nm = Whole(required=True, validate=SIDE)
    grain = one_of(GRAINS, load_default="any")
    clearance_nm = Whole(load_default=0, validate=CLEARANCE)
    kerf_nm = Whole(load_default=0, validate=CLEARANCE)


class BlankAsked(Schema):
    """A blank of any shape; its width lies along x. The metal: null or nothing said takes any."""

    outer = Corners(required=True)
    holes = fields.List(Corners(), load_default=list, validate=validate.Length(max=MOST_HOLES))
    grain = one_of(GRAINS, load_default="any")
    clearance_nm = Whole(load_default=0, validate=CLEARANCE)
    alloy = text(load_default=None, allow_none=True)
    temper = text(load_default=None, allow_none=True)
    clad = one_of((*CLADDINGS, "any"), load_default="any")
    thickness_nm = Whole(load_default=None, allow_none=True, validate=SIDE)
    structure = fields.Boolean(load_default=True)
    wanted_for = Id(load_default=None, allow_none=True)


def asked_for(schema: Schema, word: str) -> dict[str, Any]:
    """What a request asks; refused with a sentence where it is not well formed."""
    told = request.get_json(silent=True)
    if not isinstance(told, dict):
        raise Refused(422, word, "Say what is asked as a JSON object.")
    try:
        asked: dict[str, Any] = schema.load(told)
    except ValidationError as problem:
        raise Refused(422, word, sentence(problem)) from None
    return asked


@offcuts.post("/api/offcuts/place")
def place() -> Response:
    """Where to cut a rectangle from one offcut: the best place and a second one elsewhere.

    Answers {"placements": [{"corners", "angle_udeg", "left_um2", "keeps", "of", "reason"}]}, none
    where the rectangle does not fit. The first corner to the second is its width.
    """
    asked = asked_for(PlaceAsked(), "place")
    session = database()
    state, sizes = _offcut(session, asked["offcut"]), _sizes(session)
    curve = _curve(session, state)
    session.rollback()
    from bucktail.offcuts.laying import Blank, Ground, turns_allowed
    from bucktail.offcuts.outline import Outline
    from bucktail.offcuts.placing import best_places
    from bucktail.offcuts.stock import grain_of

    turns = turns_allowed(grain_of(state), asked["grain"])
    if turns == ():
        raise Refused(
            422, "grain", "The grain of this offcut is not known. Say it on the offcut first."
        )
    metal = _metal(state)
    w, h = asked["width_nm"], asked["height_nm"]
    blank = Blank(Outline(((0, 0), (w, 0), (w, h), (0, h))), asked["clearance_nm"])
    found = best_places(Ground(metal), blank, sizes, turns, asked["kerf_nm"], curve)
    placements = [_told(one) for one in found] or _exactly(state, asked)
    return jsonify({"placements": placements})


def _told(one: Place) -> dict[str, Any]:
    return {
        "corners": one.lying.ring,
        "angle_udeg": one.lying.angle,
        "left_um2": one.left_um2,
        "keeps": one.keeps,
        "of": one.fitted,
        "reason": one.reason,
    }


def _exactly(state: dict[str, Any], asked: dict[str, Any]) -> list[dict[str, Any]]:
    """A rectangle in a rectangle that it fills to the last hair: no other place to choose from."""
    from bucktail.offcuts import rectangle

    shape = state["shape"]
    if shape["kind"] != "rectangle":
        return []
    a, b = shape["a"]["nm"], shape["b"]["nm"]
    way: rectangle.Way = "any"
    if asked["grain"] != "any":
        square = (asked["grain"] == "along width") == (state["grain"] == "a")
        way = "width along a" if square else "width along b"
    w, h = asked["width_nm"], asked["height_nm"]
    found = rectangle.place(w, h, a, b, asked["clearance_nm"], way)
    if found is None:
        return []
    left = found.left[0] * found.left[1] // 1_000_000
    return [
        {
            "corners": found.corners,
            "angle_udeg": found.tenths * 100_000,
            "left_um2": left,
            "keeps": 0,
            "of": 0,
            "reason": "It fits this one way only.",
        }
    ]


def _offcut(session: Session, offcut: str) -> dict[str, Any]:
    """The state of an offcut that can be cut. Refused where it is not known or not whole."""
    from bucktail.offcuts.stock import out_of_stock

    known = stored.offcuts(session)
    state = known.get(offcut)
    if state is None:
        raise Refused(404, "unknown", "This offcut has not reached the workshop computer yet.")
    why = out_of_stock(offcut, state, known.get(state.get("parent") or ""))
    if why:
        raise Refused(409, "not to be cut", f"Nothing is cut from this offcut now: {why}.")
    return state


def _metal(state: dict[str, Any]) -> Outline:
    from bucktail.offcuts.stock import outline_of

    metal = outline_of(state)
    if metal is None:
        raise Refused(
            422, "outline", "The outline of this offcut is not sound. Measure its sides again."
        )
    return metal


def _sizes(session: Session) -> list[Size]:
    from bucktail.offcuts.worth import Size

    return [Size(*size) for size in stored.sizes_asked(session)]


def _curve(session: Session, state: dict[str, Any]) -> Curve | None:
    from bucktail.offcuts.fitting.curve import Curve

    told = stored.curve_text(session, state.get("shape_from"))
    try:
        return Curve.from_json(told) if told else None
    except (ValueError, KeyError):  # it says why there is none
        return None


@offcuts.post("/api/offcuts/blank")
def blank() -> Response:
    """Which offcuts serve for a blank of any shape, the smallest first, with a place on each.

    Answers {"serves": [{"offcut", "ring", "angle_udeg", "area_um2"}], "searched", "metal", "left"}:
    how many offcuts were looked at, how many of those had the right metal, and how many were not
    looked at, because time was up or enough were found.
    """
    asked = asked_for(BlankAsked(), "blank")
    from bucktail.offcuts.laying import Blank
    from bucktail.offcuts.outline import OutlineFaulty, outline
    from bucktail.offcuts.stock import MetalWanted, outline_of

    try:
        wanted = Blank(outline(asked["outer"], asked["holes"]), asked["clearance_nm"])
    except OutlineFaulty as problem:
        raise Refused(422, problem.faults[0].code, f"The blank: {problem}") from None
    session = database()
    known = stored.offcuts(session)
    clad = None if asked["clad"] == "any" else asked["clad"]
    metal = MetalWanted(
        asked["alloy"], asked["temper"], clad, asked["thickness_nm"], asked["structure"]
    )
    suiting = [one for one in known if not _why_not(one, known, metal, asked["wanted_for"])]
    sound = [(one, outline_of(known[one])) for one in suiting]
    grounds = sorted(
        ((one, found) for one, found in sound if found), key=lambda pair: pair[1].area_um2
    )
    curves = {one: _curve(session, known[one]) for one, _ in grounds}
    session.rollback()
    serves, looked = _serving(grounds, known, curves, wanted, asked["grain"])
    return jsonify(
        {
            "serves": serves,
            "searched": len(known),
            "metal": len(grounds),
            "left": len(grounds) - looked,
        }
    )


def _serving(
    grounds: list[tuple[str, Outline]],
    known: dict[str, dict[str, Any]],
    curves: dict[str, Curve | None],
    wanted: Blank,
    grain: WantedGrain,
) -> tuple[list[dict[str, Any]], int]:
    """Those that serve, and how many were looked at."""
    from bucktail.offcuts.blanks import lay
    from bucktail.offcuts.laying import Ground, turns_allowed
    from bucktail.offcuts.stock import grain_of

    end = time.monotonic() + LONGEST_S
    serves: list[dict[str, Any]] = []
    for looked, (one, metal) in enumerate(grounds):
        if len(serves) == MOST_LISTED or time.monotonic() > end:
            return serves, looked
        turns = turns_allowed(grain_of(known[one]), grain)
        ground: Ground = Ground(metal)
        found = lay(ground, wanted, turns, curves[one])
        if found is not None:
            serves.append(
                {
                    "offcut": one,
                    "ring": found.ring,
                    "angle_udeg": found.angle,
                    "area_um2": metal.area_um2,
                }
            )
    return serves, len(grounds)


def _why_not(
    one: str, known: dict[str, dict[str, Any]], metal: MetalWanted, wanted_for: str | None
) -> str:
    from bucktail.offcuts.stock import out_of_stock, reservation, why_not_metal

    state = known[one]
    held, words = reservation(state)
    if held is not None and (not held or held != wanted_for):
        return f"reserved for {words}"
    gone = out_of_stock(one, state, known.get(state.get("parent") or ""))
    return gone or why_not_metal(state, metal)
