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
    operand,
    round_to,
    same,
    say,
    tan_deg,
    where,
)
from bucktail.rules.sums import Finding, Gives, Outcome, Sum, Takes, cited, finds

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
    return where(thick_enough, "countersink", where(can_be_dimpled(thickness), "dimple", "neither"))


def _findings(inputs: Mapping[str, Operand], chosen: Operand) -> tuple[Finding, ...]:
    thickness, diameter, under = inputs["thickness"], inputs["diameter"], inputs["under"]
    needed = least_countersunk(diameter, under)
    figures = {"needed": ("thickness", needed), "has": ("thickness", thickness)}
    thin = ~same(chosen, "countersink")
    limit = constant("dimple thickest")
    return (
        finds(
            ~same(inputs["angle"], constant("flush head angle")),
            "not covered",
            "The tables do not hold for heads of this angle. "
            "Use the data of the maker of this rivet.",
        ),
        finds(~given(needed), "not covered", "No table lists flush heads of this diameter."),
        finds(
            given(under) & thin,
            "fails",
            say("To be countersunk under a dimpled skin it needs {needed}, has {has}.", **figures),
        ),
        finds(
            given(under) & same(chosen, "dimple"),
            "fails",
            "Dimple this layer too, or put a thicker one there.",
        ),
        finds(
            ~given(under) & same(chosen, "dimple"),
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
            same(chosen, "countersink"),
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
        findings=_findings(inputs, chosen),
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
