"""A splice or doubler nested in an angle, a channel or a stringer bent from sheet."""

from __future__ import annotations

from collections.abc import Mapping

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
    blank_gives,
    new_stack,
    next_heavier,
    rivet_findings,
    rivet_gives,
    stock_not_below,
)
from bucktail.rules.pieces.section_rivets import (
    HEAD,
    SectionRivets,
    damage_length,
    least_length,
    section_length,
    section_rivets,
)
from bucktail.rules.recording import (
    Operand,
    constant,
    given,
    joined,
    largest,
    operand,
    say,
    smallest,
    total,
    where,
    without_last,
)
from bucktail.rules.rivets import DIAMETER
from bucktail.rules.spacing import (
    edge_for_layout,
    edge_least,
    pitch_too_close,
    pitch_too_far,
    row_gap_least,
    short_of,
)
from bucktail.rules.splices import (
    ELSEWHERE,
    USES,
)
from bucktail.rules.sums import Finding, Gives, Outcome, Sum, Takes, cited, finds

SOURCES = (
    "ac43-fig-4-20",
    "ac43-4-58k",
    "ac43-4-58l",
    "ac43-splice-notes",
    "edge-army",
    "row-gap-least",
    "row-gap-share",
    "pitch-navy",
    "ac43-4-6",
    "bend-allowance",
    "bend-grain",
)
#: a section is not a lap of two sheets
SECTION_USES = tuple(use for use in USES if use != "lap")


def nested_legs(legs: Operand, thickness: Operand) -> Operand:
    """Outside legs (nm) of a section that lies in another: less its sheet once at the ends, twice
    between two bends. A single leg stays as it is."""
    at_bends = without_last(legs * 0 + thickness)
    return legs - joined(0, at_bends) - joined(at_bends, 0)


def splice_sheet(legs: Operand, thickness: Operand) -> Operand:
    """Sheet (nm) of the splice: heavier than what it joins, and each of its narrower legs of at
    least the area it splices. None where no listed sheet is heavy enough, or a leg has no inside.
    Source: AC 43.13-1B, paragraph 4-58k and Figure 4-20."""
    inner, heavier = nested_legs(legs, thickness), next_heavier(thickness)
    by_area = stock_not_below(largest(thickness * legs / inner))
    heavy_enough = given(heavier) & given(by_area) & (smallest(inner) > 0)
    return where(heavy_enough, largest(heavier, by_area))


def _sheet_findings(inputs: Mapping[str, Operand], sheet: Operand) -> tuple[Finding, ...]:
    share = constant("stringer diameter share of width") * smallest(inputs["legs"])
    return (
        finds(
            ~given(sheet),
            "fails",
            "The legs are too narrow for a splice inside, or no listed sheet is heavy enough.",
        ),
        finds(
            inputs["diameter"] > share,
            "check",
            say(
                "In stringers a rivet is at most a quarter of the leg's width: {most} here.",
                most=("length", share),
            ),
        ),
        finds(
            given(sheet) & has_bends(inputs["legs"]),
            "meets",
            say(
                "Bend it from {sheet} sheet, heavier than the section, with the grain across the "
                "bends.",
                sheet=("thickness", sheet),
            ),
        ),
        finds(
            given(sheet) & ~has_bends(inputs["legs"]),
            "meets",
            say("Cut it from {sheet} sheet, heavier than the bar.", sheet=("thickness", sheet)),
        ),
    )


def _nesting(inputs: Mapping[str, Operand], sheet: Operand, piece: Bent) -> Finding:
    """What the bend of the section may be for the piece to lie in it: geometry."""
    return finds(
        has_bends(inputs["legs"]),
        "meets",
        say(
            "Outside, its bends have a radius of {outside}. Where the section's inside radius is "
            "larger, the piece rides on it: make the piece's as large.",
            outside=("length", piece.radius + sheet),
        ),
    )


def _riveting_findings(
    inputs: Mapping[str, Operand], sheet: Operand, riveting: SectionRivets
) -> tuple[Finding, ...]:
    diameter, narrowest = inputs["diameter"], smallest(riveting.room)
    return (
        finds(
            given(sheet) & ~given(riveting.per_inch),
            "not covered",
            "No published table gives rivets for this metal, sheet and diameter. " + ELSEWHERE,
        ),
        finds(
            narrowest < 0,
            "fails",
            say(
                "A leg of the splice is too narrow for a row of rivets by {short}: edge distance "
                "and head need more than its straight part.",
                short=("length", short_of(operand(0), narrowest)),
            ),
        ),
        pitch_too_close(inputs["pitch"], diameter, largest(riveting.rows)),
        *pitch_too_far(inputs["pitch"], diameter),
    )


