"""Splices in sheet: rivets per inch of width by the published tables, and how many that makes."""

from __future__ import annotations

from collections.abc import Mapping

from bucktail.rules.recording import (
    Operand,
    Term,
    anything,
    ceil_to,
    constant,
    given,
    largest,
    lookup,
    operand,
    round_to,
    same,
    say,
    smallest,
    where,
)
from bucktail.rules.sums import CAUTION, Finding, Gives, Outcome, Sum, Takes, cited, finds
from bucktail.rules.thicknesses import next_thicker_row

TABLES = ("4-9", "4-10", "4-11")
USES = (
    "full", "lap", "intermediate-frame",
    "fuselage-stringer", "wing-upper-stringer", "wing-lower-stringer",
)  # fmt: skip
ELSEWHERE = "Use the data of the kit maker or of the maker of the fastener."
SPLICE_CAUTION = (
    f"{CAUTION} The tables are for minor repairs of areas without cabin pressure, and only where "
    "the maker gives no instructions. The number stands on each side of a joint; edge distance and "
    "spacing are another sum."
)


def table_for(alloy: Term, clad: Term, named: Term) -> Operand:
    """The splice table for a metal: the named one where its scope lists the metal, else None;
    where none is named, the first that lists it. Clad 2024-T3 stands in two: the cautious first.

    Source: AC 43.13-1B, headings of Tables 4-9, 4-10 and 4-11.
    """
    metal = {"metal": alloy, "clad": clad}
    asked = lookup("splice_scope", "table", exact={**metal, "table": named})
    return where(given(named), asked, lookup("splice_scope", "table", exact=metal))


def other_table_for(alloy: Term, clad: Term, chosen: Term) -> Operand:
    """The other table whose scope lists the metal too; None where there is none."""
    metal = {"metal": alloy, "clad": clad}
    others = [
        where(
            same(chosen, one), None, lookup("splice_scope", "table", exact={**metal, "table": one})
        )
        for one in TABLES
    ]
    found = others[0]
    for one in others[1:]:
        found = where(given(found), found, one)
    return found


def row_thickness(table: Term, thickness: Term) -> Operand:
    """The thickness (nm) of the row to use: equal or the next thicker, which asks for more rivets.

    Source: AC 43.13-1B, Tables 4-9 to 4-11, .016 to .128 in; nothing beyond.
    """
    return next_thicker_row("rivets_per_inch", thickness, {"table": table})


def rivets_per_inch(table: Term, row: Term, diameter: Term) -> Operand:
    """The printed cell: rivets per inch of width W. None where nothing is printed.

    Source: AC 43.13-1B, Tables 4-9, 4-10 and 4-11.
    """
    keys = {"table": table, "thickness_in": row, "diameter_in": diameter}
    return lookup("rivets_per_inch", "per_inch", exact=keys)


def per_inch_by_notes(
    table: Term, row: Term, diameter: Term, bearing: str = "bearing_ratio"
) -> Operand:
    """Rivets per inch that make a strip of sheet as strong as itself, unrounded.

    The larger of 1 / (kb D) and t / (ks pi/4 D2): t the row's thickness, D the finished hole, ks
    and kb rivet shear and sheet bearing as shares of the sheet's tensile allowable; `bearing`
    names the column for kb. Source: AC 43.13-1B, engineering notes to Tables 4-9 to 4-11.
    """
    shares = {"table": table}
    ks = lookup("splice_table_ratios", "rivet_shear_ratio", exact=shares)
    kb = lookup("splice_table_ratios", bearing, exact=shares)
    hole = lookup("rivet_sizes", "splice_hole_in", exact={"diameter_in": diameter})
    area = constant("circle area factor") * hole * hole
    by_bearing, by_shear = 1 / (kb * hole), row / (ks * area)
    both = given(by_bearing) & given(by_shear)
    return where(both, largest(by_bearing, by_shear) * constant("inch"))


def falls_short(table: Term, row: Term, diameter: Term) -> Operand:
    """Yes where the printed cell is below what the table's own note gives, rounded as printed."""
    note = per_inch_by_notes(table, row, diameter)
    step = constant("printed step of the splice tables")
    return round_to(note, step) > rivets_per_inch(table, row, diameter)


