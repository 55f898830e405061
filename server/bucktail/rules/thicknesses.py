"""Sheet thicknesses in rules: the mill tolerance, what is one gauge, and the row of a table."""

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
    smallest,
    where,
)


def mill_tolerance(thickness: Term) -> Operand:
    """Tolerance (nm, plus and minus) of sheet of a thickness (nm); 0 above .249 in.

    Below .006 in that of .006 in stands. Source: tables/thickness_tolerance.csv, which goes by
    whole thousandths of an inch.
    """
    thousandths = round_to(thickness, constant("thousandth"))
    found = lookup("thickness_tolerance", "tolerance_in", up=("to_in", thousandths))
    return where(given(found), found, 0)


def one_gauge(one: Term, other: Term) -> Operand:
    """Yes where two thicknesses (nm) are bought under different names and not told apart.

    Their gap is inside the thinner one's tolerance and the thicker at most 4 % over the thinner.
    Source: own rule, worked out from the tolerances. It gives the families of tables/gauges.csv,
    but for the ends of the widest, 2.5 mm and .102 in, which are a little too far apart.
    """
    thin, thick = smallest(one, other), largest(one, other)
    close = thick <= thin * constant("gauge spread most")
    return (thick - thin <= mill_tolerance(thin)) & close


def thinnest_row(table: str, exact: Mapping[str, Term]) -> Operand:
    """The smallest thickness (nm) that a table lists for what `exact` names."""
    return lookup(table, "thickness_in", exact=exact, up=("thickness_in", 0))


def next_thicker_row(table: str, thickness: Term, exact: Mapping[str, Term]) -> Operand:
    """The listed thickness (nm) that is equal or the next thicker.

    None beyond the thickest row, and below the thinnest by more than its mill tolerance: nothing
    is carried on past the ends of a table. Source: cautious choice where stock and tables list
    .050 and .051, .063 and .064 and so on.
    """
    return _row(table, thickness, thickness, exact)


def listed_row(table: str, thickness: Term, exact: Mapping[str, Term]) -> Operand:
    """As next_thicker_row, but sheet within its mill tolerance of a thinner row belongs to that:
    .032 in to 1/32, .051 in to .050."""
    return _row(table, thickness, operand(thickness) - mill_tolerance(thickness), exact)


def _row(table: str, thickness: Term, sought: Term, exact: Mapping[str, Term]) -> Operand:
    thinnest = thinnest_row(table, exact)
    row = lookup(table, "thickness_in", exact=exact, up=("thickness_in", sought))
    return where(operand(thickness) >= thinnest - mill_tolerance(thinnest), row)
