"""A patch on or in a skin: lapped over the hole, or flush with a doubler behind and a filler."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

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
    usual_pitch,
)
from bucktail.rules.recording import (
    Operand,
    constant,
    floor_to,
    given,
    lookup,
    operand,
    same,
    say,
    where,
)
from bucktail.rules.rivets import DIAMETER
from bucktail.rules.spacing import (
    edge_for_layout,
    pitch_too_close,
    pitch_too_far,
    row_gap_usual,
)
from bucktail.rules.splices import cautious_per_inch, count_for, row_thickness, table_for
from bucktail.rules.sums import Finding, Gives, Outcome, Sum, Takes, cited, finds

LAP_SOURCES = ("ac43-splice-notes", "ac43-4-58g", "lap-patch", "lap-patch-edge", "edge-army")
FLUSH_SOURCES = ("flush-patch", "ac43-splice-notes", "filler-clearance", "edge-army")


@dataclass(frozen=True, slots=True)
class _Patch:
    """One way to rivet a patch: rivets on each side of the hole in so many rows; lengths in nm."""

    count: Operand
    per_row: Operand
    rows: Operand
    pitch: Operand
    gap: Operand
    edge: Operand
    margin: Operand


def count_on_a_side(inputs: Mapping[str, Operand]) -> Operand:
    """Rivets on each side of the hole: what the plans say; else, for protruding heads, the splice
    tables over the width across the load, with the share of a lap for a lapped patch."""
    table = table_for(inputs["alloy"], inputs["clad"], None)
    row = row_thickness(table, inputs["thickness"])
    per_inch = cautious_per_inch(table, row, inputs["diameter"])
    use = where(same(inputs["form"], "lap"), "lap", "full")
    share = lookup("splice_uses", "share_percent", exact={"use": use})
    counted = count_for(inputs["across"], per_inch, share)
    by_table = where(same(inputs["head"], "protruding"), counted)
    return where(given(inputs["per_side"]), inputs["per_side"], by_table)


def rows_for(count: Operand, per_row: Operand) -> Operand:
    """The fewest rows, one to three, that hold the rivets; None where three do not."""
    three = where(3 * per_row >= count, 3)
    return where(per_row >= count, 1, where(2 * per_row >= count, 2, three))


def _patch(inputs: Mapping[str, Operand]) -> _Patch:
    diameter = inputs["diameter"]
    count = count_on_a_side(inputs)
    pitch = usual_pitch(inputs["pitch"], diameter, operand(2))
    per_row = floor_to(inputs["across"] / pitch) + 1
    rows = rows_for(count, per_row)
    gap, edge = row_gap_usual(diameter, pitch), edge_for_layout(diameter, inputs["head"])
    margin = 2 * edge + (rows - 1) * gap
    return _Patch(count, per_row, rows, pitch, where(rows > 1, gap), edge, margin)


def _findings(inputs: Mapping[str, Operand], patch: _Patch) -> tuple[Finding, ...]:
    laid = {"count": ("number", patch.count), "rows": ("number", patch.rows)}
    return (
        finds(
            ~given(patch.count),
            "not covered",
            "The published tables are for solid rivets with protruding heads in listed metals and "
            "sheets. Enter the rivets on each side that the plans or the maker ask for.",
        ),
        finds(
            given(patch.count) & ~given(patch.rows),
            "fails",
            say(
                "The {count} rivets of a side do not go into three rows at this pitch: take a "
                "larger rivet, or cut the hole wider across the load.",
                count=("number", patch.count),
            ),
        ),
        finds(
            given(patch.rows),
            "meets",
            say("On each side of the hole {count} rivets in rows: {rows}.", **laid),
        ),
        pitch_too_close(inputs["pitch"], inputs["diameter"], patch.rows),
        *pitch_too_far(inputs["pitch"], inputs["diameter"]),
        finds(
            given(patch.rows),
            "meets",
            say(
                "Round the corners of hole and patch with {radius} or more.",
                radius=("length", constant("patch corner radius")),
            ),
        ),
        finds(
            same(inputs["form"], "lap") & given(patch.rows),
            "meets",
            "Chamfer the edge of a patch on the outside at 45 degrees.",
        ),
    )


def _patch_sum(inputs: Mapping[str, Operand]) -> Outcome:
    patch = _patch(inputs)
    thickness, flush = inputs["thickness"], same(inputs["form"], "flush")
    sheet = where(flush, next_heavier(thickness), thickness)
    # no rivets were there before
    rivets = (None, new_stack(thickness, sheet), inputs["diameter"], inputs["head"])
    less = 2 * constant("flush filler clearance")
    return Outcome(
        findings=(*_findings(inputs, patch), *rivet_findings(*rivets)),
        gives=(
            *blank_gives(
                sheet,
                inputs["along"] + 2 * patch.margin,
                inputs["across"] + 2 * patch.margin,
                "as the skin",
            ),
            Gives("count", patch.count, "Rivets on each side"),
            Gives("rows", patch.rows, "Rows on each side"),
            Gives("per_row", patch.per_row, "A row holds"),
            Gives("pitch_mm", patch.pitch, "Pitch"),
            Gives("row_gap_mm", patch.gap, "Between rows"),
            Gives("edge_mm", patch.edge, "Edge distance to mark out"),
            Gives("margin_mm", patch.margin, "From the hole to the patch's edge"),
            Gives("filler_a_mm", where(flush, inputs["along"] - less), "Filler, along"),
            Gives("filler_b_mm", where(flush, inputs["across"] - less), "Filler, across"),
            Gives("filler_thickness_mm", where(flush, thickness), "Filler sheet"),
            *rivet_gives(*rivets),
        ),
        source=where(flush, cited(*FLUSH_SOURCES), cited(*LAP_SOURCES)),
        caution=PIECE_CAUTION,
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        "patch",
        "Lap or flush patch",
        "What patches this hole in a skin?",
        (
            Takes("form", "word", "Patch", "lap", ("lap", "flush"), "lap"),
            Takes("along", "length", "Hole, cleaned up, along the load", "1 1/2"),
            Takes("across", "length", "Hole, cleaned up, across the load", "2"),
            SHEET,
            METAL,
            CLAD,
            DIAMETER,
            Takes("head", "word", "Head", "protruding", ("protruding", "flush"), "protruding"),
            Takes(
                "per_side", "count", "Rivets on each side, by the plans", "8",
                optional=True, least=1, most=500,
            ),
            PITCH,
        ),
        _patch_sum,
        piece=True,
    ),
)  # fmt: skip