def _length_findings(
    inputs: Mapping[str, Operand], riveting: SectionRivets, length: Operand
) -> tuple[Finding, ...]:
    """What the length is made of."""
    damage, by_width = damage_length(inputs), least_length(inputs["legs"]) > 2 * riveting.side
    slots = {"length": ("length", length), "side": ("length", riveting.side)}
    between = {"damage": ("length", damage)}
    return (
        finds(
            ~by_width & (damage <= 0),
            "meets",
            say("It is {length} long: {side} for the rivets on each side of the joint.", **slots),
        ),
        finds(
            ~by_width & (damage > 0),
            "meets",
            say(
                "It is {length} long: {side} for the rivets on each side, {damage} between them.",
                **slots,
                **between,
            ),
        ),
        finds(
            by_width & (damage <= 0),
            "meets",
            say(
                "It is {length} long, more than twice the widest leg; the rivets alone need {side} "
                "on each side of the joint.",
                **slots,
            ),
        ),
        finds(
            by_width & (damage > 0),
            "meets",
            say(
                "It is {length} long: more than twice the widest leg, and {damage} for the damage; "
                "the rivets alone need {side} on each side of it.",
                **slots,
                **between,
            ),
        ),
        finds(
            damage > 0,
            "meets",
            "The numbers stand on each side of the damage, whether or not the section is cut "
            "through there.",
        ),
    )


def _splice_or_doubler(inputs: Mapping[str, Operand]) -> Outcome:
    thickness, diameter = inputs["thickness"], inputs["diameter"]
    sheet = splice_sheet(inputs["legs"], thickness)
    legs = nested_legs(inputs["legs"], thickness)
    piece = bent(legs, sheet, inputs["alloy"], inputs["radius"])
    riveting = section_rivets(inputs, piece)
    length = section_length(inputs, riveting)
    # no rivets were there before
    rivets = (None, new_stack(thickness, sheet), diameter, operand(HEAD))
    fits = smallest(riveting.room) >= 0
    return Outcome(
        findings=(
            *radius_findings(inputs["alloy"], sheet, legs, piece.radius),
            *_sheet_findings(inputs, sheet),
            _nesting(inputs, sheet, piece),
            *_riveting_findings(inputs, sheet, riveting),
            *_length_findings(inputs, riveting, length),
            *rivet_findings(*rivets),
        ),
        gives=(
            *blank_gives(
                sheet,
                length,
                in_the_flat(piece),
                where(has_bends(legs), GRAIN_ACROSS_BENDS, "any"),
                where(fits, 2 * total(riveting.counts)),
            ),
            Gives("legs_mm", where(given(sheet), legs), "Legs of the splice, outside"),
            *bend_gives(piece),
            Gives("counts", riveting.counts, "Rivets on each side, by leg"),
            Gives("per_inch", riveting.per_inch, "Rivets per inch of width"),
            Gives("rows", riveting.rows, "Rows, by leg"),
            Gives("in_row", riveting.in_row, "Rivets in a row, by leg"),
            Gives("pitch_mm", riveting.pitch, "Pitch"),
            Gives("first_mm", edge_for_layout(diameter, HEAD), "First holes from the end"),
            Gives("first_rows_mm", riveting.first_rows, "First row of each leg, from the edge"),
            Gives("row_gap_mm", where(largest(riveting.rows) > 1, riveting.gap), "Between rows"),
            Gives("edge_min_mm", edge_least(diameter, HEAD), "Least edge distance"),
            Gives("row_gap_min_mm", row_gap_least(diameter), "Least row gap"),
            *rivet_gives(*rivets),
        ),
        source=operand(cited(*SOURCES)),
        caution=PIECE_CAUTION,
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        "section-splice",
        "Splice or doubler in an angle, channel or stringer",
        "What joins or doubles this bent section?",
        (
            Takes("legs", "lengths", "Legs of the section, outside", "1,2,1"),
            SHEET,
            METAL,
            CLAD,
            Takes("use", "word", "Where it is", "intermediate-frame", SECTION_USES, "full"),
            DIAMETER,
            Takes("damage", "length", "Length of the damage or gap", "1", optional=True),
            PITCH,
            RADIUS,
        ),
        _splice_or_doubler,
        piece=True,
    ),
)
