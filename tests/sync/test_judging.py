"""A kept sum is reckoned again on the workshop's computer."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest

from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.rulebook import version
from bucktail.sync import judging
from bucktail.sync.judging import WORDS, kept_answer, reckoned_otherwise
from bucktail.sync.wire.reckoned import SumKept
from running.bundle import bundle
from running.twin import TWINS

INPUTS = {"stack": ".032,.040", "diameter": "1/8"}


def kept(inputs: dict[str, str] = INPUTS, unit: str = "in", **answer: str) -> dict[str, Any]:
    """A sum as a phone keeps it that reckons as this computer; `answer` replaces some of it."""
    here = reckon("rivet", inputs, "mm" if unit == "mm" else "in")
    assert not isinstance(here, Unread)
    body = {
        "sum": "rivet",
        "inputs": inputs,
        "unit": unit,
        "rulebook": version(),
        "answer": {**kept_answer(here), **answer},
    }
    assert not SumKept().validate(body)
    return body


def test_the_same_answer_needs_no_word() -> None:
    assert reckoned_otherwise(kept()) is None
    assert reckoned_otherwise(kept({"stack": "0.8,1.0", "diameter": "3.2"}, unit="mm")) is None


def test_the_same_figure_written_otherwise_is_the_same() -> None:
    assert reckoned_otherwise(kept(dash="4.0")) is None


@pytest.mark.parametrize("word", sorted(WORDS))
def test_words_may_be_worded_otherwise(word: str) -> None:
    assert reckoned_otherwise(kept(**{word: "In other words."})) is None


@pytest.mark.parametrize("change", [{"dash": "4.5"}, {"verdict": "check"}, {"surprise": "1"}])
def test_another_verdict_or_figure_is_said(change: dict[str, str]) -> None:
    judged = reckoned_otherwise(kept(**change))
    assert judged == {"rulebook": version(), "answer": kept()["answer"]}


def test_a_figure_that_is_missing_is_said() -> None:
    body = kept()
    del body["answer"]["dash"]
    assert reckoned_otherwise(body) is not None


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"sum": "of_later_rules"}, "There is no sum"),
        ({"inputs": {**INPUTS, "stack": "thin"}}, "stack: "),
        ({"inputs": {**INPUTS, "colour": "red"}}, "colour: "),
        ({"unit": "mm", "inputs": {}}, "stack: "),
    ],
)
def test_what_cannot_be_reckoned_here_is_not_covered(change: dict[str, Any], word: str) -> None:
    judged = reckoned_otherwise({**kept(), **change})
    assert judged is not None
    assert judged["answer"]["verdict"] == "not covered"
    assert word in judged["answer"]["why"]
    assert judged["answer"].keys() == {"verdict", "why"}


def test_a_sum_that_this_version_stumbles_over_is_not_covered(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def stumbles(*_: object) -> None:
        raise ZeroDivisionError

    body = kept()
    monkeypatch.setattr(judging, "reckon", stumbles)
    judged = reckoned_otherwise(body)
    assert judged is not None
    assert "ZeroDivisionError" in judged["answer"]["why"]


def test_an_answer_is_kept_in_the_same_text_on_both_sides(tmp_path: Path) -> None:
    answer: dict[str, Any] = {
        "verdict": "meets",
        "least_d": 1.5,
        "small": 0.000001,
        "none": 0,
        "negative": -12.25,
        "lengths_mm": [1.8288, 25.4, 3],
        "words": ["dimple", "countersink"],
        "long": 123456789.123456,
        "yes": True,
    }
    entry = f"""
import {{ readFileSync }} from 'node:fs';
import {{ keptAnswer }} from '{TWINS.as_posix()}/kept.ts';
process.stdout.write(JSON.stringify(keptAnswer(JSON.parse(readFileSync(0, 'utf-8')))));
"""
    command = bundle(tmp_path, entry)
    done = subprocess.run(
        command, input=json.dumps(answer), capture_output=True, encoding="utf-8", check=False
    )
    assert done.returncode == 0, done.stderr[-2000:]
    assert json.loads(done.stdout) == kept_answer(answer)
    assert kept_answer(answer)["small"] == "0.000001"
    assert kept_answer(answer)["lengths_mm"] == "1.8288, 25.4, 3"
