"""A shim: the sheet that fills a gap in a rivet line."""

from __future__ import annotations

from collections.abc import Mapping

from bucktail.rules.pieces.blank import (
    CLAD,
    METAL,
    PIECE_CAUTION,
    PITCH,
    STACK,
    blank_gives,
    first_hole,
    new_stack,
    rivet_findings,
    rivet_gives,
    rivets_along,
    stock_not_above,
    usual_pitch,
)
from bucktail.rules.recording import (
    Operand,
    constant,
    floor_to,
    given,
    joined,
    operand,
    say,
    smallest,
    where,
)
from bucktail.rules.rivets import DIAMETER, HEAD
from bucktail.rules.spacing import (
    edge_for_layout,
    edge_least,
    pitch_too_close,
    pitch_too_far,
    short_of,
)
from bucktail.rules.sums import Finding, Gives, Outcome, Sum, Takes, cited, finds

SOURCES = ("shim-gap", "sheet-sizes-trade", "ac43-4-50", "edge-army", "pitch-navy", "rivet-length")


def gap_left(gap: Operand) -> Operand:
    """What stays open (nm) of a gap with the thickest sheet in it that goes in."""
    return gap - stock_not_above(gap)


def _size_findings(inputs: Mapping[str, Operand]) -> tuple[Finding, ...]:
    diameter, head = inputs["diameter"], inputs["head"]
    needed = 2 * edge_least(diameter, head)
    found = []
    for side, word in (("width", "narrow"), ("length", "short")):
        has = inputs[side]
        sentence = say(
            f"The shim is too {word} for its rivets by {{short}}: with {{edge}} to each edge it "
            "needs {needed}, it has {has}.",
            short=("length", short_of(needed, has)),
            edge=("length", edge_least(diameter, head)),
            needed=("length", needed),
            has=("length", has),
        )
        found.append(finds(has < needed, "fails", sentence))
    return tuple(found)


def _gap_findings(gap: Operand) -> tuple[Finding, ...]:
    left, thickness = gap_left(gap), stock_not_above(gap)
    slots = {"thickness": ("thickness", thickness), "left": ("thickness", left)}
    return (
        finds(
            ~given(thickness),
            "fails",
            say(
                "No listed sheet is thin enough for a gap of {gap}. Ask the maker of the kit.",
                gap=("thickness", gap),
            ),
        ),
        finds(
            left > constant("shim gap left most"),
            "check",
            say(
                "The thickest sheet that goes in is {thickness}: {left} stays open. Two shims, one "
                "on the other, or a peeled shim fill it.",
                **slots,
            ),
        ),
        finds(
            left <= constant("shim gap left most"),
            "meets",
            say("Cut it from {thickness} sheet.", thickness=("thickness", thickness)),
        ),
    )


def _shim(inputs: Mapping[str, Operand]) -> Outcome:
    diameter, head, length = inputs["diameter"], inputs["head"], inputs["length"]
    thickness = stock_not_above(inputs["gap"])
    stack = new_stack(inputs["stack"], thickness)
    edge = smallest(edge_for_layout(diameter, head), inputs["width"] / 2, length / 2)
    pitch = usual_pitch(inputs["pitch"], diameter, operand(1))
    count = rivets_along(length, edge, pitch)
    rivets = (inputs["stack"], stack, diameter, head)
    return Outcome(
        findings=(
            *_gap_findings(inputs["gap"]),
            *_size_findings(inputs),
            pitch_too_close(inputs["pitch"], diameter, operand(1)),
            *pitch_too_far(inputs["pitch"], diameter),
            *rivet_findings(*rivets),
        ),
        gives=(
            *blank_gives(thickness, length, inputs["width"], "any", count),
            Gives("rows", where(count > 0, 1), "Rows"),
            Gives("pitch_mm", pitch, "Pitch"),
            Gives("edge_mm", edge, "Edge distance to mark out"),
            Gives("first_mm", first_hole(length, count, pitch), "First hole from the end"),
            Gives("rows_at_mm", joined(floor_to(inputs["width"] / 2)), "Row, from the edge"),
            Gives("edge_min_mm", edge_least(diameter, head), "Least edge distance"),
            Gives("width_needed_mm", 2 * edge_least(diameter, head), "Least width"),
            Gives("gap_left_mm", gap_left(inputs["gap"]), "Stays open"),
            *rivet_gives(*rivets),
        ),
        source=operand(cited(*SOURCES)),
        caution=PIECE_CAUTION,
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        "shim",
        "Shim",
        "What fills this gap under the rivets?",
        (
            Takes("gap", "thickness", "Gap", ".032"),
            Takes("length", "length", "Length of the shim", "6"),
            Takes("width", "length", "Width of the shim", "5/8"),
            METAL,
            CLAD,
            STACK,
            DIAMETER,
            HEAD,
            PITCH,
        ),
        _shim,
        piece=True,
    ),
)
