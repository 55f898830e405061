"""What every piece has: sheet from stock, a blank, and a new rivet for each line it joins."""

from __future__ import annotations

from bucktail.rules.recording import (
    Operand,
    Term,
    constant,
    floor_to,
    given,
    joined,
    largest,
    lookup,
    operand,
    same,
    say,
    where,
)
from bucktail.rules.rivets import (
    dash_number,
    exact_length,
    length_findings,
    part_number,
    protrusion_in_diameters,
)
from bucktail.rules.spacing import pitch_least
from bucktail.rules.sums import CAUTION, MARKING, Finding, Gives, Takes, finds

PIECE_CAUTION = f"{CAUTION} {MARKING}"
METAL = Takes("alloy", "metal", "Metal of the sheet", "2024-T3")
CLAD = Takes("clad", "word", "Clad", "yes", ("yes", "no"), "no")
SHEET = Takes("thickness", "thickness", "Sheet", ".032")
STACK = Takes("stack", "thicknesses", "Layers of the line as it is", ".032,.040")
PITCH = Takes("pitch", "length", "Pitch to keep", "1", optional=True)


def stock_not_above(thickness: Term) -> Operand:
    """The thickest sheet (nm) of the stock list that is not thicker. None below the list."""
    return lookup("sheet_stock", "thickness_in", down=("thickness_in", thickness))


def stock_not_below(thickness: Term) -> Operand:
    """The thinnest sheet (nm) of the stock list that is not thinner. None above the list."""
    return lookup("sheet_stock", "thickness_in", up=("thickness_in", thickness))


def next_heavier(thickness: Term) -> Operand:
    """The next sheet (nm) of the stock list that is thicker and not the same gauge under another
    name. Source: AC 43.13-1B, Figure 4-20 and paragraph 4-58k."""
    beyond = operand(thickness) * constant("gauge spread most")
    return stock_not_below(beyond + 1)


def usual_pitch(pitch: Term, diameter: Term, rows: Operand) -> Operand:
    """The pitch (nm) that is told; else 4 D, and not less than the rows may have."""
    usual = largest(constant("pitch usual low") * operand(diameter), pitch_least(diameter, rows))
    return where(given(pitch), pitch, usual)


def rivets_along(length: Term, edge: Term, pitch: Operand) -> Operand:
    """How many rivets a length (nm) holds with an edge distance at both ends; 0 where none."""
    room = operand(length) - 2 * operand(edge)
    return where(room >= 0, floor_to(room / pitch) + 1, 0)


def first_hole(length: Term, count: Operand, pitch: Operand) -> Operand:
    """Where the first hole lies (nm from the end) so that the row is in the middle."""
    return where(count > 0, floor_to((operand(length) - (count - 1) * pitch) / 2))


def new_stack(stack: Term, *added: Term) -> Operand:
    """The layers of a line with those that are added; None where one of these is not known."""
    known = given(added[0])
    for one in added[1:]:
        known = known & given(one)
    return where(known, joined(stack, *added))


def rivet_gives(stack: Term, with_piece: Operand, diameter: Term, head: Term) -> tuple[Gives, ...]:
    """The rivet of the line with the piece in it, and the one before."""
    dash = dash_number(exact_length(with_piece, diameter))
    return (
        Gives("part_number", part_number(dash, diameter, head), "Rivet"),
        Gives("dash", dash, "Dash number"),
        Gives("was_dash", dash_number(exact_length(stack, diameter)), "Dash number before"),
        Gives(
            "protrusion_d",
            protrusion_in_diameters(dash, with_piece, diameter),
            "Sticks out, in diameters",
        ),
    )


def rivet_findings(
    stack: Term, with_piece: Operand, diameter: Term, head: Term
) -> tuple[Finding, ...]:
    """What the thicker stack does to the rivets of the line."""
    was = dash_number(exact_length(stack, diameter))
    dash = dash_number(exact_length(with_piece, diameter))
    return (
        finds(
            ~same(was, dash) & given(dash) & given(was),
            "meets",
            say(
                "The rivets of the line change from -{was} to -{dash}.",
                was=("number", was),
                dash=("number", dash),
            ),
        ),
        *length_findings(given(dash), dash, with_piece, operand(diameter)),
        finds(
            same(head, "flush"),
            "check",
            "Where the layers are dimpled the piece is dimpled with them: a flat one would keep "
            "them apart.",
        ),
    )


def blank_gives(
    thickness: Operand, a: Term, b: Term, grain: Term, holes: Term = None
) -> tuple[Gives, ...]:
    """The blank to cut: sheet, its sides a (along the rows) and b (across), holes, and the side
    along which the grain has to run: "a", "b" or "any"."""
    return (
        Gives("thickness_mm", thickness, "Sheet"),
        Gives("blank_a_mm", operand(a), "Blank, side a, along"),
        Gives("blank_b_mm", operand(b), "Blank, side b, across"),
        Gives("grain", operand(grain), "Grain runs along side"),
        Gives("holes", operand(holes), "Holes"),
    )
