"""Flush heads: dimple or countersink, and how thick a countersunk sheet must be."""

from __future__ import annotations

from collections.abc import Mapping

from bucktail.rules.recording import (
    Operand,
    Term,
    constant,
    given,
    largest,
    lookup,
    one_of,
    operand,
    round_to,
    same,
    say,
    tan_deg,
    value_at,
    where,
)
from bucktail.rules.sums import Finding, Gives, Outcome, Sum, Takes, cited, finds

COUNTERSINK, DIMPLE, OVER = "countersink", "dimple", "dimple-on-countersink"
SOURCES = ("csk-min-sheet", "dimple-thickest", "dimpled-skin", "flush-head")


def head_height(diameter: Term) -> Operand:
    """Height (nm) of a flush head: (A - D) / (2 tan 50 deg), A its diameter, angle 100 degrees.

    Source: geometry of NASM 20426, head diameters of tables/rivet_sizes.csv.
    """
    head = lookup("rivet_sizes", "flush_head_diameter_in", exact={"diameter_in": diameter})
    half_angle = constant("flush head angle") / 2
    return round_to((head - diameter) / (2 * tan_deg(half_angle)))


def least_countersunk(diameter: Term, skin_above: Term) -> Operand:
    """Least sheet (nm) to countersink: the larger of the table and head height + 0.305 x the
    dimpled skin above it; without a dimpled skin the table alone.

    Source: TM 9-2320-363-34-2, table 4; 1/sin 50 deg - 1 = 0.305 for the nested dimple.
    """
    printed = lookup("rivet_sizes", "csk_min_in", exact={"diameter_in": diameter})
    nested = head_height(diameter) + constant("dimpled skin factor") * skin_above
    return round_to(largest(printed, nested))


def can_be_dimpled(thickness: Term) -> Operand:
    """Yes up to .040 in. Source: AC 65-15A, chapter 5."""
    return operand(thickness) <= constant("dimple thickest")


def treatment(thickness: Operand, diameter: Term, skin_above: Term) -> Operand:
    """countersink where the sheet is thick enough, else dimple where thin enough, else neither."""
    thick_enough = thickness >= least_countersunk(diameter, skin_above)
    return where(thick_enough, COUNTERSINK, where(can_be_dimpled(thickness), DIMPLE, "neither"))


def layer_findings(treated: Operand, stack: Operand, diameter: Operand) -> tuple[Finding, ...]:
    """Layers that hold a smaller flush head, judged for this one; nothing for protruding heads.

    `treated` is how they are made now: COUNTERSINK (the first), DIMPLE (all), OVER (the first
    dimpled into the second), or "neither" where the tables allow none of these.
    """
    top, second = value_at(stack, 0), value_at(stack, 1)
    alone, under = least_countersunk(diameter, None), least_countersunk(diameter, top)
    dimpled = where(same(treated, DIMPLE), largest(stack), top)
    is_dimpled = one_of(treated, DIMPLE, OVER)
    return (
        finds(
            same(treated, "neither"),
            "fails",
            "By the tables the layer at the head can be neither dimpled nor countersunk for the "
            "rivet that is in it. Say which it is with treatment.",
        ),
        finds(
            same(treated, COUNTERSINK) & (top < alone),
            "fails",
            say(
                "Countersunk for the new head it needs {needed}, has {has}; a countersunk layer "
                "cannot be dimpled.",
                needed=("thickness", alone),
                has=("thickness", top),
            ),
        ),
        finds(
            same(treated, OVER) & (second < under),
            "fails",
            say(
                "Countersunk under the dimpled skin for the new head it needs {needed}, has {has}.",
                needed=("thickness", under),
                has=("thickness", second),
            ),
        ),
        finds(
            is_dimpled & ~can_be_dimpled(dimpled),
            "check",
            say(
                "A dimpled layer of {has} is thicker than is usually dimpled ({limit}).",
                has=("thickness", dimpled),
                limit=("thickness", constant("dimple thickest")),
            ),
        ),
        finds(
            is_dimpled,
            "meets",
            "Dimple again with the die of the new size, and look for cracks.",
        ),
    )


def _covered(inputs: Mapping[str, Operand]) -> tuple[Finding, ...]:
    needed = least_countersunk(inputs["diameter"], inputs["under"])
    return (
        finds(
            ~same(inputs["angle"], constant("flush head angle")),
            "not covered",
            "The tables do not hold for heads of this angle. "
            "Use the data of the maker of this rivet.",
        ),
        finds(~given(needed), "not covered", "No table lists flush heads of this diameter."),
    )


def _findings(inputs: Mapping[str, Operand], chosen: Operand) -> tuple[Finding, ...]:
    thickness, under = inputs["thickness"], inputs["under"]
    needed = least_countersunk(inputs["diameter"], under)
    figures = {"needed": ("thickness", needed), "has": ("thickness", thickness)}
    thin = ~same(chosen, COUNTERSINK)
    limit = constant("dimple thickest")
    return (
        finds(
            given(under) & thin,
            "fails",
            say("To be countersunk under a dimpled skin it needs {needed}, has {has}.", **figures),
        ),
        finds(
            given(under) & same(chosen, DIMPLE),
            "fails",
            "Dimple this layer too, or put a thicker one there.",
        ),
        finds(
            ~given(under) & same(chosen, DIMPLE),
            "meets",
            say("Dimple: countersinking needs {needed}, this is {has}.", **figures),
        ),
        finds(
            ~given(under) & same(chosen, "neither"),
            "fails",
            say(
                "Neither: {has} is too thick to dimple (up to {limit}) and too thin to countersink "
                "(from {needed}). Use a smaller rivet, a protruding head, or ask the maker.",
                limit=("thickness", limit),
                **figures,
            ),
        ),
        finds(
            same(chosen, COUNTERSINK),
            "meets",
            say("Countersink: it needs {needed}, has {has}.", **figures),
        ),
        finds(
            given(under) & ~can_be_dimpled(under),
            "check",
            say(
                "The skin above is thicker than is usually dimpled ({limit}).",
                limit=("thickness", limit),
            ),
        ),
    )


def _flush(inputs: Mapping[str, Operand]) -> Outcome:
    chosen = treatment(inputs["thickness"], inputs["diameter"], inputs["under"])
    return Outcome(
        findings=(*_covered(inputs), *_findings(inputs, chosen)),
        gives=(
            Gives("treatment", chosen, "Treatment"),
            Gives(
                "needed_mm",
                least_countersunk(inputs["diameter"], inputs["under"]),
                "Least sheet to countersink",
            ),
            Gives("head_height_mm", head_height(inputs["diameter"]), "Height of the head"),
        ),
        source=operand(cited(*SOURCES)),
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        "flush",
        "Dimple or countersink",
        "Is this sheet dimpled or countersunk?",
        (
            Takes("thickness", "thickness", "Sheet", ".040"),
            Takes("diameter", "rivet", "Rivet diameter", "3/32"),
            Takes("under", "thickness", "Dimpled skin above it", ".032", optional=True),
            Takes("angle", "angle", "Head angle", "100", default="100", least=60, most=150),
        ),
        _flush,
        first=True,
    ),
)
