"""The bench sums give what published pages print: tests/published/checks.csv."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.rulebook import sum_named
from bucktail.rules.sources import SEEN
from bucktail.rules.sums import VERDICTS

FILE = Path(__file__).parent.parent / "published" / "checks.csv"
CHECKS = tuple(
    csv.DictReader(
        line for line in FILE.read_text("utf-8").splitlines() if not line.startswith("#")
    )
)
#: what stands beside a verdict in every answer; anything else is a figure
SAID = {"verdict", "why", "source", "caution", "read_as"}


def typed(inputs: str) -> dict[str, str]:
    """`key=value key=value` as the command line gives it."""
    return dict(pair.split("=", 1) for pair in inputs.split())


def close(answer: object, value: str, tolerance: str) -> bool:
    """Whether an answer is the printed value, in words or within the tolerance."""
    if isinstance(answer, list):
        each = value.split()
        return len(each) == len(answer) and all(
            close(one, text, tolerance) for one, text in zip(answer, each, strict=True)
        )
    if isinstance(answer, int | float):
        return abs(answer - float(value)) <= float(tolerance) + 1e-9
    return answer == value


@pytest.mark.parametrize("check", CHECKS, ids=[check["id"] for check in CHECKS])
def test_published(check: dict[str, str]) -> None:
    if sum_named(check["sum"]) is None:
        pytest.skip(f"no sum {check['sum']}")
    answer = reckon(check["sum"], typed(check["inputs"]), "in")
    assert not isinstance(answer, Unread), answer
    assert check["key"] in answer, answer
    assert close(answer[check["key"]], check["value"], check["tolerance"]), (
        f"{check['document']}, {check['paragraph']}: printed {check['printed']} "
        f"({check['value']} within {check['tolerance']}: {check['why']}), got {answer}"
    )
    if answer["verdict"] == "not covered":
        assert set(answer) == SAID


def test_every_check_says_where_it_is_printed_and_why_it_may_differ() -> None:
    assert len(CHECKS) >= 60
    assert len({check["id"] for check in CHECKS}) == len(CHECKS)
    for check in CHECKS:
        assert check["document"] and check["paragraph"] and check["why"], check["id"]
        assert check["seen"] in SEEN, check["id"]
        assert float(check["tolerance"]) >= 0
        if check["key"] == "verdict":
            assert check["value"] in VERDICTS, check["id"]


def test_a_wrong_figure_would_be_noticed() -> None:
    assert close(4.9, "4.9", "0")
    assert not close(4.91, "4.9", "0.005")
    assert not close("#30", "#40", "0")
    assert not close([20.32, 40.64], "20.32 40.64 20.32", "0.1")
    assert not close([20.32, 40.64, 20.5], "20.32 40.64 20.32", "0.1")
