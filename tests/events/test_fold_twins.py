"""The workshop's computer and the phone make the same card of the same facts, byte for byte."""

from __future__ import annotations

import json
import shutil
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from bucktail.events import flags, marks
from bucktail.sync.wire.bodies import KINDS
from running.histories import History, card_of, histories
from running.twin import TWINS, FoldTwin


@pytest.fixture(scope="module")
def twin(tmp_path_factory: pytest.TempPathFactory) -> FoldTwin:
    """The phone's fold as it is in the sources."""
    return FoldTwin(tmp_path_factory.mktemp("twin"))


def different(twin: FoldTwin, told: list[History]) -> list[tuple[int, str, str]]:
    """(which, the computer's card, the phone's card) where the two are not the same."""
    here = [card_of(history.subject, history.facts) for history in told]
    there = twin.cards([(history.subject, history.facts) for history in told])
    assert len(here) == len(there)
    return [
        (at, one, other)
        for at, (one, other) in enumerate(zip(here, there, strict=True))
        if one != other
    ]


def first_difference(found: list[tuple[int, str, str]]) -> str:
    """Where the first pair of texts parts."""
    if not found:
        return ""
    at, here, there = found[0]
    place = next(i for i, pair in enumerate(zip(here, there, strict=False)) if pair[0] != pair[1])
    cut = slice(max(0, place - 80), place + 80)
    return f"{len(found)} differ; first number {at}:\n{here[cut]}\n{there[cut]}"


def test_900_histories_make_the_same_cards(twin: FoldTwin) -> None:
    found = different(twin, histories(10_000, 900))
    assert not found, first_difference(found)


@pytest.mark.long
def test_5000_histories_make_the_same_cards(twin: FoldTwin) -> None:
    for start in range(20_000, 25_000, 1000):
        found = different(twin, histories(start, 1000))
        assert not found, first_difference(found)


def test_the_histories_reach_what_matters() -> None:
    """So that agreeing on them says something: every kind, every word, every flag."""
    seen: Counter[str] = Counter()
    for history in histories(10_000, 600):
        card = json.loads(card_of(history.subject, history.facts))
        state: dict[str, Any] = card["state"]
        seen.update(f"kind {fact['kind']}" for fact in card["facts"])
        seen.update(f"mark {mark['is']}" for mark in state.get("marks", {}).values())
        seen.update(f"flag {flag['flag']}" for flag in state.get("flags", []))
        seen.update(f"answer {answer['about']}" for answer in state["answers"])
        seen.update("judged" for one in state.get("sums", []) if "judged" in one)
        seen.update(["an outline"] if "shape_from" in state else [])
        seen.update(["behind"] if history.behind else [])
    for kind in KINDS:
        assert seen[f"kind {kind}"], kind
    assert seen["kind newer.kind.v1"] > 50
    for word in ("todo", "part", "done", "again", "look", "not", "bare"):
        assert seen[f"mark {word}"] > 20, word
    for flag in (
        "out of order",
        "two records",
        "keep bare",
        "more taken out",
        "check hole match",
        "look",
        "rivet length not confirmed",
        "riveted before confirmed",
        "cut twice",
        "cut by another size",
    ):
        assert seen[f"flag {flag}"], flag
    assert seen["answer tag"] and seen["answer name"] and seen["answer steps"]
    assert seen["answer segments"] and seen["answer met"] and seen["judged"]
    assert seen["behind"] > 50 and seen["an outline"] > 8


PLANTED = (
    ("facts.ts", "earlier.pos <= later.base", "earlier.pos < later.base"),
    ("marks.ts", "part: 3, done: 4", "part: 4, done: 3"),
    ("marks.ts", "Math.max(0, done - k)", "done - k"),
    ("flags.ts", "one.side === other.side", "true"),
    ("fold.ts", "state.pieces = Math.max(0, left)", "state.pieces = left"),
    ("strip.ts", "strip[at] === 'l'", "strip[at] === 'x'"),
    ("flags.ts", "some((one) => !one.confirmed)", "some((one) => one.confirmed)"),
    ("kept.ts", "event: id", "event: by"),
    ("kept.ts", "judged ? { judged }", "judged ? { verdict: '' }"),
    ("kinds.ts", "'met=part'", "'met'"),
    ("cuts.ts", "apart.length > 1", "cuts.length > 1"),
    ("cuts.ts", "saw(fact, cut) || saw(cut, fact)", "saw(fact, cut)"),
    ("fold.ts", "stated.get('shape')?.id", "told.at(-1)?.id"),
)


@pytest.mark.parametrize(("file", "right", "wrong"), PLANTED, ids=[row[1][:20] for row in PLANTED])
def test_a_fault_in_the_phones_fold_shows(
    tmp_path: Path, file: str, right: str, wrong: str
) -> None:
    twins = tmp_path / "twins"
    shutil.copytree(TWINS, twins)
    shutil.copytree(TWINS.parent / "generated", tmp_path / "generated")
    text = (twins / file).read_text()
    assert right in text
    (twins / file).write_text(text.replace(right, wrong))
    assert different(FoldTwin(tmp_path / "bundle", twins), histories(10_000, 900))


def test_a_fault_in_the_computers_fold_shows(
    twin: FoldTwin, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = histories(10_000, 900)
    assert not different(twin, told)
    monkeypatch.setattr(marks, "heads", lambda facts: facts[-1:])
    assert different(twin, told)
    monkeypatch.undo()
    monkeypatch.setattr(flags, "_concerns", lambda *_: True)
    assert different(twin, told)
