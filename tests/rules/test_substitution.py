"""Another sheet in place of the wanted one: only the same meets."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from bucktail.rules.cells import Book, Cells
from bucktail.rules.gauges import gauges
from bucktail.rules.reading import metals
from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.rulebook import book

WANTED = {"alloy": "2024-T3", "clad": "yes", "thickness": ".032"}
SAME = {"offered_alloy": "2024-T3", "offered_clad": "yes", "offered_thickness": ".032"}


def judged(tables: Book | None = None, **typed: str) -> dict[str, Any]:
    """The answer; the same sheet as is wanted where nothing else is said."""
    answer = reckon("substitute", {**WANTED, **SAME, **typed}, "in", tables)
    assert not isinstance(answer, Unread), answer
    return answer


def test_the_same_meets_and_so_does_the_same_under_another_name_of_the_gauge() -> None:
    assert judged()["verdict"] == "meets"
    assert judged(offered_alloy="2024 t3")["verdict"] == "meets"
    assert judged(offered_thickness="0.8 mm")["verdict"] == "meets"
    assert judged(thickness=".051", offered_thickness=".050")["verdict"] == "meets"


@pytest.mark.parametrize(
    ("typed", "word"),
    [
        ({"offered_thickness": ".025"}, "thinner"),
        ({"offered_thickness": ".030"}, "thinner"),
        ({"offered_clad": "no"}, "Bare"),
        ({"offered_alloy": "unknown"}, "not known"),
        ({"offered_alloy": "from the scrap bin"}, "not known"),
        ({"offered_alloy": "2024-T42"}, "temper"),
        ({"offered_alloy": "2024-O"}, "annealed"),
        ({"offered_alloy": "6061-T6", "offered_clad": "no", "protected": "yes"}, "weaker"),
        ({"offered_alloy": "6061-T6", "offered_clad": "no", "offered_thickness": ".063",
          "protected": "yes"}, "weaker"),
        ({"offered_alloy": "3003-H14", "offered_clad": "no", "protected": "yes"}, "weaker"),
        ({"offered_alloy": "4130-N", "offered_clad": "no", "protected": "yes"}, "Steel"),
        ({"clad": "no"}, "carries less"),
    ],
)  # fmt: skip
def test_weaker_softer_thinner_unprotected_or_unknown_fails(
    typed: dict[str, str], word: str
) -> None:
    answer = judged(**typed)
    assert answer["verdict"] == "fails" and word in answer["why"], answer


@pytest.mark.parametrize(
    "typed",
    [
        {"offered_thickness": ".040"},
        {"offered_thickness": ".036"},
        {"offered_alloy": "7075-T6"},
        {"offered_clad": "no", "protected": "yes"},
        {"clad": "no", "offered_thickness": ".040"},
    ],
)
def test_thicker_stronger_or_protected_is_looked_at_again(typed: dict[str, str]) -> None:
    assert judged(**typed)["verdict"] == "check"


def test_what_a_thicker_sheet_changes_is_told() -> None:
    answer = judged(
        offered_thickness=".050", diameter="1/8", head="flush", stack=".032,.040", radius="1/8"
    )
    assert (answer["was_dash"], answer["dash"]) == (4, 4.5)
    assert (answer["was_treatment"], answer["treatment"]) == ("dimple", "countersink")
    assert answer["radius_mm"] > answer["was_radius_mm"]
    assert answer["mass_change_percent"] == 56.25
    for told in ("-4 to -4.5", "countersink, not dimple", "tighter", "56.25 % more"):
        assert told in answer["why"]


def test_nothing_but_the_same_metal_cladding_and_gauge_ever_meets() -> None:
    listed = [gauge for gauge in gauges() if gauge.text in (".032 in", ".040 in", "0.8 mm")]
    for metal in metals():
        for clad in ("yes", "no"):
            for gauge in listed:
                answer = judged(
                    offered_alloy=metal, offered_clad=clad, offered_thickness=gauge.text,
                    protected="yes",
                )  # fmt: skip
                same = (metal, clad, gauge.family) == ("2024-T3", "yes", ".032")
                assert (answer["verdict"] == "meets") is same, (metal, clad, gauge.text)


def test_strengths_told_from_memory_never_make_it_good() -> None:
    table = book().tables["strengths"]
    numbers = {table.columns[one] for one in ("ftu_ksi", "fty_ksi")}
    for times in (Fraction(1, 1000), Fraction(1000)):
        # the wanted sheet made ever weaker or stronger than all others
        rows = tuple(
            tuple(
                cell * times if at in numbers and isinstance(cell, Fraction) else cell
                for at, cell in enumerate(row)
            )
            if row[table.columns["metal"]] == "2024-T3"
            else row
            for row in table.rows
        )
        tables = replace(book(), tables={**book().tables, "strengths": Cells(table.columns, rows)})
        verdicts = {
            judged(tables, offered_alloy=metal, offered_clad="no", protected="yes")["verdict"]
            for metal in metals()
            if metal != "2024-T3"
        }
        assert "meets" not in verdicts and verdicts <= {"check", "fails"}
        assert ("check" in verdicts) is (times < 1)
