"""Listed sheet thicknesses and families.

Published: the thickness column of AC 43.13-1B, tables 4-9 to 4-11. The tolerances are a secondary
list for ASTM B209 (low confidence); they only match, they never accept.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bucktail.rules.gauges import (
    Gauge,
    families,
    family,
    gauge_of,
    gauges,
    lands_on_gauge,
    nearest_gauge,
    tolerance_nm,
)
from bucktail.rules.lengths import lands

MIL = 25_400


def inches(text: str) -> int:
    return int(Fraction(text) * 25_400_000)


# AC 43.13-1B, tables 4-9, 4-10 and 4-11, first column
AC_THICKNESSES = ".016 .020 .025 .032 .036 .040 .051 .064 .081 .091 .102 .128".split()


@pytest.mark.parametrize("text", AC_THICKNESSES)
def test_every_thickness_of_the_ac_tables_is_listed(text: str) -> None:
    assert any(gauge.nm == inches(text) for gauge in gauges())


@pytest.mark.parametrize(
    ("new", "old"),
    [(".050", ".051"), (".063", ".064"), (".080", ".081"), (".090", ".091"), (".100", ".102"),
     (".125", ".128"), (".070", ".071"), (".188", ".190")],
)  # fmt: skip
def test_current_stock_and_the_older_listing_are_one_family(new: str, old: str) -> None:
    one = family(inches(new))
    assert one is not None and one is family(inches(old))
    assert one.id == f"{new}/{old}"


@pytest.mark.parametrize(
    ("thin", "thick"),
    [(".016", ".018"), (".018", ".020"), (".020", ".025"), (".025", ".032"), (".032", ".036"),
     (".036", ".040"), (".040", ".050"), (".064", ".070"), (".071", ".080"), (".128", ".160")],
)  # fmt: skip
def test_different_thicknesses_are_different_families(thin: str, thick: str) -> None:
    assert family(inches(thin)) is not family(inches(thick))


def test_millimetre_stock_belongs_to_the_inch_thickness_it_is_sold_for() -> None:
    for mm, name in ((0.5, ".020"), (0.8, ".032"), (1.0, ".040"), (1.6, ".063/.064")):
        found = family(round(mm * 1_000_000))
        assert found is not None and found.id == name


def test_six_tenths_of_a_millimetre_is_not_taken_for_025() -> None:
    assert family(600_000) is not family(inches(".025"))


def joined(thin: Gauge, thick: Gauge) -> bool:
    return thick.nm - thin.nm <= thin.tolerance_nm


def test_a_family_is_a_chain_inside_the_tolerance_and_four_per_cent() -> None:
    for one in families():
        for thin, thick in zip(one.members, one.members[1:], strict=False):
            assert joined(thin, thick), (thin.text, thick.text)
        assert one.thickest_nm <= one.thinnest_nm * 1.04


def test_no_two_neighbouring_families_could_be_one() -> None:
    for one, other in combinations(families(), 2):
        ends = sorted((one, other), key=lambda item: item.thinnest_nm)
        near = joined(ends[0].members[-1], ends[1].members[0])
        assert not near or ends[1].thickest_nm > ends[0].thinnest_nm * 1.04, (one.id, other.id)


def test_the_same_sheet_reads_032_over_film_and_025_bare() -> None:
    over_film, bare = family(31 * MIL), family(25 * MIL)
    assert over_film is not None and over_film.id == ".032"
    assert bare is not None and bare.id == ".025"


@pytest.mark.parametrize(
    ("nm", "lands_there"),
    [(inches(".0265"), True), (inches(".0265") + 1, False), (inches(".042"), True),
     (inches(".042") + 1, False), (1_149_200, True), (1_149_199, False), (inches(".045"), False),
     (inches(".250"), True), (inches(".250") + 1, False), (1, False)],
)  # fmt: skip
def test_the_tolerance_is_met_to_the_nanometre(nm: int, lands_there: bool) -> None:
    assert lands_on_gauge(nm) is lands_there
    assert lands(nm, gauges()) is lands_there


def test_outside_its_range_the_tolerance_table_gives_no_number() -> None:
    assert tolerance_nm(inches(".005")) is None
    assert tolerance_nm(inches(".250")) is None
    assert tolerance_nm(inches(".032")) == inches(".0015")


def test_between_two_as_near_the_thinner_is_taken() -> None:
    middle = inches(".017")
    assert nearest_gauge(middle).nm == inches(".016")
    taken = gauge_of(middle)
    assert taken is not None and taken.nm == inches(".016")


@given(st.integers(1, 10_000_000))
def test_a_family_is_only_named_inside_a_tolerance(nm: int) -> None:
    found = family(nm)
    assert (found is not None) == lands_on_gauge(nm) == lands(nm, gauges())
    if found:
        assert min(abs(nm - one.nm) - one.tolerance_nm for one in found.members) <= 0
