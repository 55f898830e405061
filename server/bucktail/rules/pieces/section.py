"""A splice or doubler nested in an angle, a channel or a stringer bent from sheet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from bucktail.rules.bends import bend_allowance, developed_width, flats, setback
from bucktail.rules.layout import head_radius
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
    usual_pitch,
)
from bucktail.rules.radii import cautious_radius
from bucktail.rules.recording import (
    Operand,
    ceil_to,
    constant,
    floor_to,
    given,
    joined,
    largest,
    lookup,
    operand,
    round_to,
    say,
    smallest,
    total,
    where,
    without_last,
)
from bucktail.rules.rivets import DIAMETER
from bucktail.rules.spacing import (
    edge_least,
    pitch_too_close,
    pitch_too_far,
    row_gap_least,
    short_of,
)
from bucktail.rules.splices import (
    ELSEWHERE,
    USES,
    cautious_per_inch,
    count_for,
    rivets_per_inch,
    row_thickness,
    table_for,
)
from bucktail.rules.sums import Finding, Gives, Outcome, Sum, Takes, cited, finds

SOURCES = (
    "ac43-fig-4-20",
    "ac43-4-58k",
    "ac43-splice-notes",
    "edge-army",
    "row-gap-least",
    "pitch-navy",
    "ac43-4-6",
    "bend-allowance",
    "bend-grain",
)
BENT_THROUGH = 90


@dataclass(frozen=True, slots=True)
class _Section:
    """The nested piece: lengths in nm, lists by leg."""

    thickness: Operand
    radius: Operand
    legs: Operand
    straight: Operand
    developed: Operand


def nested_legs(legs: Operand, thickness: Operand) -> Operand:
    """Outside legs (nm) of a section that lies in another: less its sheet once at the ends, twice
    between two bends. A single leg stays as it is."""
    at_bends = without_last(legs * 0 + thickness)
    return legs - joined(0, at_bends) - joined(at_bends, 0)


def splice_sheet(legs: Operand, thickness: Operand) -> Operand:
    """Sheet (nm) of the splice: heavier than what it joins, and each of its narrower legs of at
    least the area it splices. Source: AC 43.13-1B, paragraph 4-58k and Figure 4-20."""
    inner = nested_legs(legs, thickness)
    by_area = stock_not_below(largest(thickness * legs / inner))
    return where(smallest(inner) > 0, largest(next_heavier(thickness), by_area))


def _section(inputs: Mapping[str, Operand]) -> _Section:
    thickness, legs = inputs["thickness"], inputs["legs"]
    sheet = splice_sheet(legs, thickness)
    told = cautious_radius(inputs["alloy"], sheet)
    radius = where(given(inputs["radius"]), inputs["radius"], told)
    inner = nested_legs(legs, thickness)
    each = without_last(legs * 0 + BENT_THROUGH)
    straight = flats(inner, setback(radius, sheet, each))
    allowances = bend_allowance(radius, sheet, each)
    return _Section(sheet, radius, inner, straight, developed_width(straight, allowances))


@dataclass(frozen=True, slots=True)
class _Riveting:
    """Rivets by leg on one side of the joint, and the length of the piece (nm)."""

    per_inch: Operand
    counts: Operand
    rows: Operand
    in_row: Operand
    pitch: Operand
    room: Operand
    length: Operand


def _riveting(inputs: Mapping[str, Operand], section: _Section) -> _Riveting:
    diameter, legs = inputs["diameter"], inputs["legs"]
    head = operand("protruding")
    table = table_for(inputs["alloy"], inputs["clad"], None)
    row = row_thickness(table, inputs["thickness"])
    per_inch = rivets_per_inch(table, row, diameter)
    share = lookup("splice_uses", "share_percent", exact={"use": inputs["use"]})
    counts = count_for(legs, cautious_per_inch(table, row, diameter), share)
    edge, gap = edge_least(diameter, head), row_gap_least(diameter)
    room = section.straight - edge - head_radius(diameter, head)
    rows = floor_to(room / gap) + 1
    in_row = ceil_to(counts / rows)
    pitch = usual_pitch(inputs["pitch"], diameter, largest(rows))
    one_side = 2 * edge + (largest(in_row) - 1) * pitch
    # AC 43.13-1B, Figure 4-20: the splice is more than twice as long as the frame is wide
    by_width = 2 * largest(legs) + constant("thousandth")
    damage = where(given(inputs["damage"]), inputs["damage"], 0)
    length = round_to(largest(2 * one_side, by_width) + damage)
    return _Riveting(per_inch, counts, rows, in_row, pitch, room, length)


def _findings(
    inputs: Mapping[str, Operand], section: _Section, riveting: _Riveting
) -> tuple[Finding, ...]:
    diameter = inputs["diameter"]
    narrowest = smallest(riveting.room)
    share = constant("stringer diameter share of width") * smallest(inputs["legs"])
    return (
        finds(
            given(section.thickness) & ~given(riveting.per_inch),
            "not covered",
            "No published table gives rivets for this metal, sheet and diameter. " + ELSEWHERE,
        ),
        finds(
            ~given(section.thickness),
            "fails",
            "The legs are too narrow for a splice inside, or no listed sheet is heavy enough.",
        ),
        finds(
            ~given(section.radius),
            "not covered",
            "No published bend radius for this metal. Enter the radius of the plans.",
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
        finds(
            diameter > share,
            "check",
            say(
                "In stringers a rivet is at most a quarter of the leg's width: {most} here.",
                most=("length", share),
            ),
        ),
        pitch_too_close(inputs["pitch"], diameter, largest(riveting.rows)),
        *pitch_too_far(inputs["pitch"], diameter),
        finds(
            given(section.thickness),
            "meets",
            say(
                "Bend it from {sheet} sheet, the next heavier, with the grain across the bends.",
                sheet=("thickness", section.thickness),
            ),
        ),
    )


def _splice_or_doubler(inputs: Mapping[str, Operand]) -> Outcome:
    section = _section(inputs)
    riveting = _riveting(inputs, section)
    diameter, head = inputs["diameter"], operand("protruding")
    # no rivets were there before
    rivets = (None, new_stack(inputs["thickness"], section.thickness), diameter, head)
    fits = smallest(riveting.room) >= 0
    return Outcome(
        findings=(*_findings(inputs, section, riveting), *rivet_findings(*rivets)),
        gives=(
            *blank_gives(
                section.thickness,
                riveting.length,
                round_to(section.developed),
                "along b",
                where(fits, 2 * total(riveting.counts)),
            ),
            Gives("legs_mm", section.legs, "Legs of the splice, outside"),
            Gives("radius_mm", round_to(section.radius), "Inside radius"),
            Gives("counts", riveting.counts, "Rivets on each side, by leg"),
            Gives("per_inch", riveting.per_inch, "Rivets per inch of width"),
            Gives("rows", where(fits, riveting.rows), "Rows, by leg"),
            Gives("in_row", where(fits, riveting.in_row), "Rivets in a row, by leg"),
            Gives("pitch_mm", riveting.pitch, "Pitch"),
            Gives("edge_min_mm", edge_least(diameter, head), "Least edge distance"),
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
            Takes("use", "word", "Where it is", "intermediate-frame", USES, "full"),
            DIAMETER,
            Takes("damage", "length", "Length of the damage or gap", "1", optional=True),
            PITCH,
            Takes("radius", "length", "Inside radius of the bends", "1/8", optional=True),
        ),
        _splice_or_doubler,
        piece=True,
    ),
)