def cautious_per_inch(table: Term, row: Term, diameter: Term) -> Operand:
    """The printed cell, or where that falls short of the table's own note what the note gives.

    Source: cautious choice; the note to Table 4-11 prints 160 % and its cells are 165 %.
    """
    cell = rivets_per_inch(table, row, diameter)
    note = per_inch_by_notes(table, row, diameter)
    return where(falls_short(table, row, diameter), largest(cell, note), cell)


def handbook_per_inch(thickness: Term, diameter: Term) -> Operand:
    """Rivets per inch of damage by the other published formula: T x 75 000 psi over the smaller of
    rivet shear S and bearing B = 82 000 psi x D x T.

    Source: AC 65-15A, chapter 5; from memory. Shown beside, never in place of the tables.
    """
    stress = lookup("rivet_shear", "shear_psi", exact={"letter": "AD", "on": "diameter"})
    shear = stress * constant("circle area factor") * diameter * diameter
    bearing = constant("damage formula bearing") * diameter * thickness
    tensile = operand(thickness) * constant("damage formula tensile")
    return tensile / smallest(shear, bearing) * constant("inch")


def full_count(width: Term, per_inch: Term) -> Operand:
    """Rivets for a width (nm) at so many per inch, rounded up.

    Source: AC 43.13-1B, Figure 4-20: 2.0 in at 6.2 makes 12.4, up to 13.
    """
    return ceil_to(operand(width) / constant("inch") * per_inch)


def count_for(width: Term, per_inch: Term, share_percent: Term) -> Operand:
    """Rivets on each side: rounded up, then the share of the use, rounded up again.

    Source: AC 43.13-1B, notes a to c to Tables 4-9 to 4-11; Figure 4-20 rounds at both steps.
    """
    return ceil_to(full_count(width, per_inch) * share_percent / 100)


def _not_covered(
    inputs: Mapping[str, Operand], table: Operand, row: Operand, cell: Operand
) -> tuple[Finding, ...]:
    protruding = same(inputs["head"], "protruding") & ~given(inputs["angle"])
    ours = protruding & same(inputs["kind"], "solid") & same(inputs["rivet"], "2117")
    named = given(inputs["table"])
    return (
        finds(
            ~ours,
            "not covered",
            "The published tables are for solid rivets of alloy AD with protruding heads only. "
            f"{ELSEWHERE}",
        ),
        finds(
            ours & ~named & ~given(table),
            "not covered",
            f"None of the published tables is for this metal with this cladding. {ELSEWHERE}",
        ),
        finds(
            ours & named & ~given(table),
            "not covered",
            "The table you named is not for this metal with this cladding. "
            "Leave the table out, and one that lists the metal is taken where there is one.",
        ),
        finds(
            ours & given(table) & ~given(row),
            "not covered",
            "The sheet is thinner or thicker than the table goes. Nothing is carried on past its "
            f"ends. {ELSEWHERE}",
        ),
        finds(
            ours & given(row) & ~given(cell),
            "not covered",
            "The table prints nothing for this rivet in this sheet: it is too small or too large "
            "for it. Try the next size.",
        ),
    )


def _remarks(
    inputs: Mapping[str, Operand], row: Operand, counts: Mapping[str, Operand]
) -> tuple[Finding, ...]:
    count, other = counts["count"], counts["other_count"]
    beside = {
        "other": ("word", counts["other_table"]),
        "n": ("number", other),
        "count": ("number", count),
    }
    return (
        finds(
            given(row) & ~same(row, inputs["thickness"]),
            "check",
            say(
                "This sheet is {has}; the table lists {row}, the next thicker, and its row is "
                "taken.",
                has=("thickness", inputs["thickness"]),
                row=("thickness", row),
            ),
        ),
        finds(
            other > count,
            "check",
            say("Table {other} lists this metal too and asks for {n}, not {count}.", **beside),
        ),
        finds(
            other <= count,
            "meets",
            say("Table {other} lists this metal too: {n} by that one, {count} by this.", **beside),
        ),
        finds(
            counts["cautious_count"] > count,
            "check",
            say(
                "This cell of the table is below what the table's own note gives: {n} by the note. "
                "Take the larger.",
                n=("number", counts["cautious_count"]),
            ),
        ),
        finds(
            counts["handbook_count"] > count,
            "meets",
            say(
                "An older handbook's formula, told from memory, gives {n} for any use.",
                n=("number", counts["handbook_count"]),
            ),
        ),
    )


