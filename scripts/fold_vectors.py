"""What the fold gives for 300 histories and for findings, written down for the phone's tests."""

from __future__ import annotations

import hashlib
import json
import sys
from importlib import import_module
from pathlib import Path
from typing import Any

COUNT = 300
#: Longer histories are left to the tests that run both folds; this file stays small.
LONGEST = 1500
#: Of findings that end alike, so many stand in the file.
ALIKE = 8
THING = "00000000-0000-7000-8000-000000000001"


def outputs() -> dict[str, str]:
    """Path from the top of the checkout -> text: a line a history, [which, id, facts, digest].

    Facts are shortened (see running.histories.short); the digest is the start of the SHA-256 of the
    card's text. A finding is named by how it stands.
    """
    tests = str(Path(__file__).resolve().parent.parent / "tests")
    if tests not in sys.path:
        sys.path.append(tests)
    made = import_module("running.findings")
    findings = [_row(made.outcome(facts), THING, facts) for facts in made.telling(ALIKE)]
    return {
        "tests/vectors/fold.json": _text(_random()),
        "tests/vectors/findings.json": _text(findings),
    }


def _text(rows: list[str]) -> str:
    return "[\n" + ",\n".join(rows) + "\n]\n"


def _row(which: int | str, subject: str, facts: list[dict[str, Any]]) -> str:
    made = import_module("running.histories")
    digest = hashlib.sha256(made.card_of(subject, facts).encode("utf-8")).hexdigest()[:16]
    return json.dumps([which, subject, made.short(facts), digest], ensure_ascii=False)


def _random() -> list[str]:
    made = import_module("running.histories")
    rows: list[str] = []
    seed = 0
    while len(rows) < COUNT:
        history = made.History(seed)
        if len(made.short(history.facts)) <= LONGEST:
            rows.append(_row(seed, history.subject, history.facts))
        seed += 1
    return rows
