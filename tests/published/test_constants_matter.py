"""A figure of the rules that is wrong by 1 % is noticed by a printed answer, or listed with why."""

from __future__ import annotations

from running.changes import HUNDREDTH, Figure, Readings, changed, noticed, used
from running.published import checks, rows

LEAST_SHARE = 0.95
WAYS = {"up": HUNDREDTH, "down": -HUNDREDTH}


def test_changing_a_figure_by_one_percent_is_noticed_or_listed_with_why() -> None:
    readings, figures = Readings(checks()), list(used())
    missed = {
        (way, one.table, one.column, one.name)
        for way, by in WAYS.items()
        for one in figures
        if not noticed(one, by, readings)
    }
    listed = rows("not_noticed")
    assert all(row["why"] for row in listed)
    held = {(row["change"], row["table"], row["column"], row["row"]) for row in listed}
    assert sorted(missed - held) == [], "not noticed, and not listed in not_noticed.csv"
    assert sorted(held - missed) == [], "listed in not_noticed.csv, and noticed"
    for way in WAYS:
        share = 1 - sum(one[0] == way for one in missed) / len(figures)
        print(f"1 % {way}: {share:.1%} of {len(figures)} figures noticed")
        assert share >= LEAST_SHARE


def test_a_change_that_matters_and_one_that_does_not_are_told_apart() -> None:
    some = tuple(check for check in checks() if check.id == "bend-channel-allowance")
    readings = Readings(some)
    assert noticed(Figure("constants", 0, "bend allowance radius"), HUNDREDTH, readings)
    assert not noticed(Figure("constants", 0, "primer solids low"), HUNDREDTH, readings)


def test_one_figure_is_changed_and_no_other() -> None:
    figure = next(one for one in used() if one.table == "rivets_per_inch")
    before, after = changed(figure, 0 * HUNDREDTH), changed(figure, HUNDREDTH)
    pairs = (before.tables[figure.table].rows, after.tables[figure.table].rows)
    different = [
        (one, other)
        for row, new in zip(*pairs, strict=True)
        for one, other in zip(row, new, strict=True)
        if one != other
    ]
    assert len(different) == 1
    assert different[0][1] / different[0][0] == 1 + HUNDREDTH  # type: ignore[operator]
    assert before.constants == after.constants
