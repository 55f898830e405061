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
    first_hole,
    new_stack,
    next_heavier,
    rivet_findings,
    rivet_gives,
    usual_pitch,
)
from bucktail.rules.recording import (
    Operand,
    ceil_to,
    constant,
    floor_to,
    given,
    joined,
    lookup,
    operand,
    same,
    say,
    smallest,
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
FILLER_CLEARANCE = constant("flush filler clearance")
FLUSH_SOURCES = ("flush-patch", "ac43-splice-notes", "filler-clearance", "edge-army")


@dataclass(frozen=True, slots=True)
class _Patch:
    """One way to rivet a patch: rivets on each side of the hole in so many rows; lengths in nm.

    `holds` is what a row may have, `in_row` what the fullest has; `rows_at` is from the edge.
    """

    per_inch: Operand
    count: Operand
    holds: Operand
    rows: Operand
    in_row: Operand
    pitch: Operand
    gap: Operand
    edge: Operand
    margin: Operand
    rows_at: Operand


def patch_per_inch(inputs: Mapping[str, Operand]) -> Operand:
    """Rivets per inch of width for protruding heads, the cautious of cell and note; None for flush
    heads and where the plans' number is entered."""
    table = table_for(inputs["alloy"], inputs["clad"], None)
    row = row_thickness(table, inputs["thickness"])
    by_table = same(inputs["head"], "protruding") & ~given(inputs["per_side"])
    return where(by_table, cautious_per_inch(table, row, inputs["diameter"]))


def count_on_a_side(inputs: Mapping[str, Operand]) -> Operand:
    """Rivets on each side of the hole: what the plans say; else, for protruding heads, the splice
    tables over the width across the load, with the share of a lap for a lapped patch."""
    use = where(same(inputs["form"], "lap"), "lap", "full")
    share = lookup("splice_uses", "share_percent", exact={"use": use})
    counted = count_for(inputs["across"], patch_per_inch(inputs), share)
    return where(given(inputs["per_side"]), inputs["per_side"], counted)


def rows_for(count: Operand, per_row: Operand) -> Operand:
    """The fewest rows, one to three, that hold the rivets; None where three do not."""
    three = where(3 * per_row >= count, 3)
    return where(per_row >= count, 1, where(2 * per_row >= count, 2, three))


def _patch(inputs: Mapping[str, Operand]) -> _Patch:
    diameter = inputs["diameter"]
    count = count_on_a_side(inputs)
    pitch = usual_pitch(inputs["pitch"], diameter, operand(2))
    holds = floor_to(inputs["across"] / pitch) + 1
    rows = rows_for(count, holds)
    gap, edge = row_gap_usual(diameter, pitch), edge_for_layout(diameter, inputs["head"])
    margin = 2 * edge + (rows - 1) * gap
    two, three = joined(edge, edge + gap), joined(edge, edge + gap, edge + 2 * gap)
    rows_at = where(rows > 2, three, where(rows > 1, two, where(rows > 0, joined(edge))))
    return _Patch(
        per_inch=patch_per_inch(inputs),
        count=count,
        holds=holds,
        rows=rows,
        in_row=ceil_to(count / rows),
        pitch=pitch,
        gap=where(rows > 1, gap),
        edge=edge,
        margin=margin,
        rows_at=rows_at,
    )


def _row_findings(inputs: Mapping[str, Operand], patch: _Patch) -> tuple[Finding, ...]:
    count = ("number", patch.count)
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
                count=count,
            ),
        ),
        finds(
            same(patch.rows, 1),
            "meets",
            say("Rivets on each side of the hole: {count}, in one row.", count=count),
        ),
        finds(
            patch.rows > 1,
            "meets",
            say(
                "Rivets on each side of the hole: {count}, in {rows} rows.",
                count=count,
                rows=("number", patch.rows),
            ),
        ),
        finds(
            given(patch.rows),
            "meets",
            "They stand before and behind the hole, along the load. Carry the rows on along the "
            "other two edges at the same pitch.",
        ),
        pitch_too_close(inputs["pitch"], inputs["diameter"], patch.rows),
        *pitch_too_far(inputs["pitch"], inputs["diameter"]),
    )


