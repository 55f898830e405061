"""Rivet diameters for sheets: the band of an existing line, advice for a new joint."""

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
    say,
    where,
)
from bucktail.rules.sums import Finding, Gives, Outcome, Sum, Takes, cited, finds

SOURCES = ("rivet-diameter-target", "rivet-diameter-limits", "rivet-diameter-warning")


def next_size(diameter: Term) -> Operand:
    """The smallest listed diameter (nm) above this one; None above the largest.

    Source: tables/rivet_sizes.csv.
    """
    return lookup("rivet_sizes", "diameter_in", up=("diameter_in", operand(diameter) + 1))


def three_times(sheets: Term) -> Operand:
    """Three times the thickest sheet (nm): the most by NAVEDTRA 14018, about the aim by
    AC 43.13-1B, paragraph 4-58g(2)(a)."""
    return constant("diameter most") * largest(sheets)


def advised(sheets: Term) -> Operand:
    """Diameter (nm) for a new joint: three times the thickest sheet, the next size up, not less
    than 3/32 in; None where no listed rivet is so large.

    Source: AC 43.13-1B, paragraph 4-58g(2)(a); least: NAVEDTRA 14018.
    """
    aim = constant("diameter target") * largest(sheets)
    sought = largest(aim, constant("diameter structural least"))
    return lookup("rivet_sizes", "diameter_in", up=("diameter_in", sought))


def band_least(sheets: Term) -> Operand:
    """Least diameter (nm): the thickest sheet, and 3/32 in. Source: NAVEDTRA 14018."""
    return largest(
        constant("diameter least") * largest(sheets), constant("diameter structural least")
    )


def band_most(sheets: Term) -> Operand:
    """Most diameter (nm): one size over that for a new joint; None where that is not listed.

    Source: the example of AC 43.13-1B, paragraph 4-58g(2)(a), takes 1/8 or 5/32 for .032 in.
    """
    return advised(sheets) + constant("diameter sizes over") * constant("rivet size step")


def inside_band(diameter: Operand, sheets: Term) -> Operand:
    """Yes where the diameter lies in the band."""
    return (diameter >= band_least(sheets)) & ~(diameter > band_most(sheets))


def not_structural(diameter: Operand) -> Operand:
    """Yes below 3/32 in. Source: NAVEDTRA 14018."""
    return diameter < constant("diameter structural least")


def too_small(diameter: Operand) -> Finding:
    """The finding for rivets that are not used in structure."""
    least = constant("diameter structural least")
    return finds(
        not_structural(diameter),
        "check",
        say(
            "Rivets of {has} are not for structure: there the least is {least}.",
            has=("length", diameter),
            least=("length", least),
        ),
    )


def band_findings(diameter: Operand, sheets: Term) -> tuple[Finding, ...]:
    """A rivet judged by its sheets; nothing is found where no diameter is given.

    The low end fails. Over the next size up from three times the thickest sheet the documents
    differ: one size more is to be checked, beyond that it fails.
    """
    three, aim, most = three_times(sheets), advised(sheets), band_most(sheets)
    both = {"rivet": ("length", diameter), "sheet": ("thickness", largest(sheets))}
    slots = {**both, "three": ("length", three)}
    return (
        finds(
            diameter < constant("diameter least") * largest(sheets),
            "fails",
            say("The rivet of {rivet} is thinner than the thickest sheet, {sheet}.", **both),
        ),
        finds(
            diameter > most,
            "fails",
            say(
                "The rivet of {rivet} is more than one size over what the thickest sheet, "
                "{sheet}, asks for: three times the sheet is {three}.",
                **slots,
            ),
        ),
        finds(
            (diameter > aim) & (diameter <= most),
            "check",
            say(
                "The rivet of {rivet} is one size over the usual one for {sheet}. The example of "
                "AC 43.13-1B still takes it; NAVEDTRA 14018 takes {three} as the most.",
                **slots,
            ),
        ),
        finds(
            (diameter > three) & (diameter <= aim) & (diameter >= band_least(sheets)),
            "meets",
            say(
                "The rivet of {rivet} is the usual one for {sheet}: three times the sheet is "
                "{three}, and it is the next size up.",
                **slots,
            ),
        ),
    )


def _new_joint(sheets: Operand, new: Operand) -> tuple[Finding, ...]:
    aim = advised(sheets)
    return (
        finds(
            new & ~given(aim),
            "not covered",
            "Three times the thickest sheet is more than the largest rivet of these tables. "
            "Ask the maker of the kit.",
        ),
        finds(
            new,
            "check",
            say(
                "For a new joint only: three times the thickest sheet is {three}, the size to "
                "take is {aim}. A line on the plans keeps the rivet of the plans.",
                three=("length", three_times(sheets)),
                aim=("length", aim),
            ),
        ),
        finds(
            new & (three_times(sheets) < constant("diameter structural least")),
            "meets",
            say(
                "In structure {least} is the least.",
                least=("length", constant("diameter structural least")),
            ),
        ),
    )


def _diameter(inputs: Mapping[str, Operand]) -> Outcome:
    sheets, line = inputs["sheets"], inputs["line"]
    existing = given(line)
    inside = existing & inside_band(line, sheets)
    band = {
        "least": ("length", band_least(sheets)),
        "three": ("length", three_times(sheets)),
    }
    return Outcome(
        findings=(
            finds(
                existing & not_structural(line),
                "fails",
                say(
                    "In structure {least} is the least.",
                    least=("length", constant("diameter structural least")),
                ),
            ),
            *band_findings(line, sheets),
            finds(
                inside & (line <= three_times(sheets)),
                "meets",
                say("The rivet lies inside the band, {least} to {three}.", **band),
            ),
            *_new_joint(sheets, ~existing),
        ),
        gives=(
            Gives("diameter_mm", where(existing, line, advised(sheets)), "Diameter"),
            Gives("inside_band", where(existing, where(inside, "yes", "no")), "Inside the band"),
            Gives("thickest_mm", largest(sheets), "Thickest sheet"),
            Gives("band_least_mm", band_least(sheets), "Band, from"),
            Gives("three_times_mm", three_times(sheets), "Three times the thickest sheet"),
            Gives("band_most_mm", band_most(sheets), "Band, to"),
        ),
        source=operand(cited(*SOURCES)),
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        "diameter",
        "Rivet diameter",
        "Does this rivet suit these sheets?",
        (
            Takes("sheets", "thicknesses", "Sheets of the joint", ".032,.032"),
            Takes("line", "rivet", "Rivet the plans ask for", "1/8", optional=True),
        ),
        _diameter,
    ),
)
