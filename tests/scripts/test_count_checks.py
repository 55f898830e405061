"""The README says how many printed answers there are, and by which document."""

from __future__ import annotations

import re
from pathlib import Path

import count_checks
from running.published import checks

README = Path(__file__).resolve().parent.parent.parent / "README.md"


def test_the_readme_tells_every_printed_answer_by_its_document() -> None:
    text = README.read_text("utf-8")
    assert count_checks.table() in text
    lines = re.findall(r"^\| ([^|*]+) \| (\d*) \| (\d*) ?\|$", count_checks.table(), re.M)
    assert sum(int(answers or 0) for _, answers, _ in lines) == sum(not c.cell for c in checks())
    assert sum(int(cells or 0) for _, _, cells in lines) == sum(c.cell for c in checks())


def test_at_least_forty_stand_beside_the_tables() -> None:
    answers, cells = count_checks.counted(checks())
    assert answers.total() >= 40
    assert answers["AC 43.13-1B"] and cells["AC 43.13-1B"]
