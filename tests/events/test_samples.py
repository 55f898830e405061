"""What was ever recorded is read for ever: a frozen sample of every kind of event."""

from __future__ import annotations

import hashlib

import pytest

from bucktail.sync.wire.bodies import KINDS
from bucktail.sync.wire.reading import read_event
from freeze_samples import FORMS, SAMPLES, card_file, card_text, hashes, sample

FROZEN = sorted(hashes())
ADVICE = "run .venv/bin/python scripts/freeze_samples.py"


@pytest.mark.parametrize("kind", [*sorted(KINDS), *FORMS])
def test_every_kind_has_a_sample(kind: str) -> None:
    assert sample(kind).is_file(), f"{kind} has no frozen sample: {ADVICE}"
    assert sample(kind).name in hashes()


def test_nothing_lies_among_the_samples_that_is_not_frozen() -> None:
    names = {file.name for file in SAMPLES.iterdir()}
    cards = {name.replace(".json", ".card.json") for name in FROZEN}
    assert names == {*FROZEN, *cards, "frozen.sha256"}


@pytest.mark.parametrize("name", FROZEN)
def test_a_sample_is_as_it_was_frozen(name: str) -> None:
    data = (SAMPLES / name).read_bytes()
    assert hashlib.sha256(data).hexdigest() == hashes()[name]


@pytest.mark.parametrize("name", FROZEN)
def test_a_sample_is_still_read_and_folds_to_the_same_card(name: str) -> None:
    kind = name.removesuffix(".json")
    event = read_event((SAMPLES / name).read_bytes())
    assert event.kind == kind.split("~")[0]
    assert event.body is not None
    assert card_text(kind) == card_file(kind).read_text(encoding="utf-8"), (
        f"the card of {kind} is another one; if that is meant: {ADVICE} --cards"
    )
