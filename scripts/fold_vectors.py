"""What the fold gives for 300 histories, written down for the phone's tests."""

from __future__ import annotations

import hashlib
import json
import sys
from importlib import import_module
from pathlib import Path

COUNT = 300
#: Longer histories are left to the tests that run both folds; this file stays small.
LONGEST = 1500


def outputs() -> dict[str, str]:
    """Path from the top of the checkout -> text: a line a history, [seed, id, facts, digest].

    Facts are shortened (see running.histories.short); the digest is the start of the SHA-256 of the
    card's text.
    """
    tests = str(Path(__file__).resolve().parent.parent / "tests")
    if tests not in sys.path:
        sys.path.append(tests)
    made = import_module("running.histories")
    rows: list[str] = []
    seed = 0
    while len(rows) < COUNT:
        history = made.History(seed)
        facts = made.short(history.facts)
        if len(facts) <= LONGEST:
            card = made.card_of(history.subject, history.facts)
            digest = hashlib.sha256(card.encode("utf-8")).hexdigest()[:16]
            row = [seed, history.subject, facts, digest]
            rows.append(json.dumps(row, ensure_ascii=False))
        seed += 1
    return {"tests/vectors/fold.json": "[\n" + ",\n".join(rows) + "\n]\n"}
