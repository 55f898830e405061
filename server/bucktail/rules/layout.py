"""Rows of rivets on a strip of metal: how many, how far apart, and by how much it is too small."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from bucktail.rules.recording import (
    Operand,
    constant,
    floor_to,
    given,
    largest,
    lookup,
    operand,
    same,
    say,
    smallest,
    where,
)
from bucktail.rules.rivets import DIAMETER, HEAD
from bucktail.rules.spacing import (
    edge_findings,
    edge_for_layout,
    edge_least,
    pitch_least,
    pitch_too_close,
    pitch_too_far,
    row_gap_least,
    row_gap_usual,
    short_of,
)
from bucktail.rules.sums import (
    CAUTION,
    MARKING,
    Finding,
    Gives,
    Outcome,
    Sum,
    Takes,
    cited,
    finds,
)

SOURCES = (
    "ac43-4-57c",
    "edge-army",
    "ac43-4-58g-rows",
    "pitch-navy",
    "row-gap-least",
    "row-gap-share",
    "pitch-most",
    "edge-layout",
)


@dataclass(frozen=True, slots=True)
class _Row:
    """One row along the strip: lengths in nm. `edge` is the edge distance to keep at its ends."""

    edge: Operand
    count: Operand
    pitch: Operand
    needed: Operand
    first: Operand


def _row(inputs: Mapping[str, Operand]) -> _Row:
    """A row as it is kept, or filled at the usual least pitch of 4 D (NAVEDTRA 14018)."""
    diameter, length = inputs["diameter"], inputs["length"]
    edge = where(given(inputs["edge"]), inputs["edge"], edge_least(diameter, inputs["head"]))
    least = pitch_least(diameter, inputs["rows"])
    room = length - 2 * edge
    kept, told = inputs["pitch"], inputs["per_row"]
    aim = where(given(kept), kept, largest(least, constant("pitch usual low") * diameter))
    count = where(given(told), told, where(room >= 0, floor_to(room / aim) + 1))
    gaps = count - 1
    spread = where(room > 0, floor_to(room / gaps))
    pitch = where(gaps > 0, where(given(kept), kept, spread))
    # what was asked for must fit; a row that is filled fits by itself
    must = where(given(told) & (gaps > 0), gaps * where(given(kept), kept, least), 0)
    needed = 2 * edge + must
    first = where(needed <= length, (length - where(gaps > 0, gaps * pitch, 0)) / 2)
    return _Row(edge, count, pitch, needed, floor_to(first))


@dataclass(frozen=True, slots=True)
class _Across:
    """The rows across the strip: lengths in nm."""

    needed: Operand
    gap: Operand
    usual_gap: Operand
    side: Operand


def _across(inputs: Mapping[str, Operand], row: _Row) -> _Across:
    diameter, width, more = inputs["diameter"], inputs["width"], inputs["rows"] - 1
    edges = row.edge + edge_least(diameter, inputs["head"])
    needed = edges + more * row_gap_least(diameter)
    usual = row_gap_usual(diameter, row.pitch)
    possible = floor_to((width - edges) / more)
    laid = where(given(width), where(width >= needed, smallest(usual, possible)), usual)
    gap = where(more > 0, laid)
    rest = width - where(more > 0, more * gap, 0)
    side = where(given(inputs["edge"]), rest - inputs["edge"], floor_to(rest / 2))
    return _Across(needed, gap, where(more > 0, usual), where(width >= needed, side))


def _along_findings(inputs: Mapping[str, Operand], row: _Row) -> tuple[Finding, ...]:
    diameter, length, rows = inputs["diameter"], inputs["length"], inputs["rows"]
    one = finds(
        row.needed > length,
        "fails",
        say(
            "Along the row it needs {needed} and has {has}: short by {short}.",
            needed=("length", row.needed),
            has=("length", length),
            short=("length", row.needed - length),
        ),
    )
    fits = row.needed <= length
    return (
        finds(
            rows > constant("rows covered"),
            "not covered",
            "The published spacings are for single, double and triple rows.",
        ),
        one,
        pitch_too_close(inputs["pitch"], diameter, rows),
        *pitch_too_far(row.pitch, diameter),
        *edge_findings(inputs["edge"], diameter, inputs["head"]),
        finds(
            fits & given(row.pitch),
            "meets",
            say(
                "{count} in a row, {pitch} apart, the first {first} from the end.",
                count=("number", row.count),
                pitch=("length", row.pitch),
                first=("length", row.first),
            ),
        ),
        finds(
            fits & same(row.count, 1),
            "meets",
            say("There is room for one, {first} from the end.", first=("length", row.first)),
        ),
        *_too_far_from(fits & (row.first > row.edge), row.first, diameter, "end"),
    )


def _too_far_from(
    when: Operand, edge: Operand, diameter: Operand, which: str
) -> tuple[Finding, ...]:
    """The check for an edge that is far from the last rivets."""
    most = constant("edge most") * diameter
    sentence = say(
        f"From the last rivet to the {which} it is {{has}}, more than {{most}} D ({{limit}}).",
        has=("length", edge),
        most=("number", constant("edge most")),
        limit=("length", most),
    )
    return (finds(when & (edge > most), "check", sentence),)


def _across_findings(inputs: Mapping[str, Operand], across: _Across) -> tuple[Finding, ...]:
    width, rows = inputs["width"], inputs["rows"]
    fits = width >= across.needed
    return (
        finds(
            width < across.needed,
            "fails",
            say(
                "It is too narrow by {short}: its edges and rows need {needed}, it is {has} wide.",
                short=("length", short_of(across.needed, width)),
                needed=("length", across.needed),
                has=("length", width),
            ),
        ),
        finds(
            fits & (rows > 1) & (across.gap < across.usual_gap),
            "check",
            say(
                "The rows can stand {gap} apart. The usual {share} of the pitch is {usual}: "
                "make it wider, or the pitch less.",
                gap=("length", across.gap),
                share=("number", constant("row gap share")),
                usual=("length", across.usual_gap),
            ),
        ),
        *_too_far_from(fits, across.side, inputs["diameter"], "side"),
    )


def head_radius(diameter: Operand, head: Operand) -> Operand:
    """Half the width (nm) of the manufactured head. Source: NASM 20426 and NASM 20470."""
    flush = lookup("rivet_sizes", "flush_head_diameter_in", exact={"diameter_in": diameter})
    domed = lookup("rivet_sizes", "universal_head_diameter_in", exact={"diameter_in": diameter})
    return where(same(head, "flush"), flush, domed) / 2


def bend_clearance(inputs: Mapping[str, Operand]) -> Operand:
    """What is left (nm) between the set, or the head without one, and the bend tangent line;
    below zero where they meet. Source: common practice."""
    reach = largest(inputs["tool"], head_radius(inputs["diameter"], inputs["head"]))
    return inputs["bend"] - reach


def _bend_findings(inputs: Mapping[str, Operand]) -> tuple[Finding, ...]:
    left = bend_clearance(inputs)
    return (
        finds(
            left < 0,
            "fails",
            say(
                "The head or its set reaches {over} past the bend tangent line.",
                over=("length", left),
            ),
        ),
        finds(
            left >= 0,
            "meets",
            say("Beside the bend {left} is left clear.", left=("length", left)),
        ),
        finds(
            given(inputs["bend"]) & ~given(inputs["tool"]),
            "check",
            "Measure the radius of your rivet set: only the head is counted here.",
        ),
    )


def _layout(inputs: Mapping[str, Operand]) -> Outcome:
    diameter, head, rows = inputs["diameter"], inputs["head"], inputs["rows"]
    row = _row(inputs)
    across = _across(inputs, row)
    advice = finds(
        ~given(inputs["edge"]),
        "meets",
        say(
            "Where there is room mark out with {layout} to the edge, {extra} more than the least.",
            layout=("length", edge_for_layout(diameter, head)),
            extra=("length", constant("edge layout extra")),
        ),
    )
    return Outcome(
        findings=(
            *_along_findings(inputs, row),
            *_across_findings(inputs, across),
            *_bend_findings(inputs),
            advice,
        ),
        gives=(
            Gives("count", row.count * rows, "Rivets"),
            Gives("per_row", row.count, "Rivets in a row"),
            Gives("pitch_mm", row.pitch, "Pitch"),
            Gives("pitch_d", row.pitch / diameter, "Pitch, in diameters"),
            Gives("pitch_min_mm", pitch_least(diameter, rows), "Least pitch"),
            Gives("edge_min_mm", edge_least(diameter, head), "Least edge distance"),
            Gives("edge_layout_mm", edge_for_layout(diameter, head), "Edge distance to mark out"),
            Gives("first_mm", row.first, "First hole from the end"),
            Gives("length_needed_mm", row.needed, "Least length"),
            Gives("length_short_mm", short_of(row.needed, inputs["length"]), "Length short by"),
            Gives("row_gap_min_mm", where(rows > 1, row_gap_least(diameter)), "Least row gap"),
            Gives("row_gap_mm", across.gap, "Between rows"),
            Gives("width_needed_mm", across.needed, "Least width"),
            Gives(
                "width_short_mm",
                where(given(inputs["width"]), short_of(across.needed, inputs["width"])),
                "Width short by",
            ),
            Gives("side_mm", across.side, "Outer rows from the sides"),
            Gives("bend_clear_mm", bend_clearance(inputs), "Clear of the bend"),
        ),
        source=operand(
            where(given(inputs["bend"]), cited(*SOURCES, "bend-clear"), cited(*SOURCES))
        ),
        caution=f"{CAUTION} {MARKING}",
    )


def _asked(key: str, label: str, example: str) -> Takes:
    return Takes(key, "length", label, example, optional=True)


SUMS: tuple[Sum, ...] = (
    Sum(
        "layout",
        "Rivet layout",
        "How do the rivets go on this strip?",
        (
            DIAMETER,
            HEAD,
            Takes("length", "length", "Length of the strip along the row", "10"),
            Takes("rows", "count", "Rows", "2", default="1", least=1, most=12),
            _asked("width", "Width of the strip across the rows", "1 1/4"),
            _asked("edge", "Edge distance to keep", "1/4"),
            _asked("pitch", "Pitch to keep", "1/2"),
            Takes("per_row", "count", "Rivets in a row to keep", "20", optional=True, most=1000),
            _asked("bend", "From the row to the bend tangent line", "3/8"),
            _asked("tool", "Radius of the rivet set", "1/4"),
        ),
        _layout,
    ),
)