def _splice(inputs: Mapping[str, Operand]) -> Outcome:
    alloy, clad, width, diameter = (inputs[k] for k in ("alloy", "clad", "width", "diameter"))
    share = lookup("splice_uses", "share_percent", exact={"use": inputs["use"]})
    table = table_for(alloy, clad, inputs["table"])
    row = row_thickness(table, inputs["thickness"])
    cell = rivets_per_inch(table, row, diameter)
    note = per_inch_by_notes(table, row, diameter)
    other = where(given(table), other_table_for(alloy, clad, table))
    other_cell = rivets_per_inch(other, row_thickness(other, inputs["thickness"]), diameter)
    handbook = handbook_per_inch(inputs["thickness"], diameter)
    cautious = count_for(width, cautious_per_inch(table, row, diameter), share)
    counts = {
        "count": count_for(width, cell, share),
        "other_table": where(given(other_cell), other),
        "other_count": count_for(width, other_cell, share),
        "cautious_count": where(falls_short(table, row, diameter), cautious),
        "handbook_count": full_count(width, handbook),
    }
    return Outcome(
        findings=(
            *_not_covered(inputs, table, row, cell),
            *_remarks(inputs, row, counts),
        ),
        gives=(
            Gives("count", counts["count"], "Rivets on each side"),
            Gives("per_inch", cell, "Rivets per inch of width"),
            Gives("table", table, "Table"),
            Gives("row_mm", row, "Row of the table"),
            Gives("full_count", full_count(width, cell), "Before the share of the use"),
            Gives("share_percent", share, "Share of the use"),
            Gives("cautious_count", counts["cautious_count"], "By the table's own note"),
            Gives("note_per_inch", note, "Per inch by the table's own note"),
            Gives("other_table", counts["other_table"], "Other table"),
            Gives("other_per_inch", other_cell, "Rivets per inch by the other table"),
            Gives("other_count", counts["other_count"], "Rivets by the other table"),
            Gives("handbook_per_inch", handbook, "Per inch by an older formula, from memory"),
        ),
        source=_source(table, inputs["use"]),
        caution=SPLICE_CAUTION,
    )


def _source(table: Operand, use: Operand) -> Operand:
    notes = cited("ac43-splice-notes", "ac43-fig-4-20", "ac43-engineering-notes")
    lower = where(same(use, "wing-lower-stringer"), cited("ac43-lower-stringer"))
    printed = operand(cited("ac43-4-9", "ac43-4-10", "ac43-4-11"))
    for one in TABLES:
        printed = where(same(table, one), cited(f"ac43-{one}"), printed)
    listed = say("{printed}; {notes}", printed=("word", printed), notes=("word", operand(notes)))
    both = say("{listed}; {lower}", listed=("word", listed), lower=("word", lower))
    return where(anything(given(lower)), both, listed)


SUMS: tuple[Sum, ...] = (
    Sum(
        "splice",
        "Rivets in a splice",
        "How many rivets does this splice need?",
        (
            Takes("alloy", "metal", "Metal of the sheet", "2024-T3"),
            Takes("clad", "word", "Clad", "yes", ("yes", "no"), "no"),
            Takes("thickness", "thickness", "Sheet", ".032"),
            Takes("diameter", "rivet", "Rivet diameter", "1/8"),
            Takes("width", "length", "Width of the joint", "10"),
            Takes("use", "word", "Where it is", "lap", USES, "full"),
            Takes("head", "word", "Head", "protruding", ("protruding", "flush"), "protruding"),
            Takes("kind", "word", "Kind", "solid", ("solid", "pulled", "reduced-head"), "solid"),
            Takes(
                "rivet", "word", "Alloy of the rivet", "2117",
                ("2117", "2017", "2024", "5056"), "2117",
            ),
            Takes("angle", "angle", "Head angle, if countersunk", "100",
                  optional=True, least=60, most=150),
            Takes("table", "word", "Table to go by", "4-10", TABLES, optional=True),
        ),
        _splice,
    ),
)  # fmt: skip