def _sheet_findings(
    inputs: Mapping[str, Operand], patch: _Patch, sheet: Operand
) -> tuple[Finding, ...]:
    flush, corner = same(inputs["form"], "flush"), constant("patch corner radius")
    return (
        finds(
            flush & ~given(sheet),
            "fails",
            "No listed sheet is the next heavier for the doubler. Ask the maker of the kit.",
        ),
        finds(
            flush & (smallest(inputs["along"], inputs["across"]) <= 2 * FILLER_CLEARANCE),
            "check",
            "The hole is too small for a filler with clearance all round.",
        ),
        finds(
            given(patch.rows),
            "meets",
            say(
                "Round the corners of hole and patch with {radius} or more.",
                radius=("length", corner),
            ),
        ),
        finds(
            same(inputs["form"], "lap") & given(patch.rows),
            "meets",
            "Chamfer the edge of a patch on the outside at 45 degrees.",
        ),
        finds(
            same(inputs["grain"], "unknown"),
            "meets",
            "Find the grain of the skin, and lay the patch the same way.",
        ),
    )


def filler_side(inputs: Mapping[str, Operand], side: str) -> Operand:
    """A side of the filler (nm): the hole's less the clearance at both edges; None for a lap and
    where nothing is left of it."""
    left = inputs[side] - 2 * FILLER_CLEARANCE
    return where(same(inputs["form"], "flush") & (left > 0), left)


def grain_side(grain: Operand) -> Operand:
    """The side of the blank along which the grain runs, as it does in the skin; side a lies along
    the load."""
    return where(same(grain, "along"), "a", where(same(grain, "across"), "b", "any"))


def _patch_sum(inputs: Mapping[str, Operand]) -> Outcome:
    patch = _patch(inputs)
    thickness, flush = inputs["thickness"], same(inputs["form"], "flush")
    sheet = where(flush, next_heavier(thickness), thickness)
    # no rivets were there before
    rivets = (None, new_stack(thickness, sheet), inputs["diameter"], inputs["head"])
    a, b = inputs["along"] + 2 * patch.margin, inputs["across"] + 2 * patch.margin
    return Outcome(
        findings=(
            *_row_findings(inputs, patch),
            *_sheet_findings(inputs, patch, sheet),
            *rivet_findings(*rivets),
        ),
        gives=(
            *blank_gives(sheet, a, b, grain_side(inputs["grain"])),
            Gives("count", patch.count, "Rivets on each side"),
            Gives("per_inch", patch.per_inch, "Rivets per inch of width"),
            Gives("rows", patch.rows, "Rows on each side"),
            Gives("in_row", patch.in_row, "Rivets in a row, at most"),
            Gives("per_row", patch.holds, "A row holds"),
            Gives("pitch_mm", patch.pitch, "Pitch"),
            Gives("first_mm", first_hole(b, patch.in_row, patch.pitch), "First hole of a row"),
            Gives("rows_at_mm", patch.rows_at, "Rows, from the edge"),
            Gives("row_gap_mm", patch.gap, "Between rows"),
            Gives("edge_mm", patch.edge, "Edge distance to mark out"),
            Gives("margin_mm", patch.margin, "From the hole to the patch's edge"),
            Gives("corner_radius_mm", constant("patch corner radius"), "Corner radius, or more"),
            Gives("filler_a_mm", filler_side(inputs, "along"), "Filler, along"),
            Gives("filler_b_mm", filler_side(inputs, "across"), "Filler, across"),
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
            Takes(
                "grain", "word", "Grain of the skin, to the load", "along",
                ("along", "across", "unknown"), "unknown",
            ),
        ),
        _patch_sum,
        piece=True,
    ),
)  # fmt: skip
