"""What the rule evaluator and the sums give, written down for the phone's tests."""

from __future__ import annotations

import json
import sys
from importlib import import_module
from pathlib import Path

from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.rulebook import SUMS

GOOD, BAD = 12, 6
#: the same in every answer of a sum; the rulebook has them
LEFT_OUT = ("source", "caution")


def outputs() -> dict[str, str]:
    """Path from the top of the checkout -> text. In reckon.json a line a question: [sum, what was
    typed, unit, answer without source and caution, or what cannot be read]."""
    tests = str(Path(__file__).resolve().parent.parent / "tests")
    if tests not in sys.path:
        sys.path.append(tests)
    programs, sums = import_module("running.programs"), import_module("running.sums")
    rows = []
    for one in SUMS:
        asked = [*sums.questions(one, 1, GOOD), *sums.questions(one, 2, BAD, bad=1)]
        for question in asked:
            answer = reckon(question.name, question.typed, question.unit)
            told = (
                {"key": answer.key, "sentence": answer.sentence}
                if isinstance(answer, Unread)
                else {key: value for key, value in answer.items() if key not in LEFT_OUT}
            )
            rows.append(json.dumps([question.name, question.typed, question.unit, told]))
    return {
        "tests/vectors/rules.json": json.dumps(programs.vectors(), separators=(",", ":")) + "\n",
        "tests/vectors/reckon.json": "[\n" + ",\n".join(rows) + "\n]\n",
    }
