"""The phone's reckoner gives what the command gives, to the last figure and the last word."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from bucktail.rules import evaluate, reading
from bucktail.rules.reckon import Unread, reckon
from bucktail.rules.rulebook import SUMS
from running.reckoner import SOURCE, PhoneReckoner
from running.sums import Question, every_bad_text, questions


@pytest.fixture(scope="module")
def phone(tmp_path_factory: pytest.TempPathFactory) -> PhoneReckoner:
    """The phone's reckoner as it is in the sources."""
    return PhoneReckoner(tmp_path_factory.mktemp("reckoner"))


def asked(seed: int, good: int, bad: int) -> list[Question]:
    """Questions for every sum."""
    made: list[Question] = []
    for one in SUMS:
        made += questions(one, seed, good)
        made += questions(one, seed + 500, bad, bad=1)
    return made


def here(question: Question) -> dict[str, Any]:
    """The answer of the command, as JSON."""
    answer = reckon(question.name, question.typed, question.unit)
    if isinstance(answer, Unread):
        return {"key": answer.key, "sentence": answer.sentence}
    return json.loads(json.dumps(answer))  # type: ignore[no-any-return]


def different(phone: PhoneReckoner, made: list[Question]) -> list[str]:
    """Where the two do not say the same: the question and both answers."""
    there = phone.answers([(one.name, one.typed, one.unit) for one in made])
    assert len(there) == len(made)
    return [
        f"{question}\n{mine}\n{other}"
        for question, other in zip(made, there, strict=True)
        if (mine := here(question)) != other or list(mine) != list(other)
    ]


def test_100_questions_of_every_sum_have_the_same_answer(phone: PhoneReckoner) -> None:
    found = different(phone, asked(101, 100, 30))
    assert not found, f"{len(found)} differ; the first:\n{found[0]}"


@pytest.mark.long
def test_more_than_5000_questions_have_the_same_answer(phone: PhoneReckoner) -> None:
    made = asked(201, 500, 100)
    assert len(made) > 9_000
    for start in range(0, len(made), 1_000):
        found = different(phone, made[start : start + 1_000])
        assert not found, f"{len(found)} differ; the first:\n{found[0]}"


def test_every_example_has_the_same_answer(phone: PhoneReckoner) -> None:
    made = []
    for one in SUMS:
        needed = {take.key: take.example for take in one.takes if not take.optional}
        made += [Question(one.name, needed, "in"), Question(one.name, needed, "mm")]
    assert not different(phone, made)


def test_every_bad_text_is_told_the_same(phone: PhoneReckoner) -> None:
    made = list(every_bad_text(SUMS))
    assert len(made) > 1000
    found = different(phone, made)
    assert not found, f"{len(found)} differ; the first:\n{found[0]}"


#: faults in the phone's files that must be noticed
PLANTED = (
    ("twins/rational.ts", "a.n < 0n && cut * a.d !== a.n ? cut - 1n : cut", "cut"),
    ("twins/rational.ts", "* 2n + a.d)", "* 2n)"),
    ("twins/rules.ts", "compare(a, b) <= 0", "compare(a, b) < 0"),
    ("twins/rules.ts", "how === 'up' ? 1 : -1", "1"),
    ("twins/reading.ts", "const RIVET_NEAR_NM = 50_000", "const RIVET_NEAR_NM = 20_000"),
    ("twins/reading.ts", "const LONGEST_LIST = 12", "const LONGEST_LIST = 13"),
    ("twins/reckon.ts", "if (answer.verdict === 'not covered') return answer", ""),
    ("twins/written.ts", "decimal(value, 3)", "decimal(value, 2)"),
)


@pytest.mark.parametrize(("file", "right", "wrong"), PLANTED, ids=[row[1][:24] for row in PLANTED])
def test_a_fault_in_the_phones_reckoner_shows(
    tmp_path: Path, file: str, right: str, wrong: str
) -> None:
    source = tmp_path / "src"
    for folder in ("twins", "generated"):
        shutil.copytree(SOURCE / folder, source / folder)
    text = (source / file).read_text(encoding="utf-8")
    assert right in text
    (source / file).write_text(text.replace(right, wrong), encoding="utf-8")
    assert different(
        PhoneReckoner(tmp_path / "bundle", source), [*asked(101, 12, 6), *every_bad_text(SUMS)]
    )


def test_a_fault_in_the_rulebook_that_the_phone_has_shows(tmp_path: Path) -> None:
    source = tmp_path / "src"
    for folder in ("twins", "generated"):
        shutil.copytree(SOURCE / folder, source / folder)
    file = source / "generated" / "rulebook.json"
    book = json.loads(file.read_text(encoding="utf-8"))
    book["constants"]["edge flush"] = [249, 100]
    file.write_text(json.dumps(book), encoding="utf-8")
    assert different(PhoneReckoner(tmp_path / "bundle", source), asked(101, 12, 0))


def _down(value: Fraction, step: Fraction) -> Fraction:
    return value // step * step


@pytest.mark.parametrize(
    ("module", "name", "fault"),
    [
        (reading, "RIVET_NEAR_NM", 20_000),
        (reading, "LONGEST_LIST", 11),
        (evaluate, "decimal", lambda value, places: str(float(value))),
        (evaluate, "_same", lambda one, other: one == other and one is not None and one != "flush"),
    ],
)
def test_a_fault_in_the_command_shows(
    phone: PhoneReckoner, monkeypatch: pytest.MonkeyPatch, module: Any, name: str, fault: Any
) -> None:
    monkeypatch.setattr(module, name, fault)
    if callable(fault) and name.startswith("_"):
        monkeypatch.setitem(evaluate._OPERATIONS, name.removeprefix("_"), fault)
    assert different(phone, [*asked(101, 12, 6), *every_bad_text(SUMS)])


@pytest.mark.parametrize(
    ("operation", "fault"),
    [
        ("round", evaluate._each(_down, Fraction)),
        ("le", evaluate._each(lambda a, b: a < b, Fraction)),
        ("min", evaluate._best(max)),
    ],
)
def test_a_fault_in_an_operation_of_the_command_shows(
    phone: PhoneReckoner,
    monkeypatch: pytest.MonkeyPatch,
    operation: str,
    fault: Callable[..., Any],
) -> None:
    made = asked(101, 12, 0)
    monkeypatch.setitem(evaluate._OPERATIONS, operation, fault)
    assert different(phone, made)
