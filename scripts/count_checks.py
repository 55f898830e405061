"""Counts the printed answers that the bench sums are held against, for the README."""

from __future__ import annotations

import sys
from collections import Counter
from importlib import import_module
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
BEGIN, END = "<!-- printed answers, written by scripts/generate -->", "<!-- end -->"
#: documents with fewer answers than this stand together in one line
FEW = 9


def outputs() -> dict[str, str]:
    """The README with its table of printed answers by document brought up to date."""
    before, begin, rest = (ROOT / "README.md").read_text("utf-8").partition(BEGIN)
    _, end, after = rest.partition(END)
    if not begin or not end:
        raise SystemExit(f"README.md lacks the line {BEGIN!r} or the line {END!r} after it.")
    return {"README.md": f"{before}{BEGIN}\n{table()}\n{END}{after}"}


def table() -> str:
    """A line a document, the most answers first, and how the documents were seen."""
    tests = str(ROOT / "tests")
    if tests not in sys.path:
        sys.path.append(tests)
    published = import_module("running.published")
    answers, cells = counted(published.checks())
    seen = Counter(row["seen"] for row in published.rows("checks"))
    lines = ["| source | printed answers | and for cells of its tables |", "|---|--:|--:|"]
    names = sorted(answers | cells, key=lambda name: (-answers[name], -cells[name], name))
    many = [name for name in names if answers[name] >= FEW or cells[name]]
    lines += [f"| {name} | {answers[name] or ''} | {cells[name] or ''} |" for name in many]
    few = [name for name in names if name not in many]
    lines.append(f"| {len(few)} more | {sum(answers[name] for name in few)} | |")
    lines.append(f"| **all** | **{answers.total()}** | **{cells.total()}** |")
    told = ", ".join(f"{count} {word}" for word, count in seen.most_common())
    return "\n".join([*lines, "", f"How the answers beside the tables were seen: {told}."])


def counted(checks: tuple[Any, ...]) -> tuple[Counter[str], Counter[str]]:
    """Answers and table cells by document; what was worked out stands together."""
    answers: Counter[str] = Counter()
    cells: Counter[str] = Counter()
    for check in checks:
        name = check.document
        if name.startswith(("worked out", "volume over", "Geometry")):
            name = "worked out from published figures"
        (cells if check.cell else answers)[name] += 1
    return answers, cells
