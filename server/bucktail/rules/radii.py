"""How tight a sheet may be bent: the published radii, and the cautious one among them."""

from __future__ import annotations

from collections.abc import Mapping

from bucktail.rules.recording import (
    Operand,
    Term,
    given,
    largest,
    lookup,
    operand,
    round_to,
    same,
    say,
    where,
)
from bucktail.rules.sums import Finding, Gives, Outcome, Sum, Takes, cited, finds
from bucktail.rules.thicknesses import listed_row, next_thicker_row

OTHERS = ("radii-producers", "radii-6061", "radii-shop", "radii-aircraft")


def column_thickness(alloy: Term, thickness: Term) -> Operand:
    """The column of Table 4-6 (nm) for a sheet: equal or the next thicker, .016 to .258 in."""
    return next_thicker_row("bend_radii", thickness, {"metal": alloy})


def published_radius(alloy: Term, thickness: Term, end: str) -> Operand:
    """An end ("min" or "max") of the recommended range (nm) of the inside radius at 90 degrees.

    The multiple of t printed for the metal in the column, times the sheet itself.
    Source: AC 43.13-1B, Table 4-6.
    """
    keys = {"metal": alloy, "thickness_in": column_thickness(alloy, thickness)}
    return lookup("bend_radii", f"{end}_t", exact=keys) * operand(thickness)


def producers_row(alloy: Term, thickness: Term) -> Operand:
    """The row of the producers' table (nm): 1/64 to 1/4 in."""
    return listed_row("bend_radii_producers", thickness, {"metal": alloy})


def producers_radius(alloy: Term, thickness: Term) -> Operand:
    """Least inside radius (nm) for cold bends by the producers' table, in multiples of t."""
    keys = {"metal": alloy, "thickness_in": producers_row(alloy, thickness)}
    return lookup("bend_radii_producers", "radius_t", exact=keys) * operand(thickness)


def row_in_inches(alloy: Term, thickness: Term, table: str) -> Operand:
    """The row (nm) of a table that prints inches: "radii-shop" or "radii-aircraft"."""
    return listed_row("bend_radii_inches", thickness, {"metal": alloy, "source": table})


def radius_in_inches(alloy: Term, thickness: Term, table: str) -> Operand:
    """Least inside radius (nm) by a table that prints inches; see row_in_inches."""
    row = row_in_inches(alloy, thickness, table)
    keys = {"metal": alloy, "source": table, "thickness_in": row}
    return lookup("bend_radii_inches", "radius_in", exact=keys)


def cautious_radius(alloy: Term, thickness: Term) -> Operand:
    """The largest of all published radii (nm): the upper end of Table 4-6 and the other tables.

    Source: cautious choice where the tables differ by up to one thickness.
    """
    return largest(
        published_radius(alloy, thickness, "max"),
        producers_radius(alloy, thickness),
        radius_in_inches(alloy, thickness, "radii-shop"),
        radius_in_inches(alloy, thickness, "radii-aircraft"),
    )


def _whole(length: Operand) -> Operand:
    return round_to(length)


def _grain(grain: Operand) -> tuple[Finding, ...]:
    return (
        finds(
            same(grain, "along"),
            "check",
            "A bend along the grain cracks sooner than the tables say: turn the piece so that the "
            "bend lies across the grain, or bend a strip of the same sheet first.",
        ),
        finds(
            same(grain, "unknown"),
            "check",
            "The grain is not known: find it (the mill's marking usually runs along it) and lay "
            "the bend across it.",
        ),
    )


def _findings(
    inputs: Mapping[str, Operand], column: Operand, low: Operand, high: Operand, cautious: Operand
) -> tuple[Finding, ...]:
    figures: dict[str, tuple[str, Term]] = {"cautious": ("length", cautious)}
    return (
        finds(
            ~given(cautious),
            "not covered",
            "No published table lists this metal in this thickness. Use the data of its maker.",
        ),
        finds(
            given(cautious) & ~given(high),
            "check",
            say(
                "The aviation table does not list this metal in this thickness; another does, "
                "with {cautious} at least.",
                **figures,
            ),
        ),
        finds(
            cautious > high,
            "check",
            say(
                "Published tables differ: the upper end of this one is {high}, another asks for "
                "{cautious}.",
                high=("length", high),
                **figures,
            ),
        ),
        finds(
            given(high) & ~same(column, inputs["thickness"]),
            "meets",
            say(
                "This sheet is {has}; the column of {column} is taken, the next thicker.",
                has=("thickness", inputs["thickness"]),
                column=("thickness", column),
            ),
        ),
        *_grain(inputs["grain"]),
        *_wanted(inputs["radius"], low, cautious),
    )


def _wanted(wanted: Operand, low: Operand, cautious: Operand) -> tuple[Finding, ...]:
    """The radius that is to be bent, where one was typed."""
    return (
        finds(
            wanted < where(given(low), low, cautious),
            "fails",
            say(
                "The radius of {radius} is below what is published for this sheet.",
                radius=("length", wanted),
            ),
        ),
        finds(
            (wanted >= low) & (wanted < cautious),
            "check",
            say(
                "The radius of {radius} is below the cautious one of {cautious}.",
                radius=("length", wanted),
                cautious=("length", cautious),
            ),
        ),
        finds(
            wanted >= cautious,
            "meets",
            say("The radius of {radius} is large enough.", radius=("length", wanted)),
        ),
    )


def _by_table(alloy: Operand, thickness: Operand, name: str, label: str) -> tuple[Gives, ...]:
    """The radius of a table in inches, and which of its rows was taken."""
    table = f"radii-{name}"
    return (
        Gives(f"{name}_mm", radius_in_inches(alloy, thickness, table), label),
        Gives(f"{name}_row_mm", row_in_inches(alloy, thickness, table), "Its row"),
    )


def _radius(inputs: Mapping[str, Operand]) -> Outcome:
    alloy, thickness = inputs["alloy"], inputs["thickness"]
    low = _whole(published_radius(alloy, thickness, "min"))
    high = _whole(published_radius(alloy, thickness, "max"))
    column = where(given(high), column_thickness(alloy, thickness))
    cautious = _whole(cautious_radius(alloy, thickness))
    return Outcome(
        findings=_findings(inputs, column, low, high, cautious),
        gives=(
            Gives("cautious_mm", cautious, "Cautious inside radius"),
            Gives("min_mm", low, "Published range, from"),
            Gives("max_mm", high, "Published range, to"),
            Gives("column_mm", column, "Column of the table"),
            Gives("producers_mm", _whole(producers_radius(alloy, thickness)), "Producers' table"),
            Gives("producers_row_mm", producers_row(alloy, thickness), "Its row"),
            *_by_table(alloy, thickness, "shop", "Shop table"),
            *_by_table(alloy, thickness, "aircraft", "Aircraft table"),
        ),
        source=operand(cited("ac43-4-6", *OTHERS, "bend-grain")),
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        "radius",
        "Bend radius",
        "How tight may this sheet be bent?",
        (
            Takes("alloy", "metal", "Metal", "2024-T3"),
            Takes("thickness", "thickness", "Sheet", ".032"),
            Takes(
                "grain", "word", "Bend line to the grain", "across",
                ("across", "along", "unknown"), "unknown",
            ),
            Takes("radius", "length", "Radius you mean to bend", "1/8", optional=True),
        ),
        _radius,
    ),
)  # fmt: skip
