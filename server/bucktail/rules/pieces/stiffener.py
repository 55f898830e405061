"""A stiffener bent from sheet and riveted along one leg."""

from __future__ import annotations

from collections.abc import Mapping

from bucktail.rules.bends import bend_allowance, bend_ends, developed_width, flats, setback
from bucktail.rules.layout import head_radius
from bucktail.rules.pieces.blank import (
    CLAD,
    METAL,
    PIECE_CAUTION,
    PITCH,
    SHEET,
    STACK,
    blank_gives,
    new_stack,
    rivet_findings,
    rivet_gives,
    rivets_along,
    usual_pitch,
)
from bucktail.rules.pieces.section import BENT_THROUGH
from bucktail.rules.radii import cautious_radius, published_radius
from bucktail.rules.recording import (
    Operand,
    given,
    operand,
    round_to,
    say,
    smallest,
    value_at,
    where,
    without_last,
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

SOURCES = ("ac43-4-6", "bend-allowance", "bend-setback", "bend-grain", "edge-army", "pitch-navy")


def leg_needed(diameter: Operand, head: Operand) -> Operand:
    """Least straight part (nm) of the riveted leg: edge distance, and room for the head beside the
    bend tangent line."""
    return edge_least(diameter, head) + head_radius(diameter, head)


def _findings(
    inputs: Mapping[str, Operand], radius: Operand, straight: Operand
) -> tuple[Finding, ...]:
    diameter, head, thickness = inputs["diameter"], inputs["head"], inputs["thickness"]
    needed, has = leg_needed(diameter, head), value_at(straight, 0)
    least = published_radius(inputs["alloy"], thickness, "min")
    return (
        finds(
            ~given(radius),
            "not covered",
            "No published bend radius for this metal and sheet. Enter the radius of the plans.",
        ),
        finds(
            radius < least,
            "fails",
            say(
                "The radius of {radius} is tighter than the least published, {least}.",
                radius=("length", radius),
                least=("length", least),
            ),
        ),
        finds(
            (radius >= least) & (radius < cautious_radius(inputs["alloy"], thickness)),
            "check",
            say(
                "Other tables ask for {cautious}: bend a strip of the same sheet first.",
                cautious=("length", cautious_radius(inputs["alloy"], thickness)),
            ),
        ),
        finds(
            smallest(straight) <= 0,
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
        pitch_too_close(inputs["pitch"], diameter, operand(1)),
        *pitch_too_far(inputs["pitch"], diameter),
        finds(
            has >= needed,
            "meets",
            "Lay it out with the grain across the bends where the sheet allows.",
        ),
    )


def _stiffener(inputs: Mapping[str, Operand]) -> Outcome:
    diameter, head, thickness = inputs["diameter"], inputs["head"], inputs["thickness"]
    told = cautious_radius(inputs["alloy"], thickness)
    radius = where(given(inputs["radius"]), inputs["radius"], told)
    angles = without_last(inputs["legs"] * 0 + BENT_THROUGH)
    straight = flats(inputs["legs"], setback(radius, thickness, angles))
    allowances = bend_allowance(radius, thickness, angles)
    ends = bend_ends(straight, allowances)
    pitch = usual_pitch(inputs["pitch"], diameter, operand(1))
    count = rivets_along(inputs["length"], edge_for_layout(diameter, head), pitch)
    rivets = (inputs["stack"], new_stack(inputs["stack"], thickness), diameter, head)
    return Outcome(
        findings=(*_findings(inputs, radius, straight), *rivet_findings(*rivets)),
        gives=(
            *blank_gives(
                thickness,
                inputs["length"],
                round_to(developed_width(straight, allowances)),
                "along b",
                count,
            ),
            Gives("radius_mm", round_to(radius), "Inside radius"),
            Gives("flats_mm", round_to(straight), "Straight parts"),
            Gives("bend_starts_mm", round_to(ends - allowances), "Bends begin"),
            Gives("bend_ends_mm", round_to(ends), "Bends end"),
            Gives("rows", where(count > 0, 1), "Rows"),
            Gives("pitch_mm", pitch, "Pitch"),
            Gives("edge_mm", edge_for_layout(diameter, head), "Edge distance to mark out"),
            Gives("edge_min_mm", edge_least(diameter, head), "Least edge distance"),
            *rivet_gives(*rivets),
        ),
        source=operand(cited(*SOURCES)),
        caution=PIECE_CAUTION,
    )


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
            Takes("radius", "length", "Inside radius of the bends", "1/8", optional=True),
            PITCH,
        ),
        _stiffener,
        piece=True,
    ),
)
