"""The rivets of a splice or doubler in a bent section: how many, in which rows, and its length."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from bucktail.rules.layout import head_radius
from bucktail.rules.pieces.bent import Bent
from bucktail.rules.pieces.blank import usual_pitch
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
    smallest,
    where,
    without_last,
)
from bucktail.rules.spacing import edge_for_layout, edge_least, row_gap_least, row_gap_usual
from bucktail.rules.splices import cautious_per_inch, count_for, row_thickness, table_for

HEAD = "protruding"


@dataclass(frozen=True, slots=True)
class SectionRivets:
    """Rivets by leg on one side of the joint or damage; lengths in nm. `first_rows` is where the
    first row of each leg lies, from the first edge of the flat."""

    per_inch: Operand
    counts: Operand
    rows: Operand
    in_row: Operand
    pitch: Operand
    gap: Operand
    room: Operand
    first_rows: Operand
    side: Operand


def row_room(straight: Operand, diameter: Operand) -> tuple[Operand, Operand]:
    """Beside which line of each leg a row may begin (nm), and the room (nm) from there to where
    the last may lie: edge distance at a free edge, half the head at a bend tangent line. The room
    is below zero where not one row goes in."""
    edge, head = edge_least(diameter, HEAD), head_radius(diameter, operand(HEAD))
    at_bends = without_last(straight * 0 + head)
    before = joined(edge, at_bends)
    return before, straight - before - joined(at_bends, edge)


def section_rivets(inputs: Mapping[str, Operand], piece: Bent) -> SectionRivets:
    """Rivets by the splice tables for each leg of the section, laid out on the flat piece."""
    diameter = inputs["diameter"]
    table = table_for(inputs["alloy"], inputs["clad"], None)
    row = row_thickness(table, inputs["thickness"])
    per_inch = cautious_per_inch(table, row, diameter)
    share = lookup("splice_uses", "share_percent", exact={"use": inputs["use"]})
    counts = count_for(inputs["legs"], per_inch, share)
    before, room = row_room(piece.straight, diameter)
    fits = smallest(room) >= 0
    holds = floor_to(room / row_gap_least(diameter)) + 1
    # the longest row sets the length; the other legs take no more rows than that leaves them
    longest = largest(ceil_to(counts / holds), ceil_to(counts / constant("rows covered")))
    rows = where(fits, ceil_to(counts / longest))
    pitch = usual_pitch(inputs["pitch"], diameter, largest(rows))
    usual = row_gap_usual(diameter, pitch)
    gap = where(largest((rows - 1) * usual - room) <= 0, usual, row_gap_least(diameter))
    first_rows = where(fits, floor_to(piece.leg_starts + before + (room - (rows - 1) * gap) / 2))
    side = where(fits, 2 * edge_for_layout(diameter, HEAD) + (longest - 1) * pitch)
    in_row = where(fits, ceil_to(counts / rows))
    return SectionRivets(per_inch, counts, rows, in_row, pitch, gap, room, first_rows, side)


def least_length(legs: Operand) -> Operand:
    """Length (nm) that a splice passes by a thousandth: more than twice the widest leg.

    Source: AC 43.13-1B, Figure 4-20: L more than twice W2.
    """
    return 2 * largest(legs) + constant("thousandth")


def damage_length(inputs: Mapping[str, Operand]) -> Operand:
    """Length of the damage or gap (nm); 0 where none is given: a plain joint."""
    return where(given(inputs["damage"]), inputs["damage"], 0)


def section_length(inputs: Mapping[str, Operand], riveting: SectionRivets) -> Operand:
    """Length of the piece (nm): both sides, or more than twice the widest leg, and the damage."""
    both = largest(2 * riveting.side, least_length(inputs["legs"])) + damage_length(inputs)
    return round_to(where(given(riveting.side), both))
