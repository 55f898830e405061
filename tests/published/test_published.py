"""The bench sums give what published pages print, here and on the phone."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.sources import SEEN
from bucktail.rules.sums import VERDICTS
from running.published import Check, checks, close, rows
from running.reckoner import PhoneReckoner

CHECKS = checks()
#: what stands beside a verdict in every answer; anything else is a figure
SAID = {"verdict", "why", "source", "caution", "read_as"}


@pytest.mark.parametrize("check", CHECKS, ids=[check.id for check in CHECKS])
def test_published(check: Check) -> None:
    answer = reckon(check.sum, check.typed, "in")
    assert not isinstance(answer, Unread), answer
    assert check.key in answer, answer
    assert check.agrees(answer), (
        f"{check.document}, {check.paragraph}: printed {check.printed} "
        f"({check.value} within {check.tolerance}), got {answer}"
    )
    if answer["verdict"] == "not covered":
        assert set(answer) == SAID


def test_the_phone_gives_what_is_printed_too(tmp_path_factory: pytest.TempPathFactory) -> None:
    phone = PhoneReckoner(tmp_path_factory.mktemp("reckoner"))
    answers = phone.answers([(one.sum, dict(one.typed), "in") for one in CHECKS])
    assert len(answers) == len(CHECKS)
    wrong = [
        (check.id, answer)
        for check, answer in zip(CHECKS, answers, strict=True)
        if not check.agrees(answer)
    ]
    assert not wrong, wrong[:3]


def test_every_check_says_where_it_is_printed_and_why_it_may_differ() -> None:
    held = rows("checks")
    assert len(held) >= 60
    for row in held:
        assert row["document"] and row["paragraph"] and row["why"], row["id"]
        assert row["seen"] in SEEN, row["id"]
        assert float(row["tolerance"]) >= 0
        if row["key"] == "verdict":
            assert row["value"] in VERDICTS, row["id"]


def test_besides_table_cells_at_least_forty_printed_answers_are_held() -> None:
    assert len({check.id for check in CHECKS}) == len(CHECKS)
    counted = Counter(check.cell for check in CHECKS)
    assert counted[False] >= 40
    # 131 rivet cells, and both ends of the 78 of Table 4-6
    assert sum(check.key == "per_inch" and check.cell for check in CHECKS) == 131
    radii = [check for check in CHECKS if check.paragraph == "Table 4-6" and check.cell]
    assert sum(check.key in ("min_mm", "max_mm") for check in radii) == 156


def test_every_rivet_cell_lies_near_its_formula_and_the_odd_ones_are_listed() -> None:
    odd = []
    for row in rows("rivets_against_formula"):
        printed, formula = Fraction(row["printed"]), Fraction(row["formula"])
        assert abs(printed - formula) <= Fraction("0.15"), row
        if row["remark"]:
            odd.append((row["table"], row["thickness"], row["diameter"]))
        assert (row["remark"] == "differs") is (row["rounded"] != row["printed"]), row
    # the table's own note of 4-11 is another matter: see cautious_count
    assert Counter(table for table, _, _ in odd) == {"4-9": 5, "4-10": 6, "4-11": 1}


def test_a_wrong_figure_would_be_noticed() -> None:
    assert close(4.9, "4.9", "0")
    assert not close(4.91, "4.9", "0.005")
    assert not close("#30", "#40", "0")
    assert not close(None, "#40", "0")
    assert not close([20.32, 40.64], "20.32 40.64 20.32", "0.1")
    assert not close([20.32, 40.64, 20.5], "20.32 40.64 20.32", "0.1")
