"""What counts as one gauge in a rule is what the list of gauges treats as one."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations_with_replacement

from bucktail.rules.evaluate import run
from bucktail.rules.gauges import gauges, tolerance_nm
from bucktail.rules.program import program
from bucktail.rules.recording import given_as
from bucktail.rules.rulebook import book
from bucktail.rules.thicknesses import mill_tolerance, one_gauge

SAME = program({"same": one_gauge(given_as("one"), given_as("other"))})
TOLERANCE = program({"tolerance": mill_tolerance(given_as("one"))})


def same_gauge(one: int, other: int) -> object:
    """The rule's answer for two thicknesses in nm."""
    inputs = {"one": Fraction(one), "other": Fraction(other)}
    return run(SAME, inputs, book(), "in")["same"]


def test_one_gauge_is_one_family_of_the_list_but_for_the_ends_of_the_widest() -> None:
    differ = []
    for one, other in combinations_with_replacement(gauges(), 2):
        same = same_gauge(one.nm, other.nm)
        assert same_gauge(other.nm, one.nm) is same
        if same is not (one.family == other.family):
            differ.append((one.text, other.text, same))
    # joined in the list by .100 in, which is near enough to both: the rule looks at the two alone
    assert differ == [("2.5 mm", ".102 in", False)]


def test_the_tolerance_is_that_of_the_list() -> None:
    for thousandths in range(6, 260):
        nm = thousandths * 25_400
        found = run(TOLERANCE, {"one": Fraction(nm)}, book(), "in")["tolerance"]
        assert found == (tolerance_nm(nm) or 0), thousandths
