"""A stiffener bent from sheet and riveted along one leg."""

from __future__ import annotations

from collections.abc import Mapping

from bucktail.rules.layout import head_radius
from bucktail.rules.pieces.bent import (
    GRAIN_ACROSS_BENDS,
    RADIUS,
    Bent,
    bend_gives,
    bent,
    has_bends,
    in_the_flat,
    radius_findings,
)
from bucktail.rules.pieces.blank import (
    CLAD,
    METAL,
    PIECE_CAUTION,
    PITCH,
    SHEET,
    STACK,
    blank_gives,
    first_hole,
    new_stack,
    rivet_findings,
    rivet_gives,
    rivets_along,
    usual_pitch,
)
from bucktail.rules.recording import (
    Operand,
    floor_to,
    joined,
    operand,
    say,
    smallest,
    value_at,
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
from bucktail.rules.sums import Finding, Gives, Outcome, Refusal, Sum, Takes, cited, finds, refuses

SOURCES = ("ac43-4-6", "bend-allowance", "bend-setback", "bend-grain", "edge-army", "pitch-navy")


def leg_needed(diameter: Operand, head: Operand) -> Operand:
    """Least straight part (nm) of the riveted leg: edge distance, and room for the head beside the
    bend tangent line."""
    return edge_least(diameter, head) + head_radius(diameter, head)


def row_at(straight: Operand, diameter: Operand, head: Operand) -> Operand:
    """Where the row lies (nm from the free edge of the first leg): at the edge distance to mark
    out, or less where the head would stand in the bend. None where the leg is too narrow."""
    beside_bend = value_at(straight, 0) - head_radius(diameter, head)
    fits = beside_bend >= edge_least(diameter, head)
    return where(fits, floor_to(smallest(edge_for_layout(diameter, head), beside_bend)))


def _leg_findings(inputs: Mapping[str, Operand], piece: Bent) -> tuple[Finding, ...]:
    diameter, head = inputs["diameter"], inputs["head"]
    needed, has = leg_needed(diameter, head), value_at(piece.straight, 0)
    return (
        finds(
            smallest(piece.straight) <= 0,
            "fails",
            "A leg is shorter than its bends take. Make it longer, or the radius less.",
        ),
        finds(
            (has > 0) & (has < needed),
            "fails",
            say(
                "The riveted leg is too narrow by {short}: its straight part of {has} needs "
                "{needed} for edge distance and head.",
                short=("length", short_of(needed, has)),
                has=("length", has),
                needed=("length", needed),
            ),
        ),
        finds(
            has >= needed,
            "meets",
            "Lay it out with the grain across the bends where the sheet allows.",
        ),
    )


def _row_findings(inputs: Mapping[str, Operand]) -> tuple[Finding, ...]:
    diameter, length = inputs["diameter"], inputs["length"]
    needed = 2 * edge_least(diameter, inputs["head"])
    return (
        finds(
            length < needed,
            "fails",
            say(
                "The stiffener is too short for its rivets by {short}: with {edge} to each end it "
                "needs {needed}, it has {has}.",
                short=("length", short_of(needed, length)),
                edge=("length", edge_least(diameter, inputs["head"])),
                needed=("length", needed),
                has=("length", length),
            ),
        ),
        pitch_too_close(inputs["pitch"], diameter, operand(1)),
        *pitch_too_far(inputs["pitch"], diameter),
    )


def _refused(legs: Operand) -> tuple[Refusal, ...]:
    return (
        refuses(
            ~has_bends(legs), "legs", "One leg has no bend. Give two or more, for example 5/8,5/8."
        ),
    )


def _stiffener(inputs: Mapping[str, Operand]) -> Outcome:
    diameter, head, thickness = inputs["diameter"], inputs["head"], inputs["thickness"]
    legs, length = inputs["legs"], inputs["length"]
    piece = bent(legs, thickness, inputs["alloy"], inputs["radius"])
    pitch = usual_pitch(inputs["pitch"], diameter, operand(1))
    edge = smallest(edge_for_layout(diameter, head), length / 2)
    count = rivets_along(length, edge, pitch)
    rivets = (inputs["stack"], new_stack(inputs["stack"], thickness), diameter, head)
    return Outcome(
        findings=(
            *radius_findings(inputs["alloy"], thickness, legs, piece.radius),
            *_leg_findings(inputs, piece),
            *_row_findings(inputs),
            *rivet_findings(*rivets),
        ),
        gives=(
            *blank_gives(thickness, length, in_the_flat(piece), GRAIN_ACROSS_BENDS, count),
            *bend_gives(piece),
            Gives("rows", where(count > 0, 1), "Rows"),
            Gives("pitch_mm", pitch, "Pitch"),
            Gives("first_mm", first_hole(length, count, pitch), "First hole from the end"),
            Gives("rows_at_mm", _one(row_at(piece.straight, diameter, head)), "Row, from the edge"),
            Gives("edge_mm", edge, "Edge distance to mark out"),
            Gives("edge_min_mm", edge_least(diameter, head), "Least edge distance"),
            *rivet_gives(*rivets),
        ),
        source=operand(cited(*SOURCES)),
        caution=PIECE_CAUTION,
        refusals=_refused(legs),
    )


def _one(place: Operand) -> Operand:
    return where(place > 0, joined(place))


SUMS: tuple[Sum, ...] = (
    Sum(
        "stiffener",
        "Stiffener",
        "What blank makes this stiffener?",
        (
            Takes("legs", "lengths", "Legs, outside, the riveted one first", "5/8,5/8"),
            Takes("length", "length", "Length", "12"),
            SHEET,
            METAL,
            CLAD,
            STACK,
            DIAMETER,
            HEAD,
            RADIUS,
            PITCH,
        ),
        _stiffener,
        piece=True,
    ),
)
