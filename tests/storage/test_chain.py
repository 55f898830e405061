"""The record shows when it was altered, and where."""

from __future__ import annotations

import pytest
from sqlalchemy import delete, text, update

from bucktail.storage.chain import check_chain
from bucktail.storage.tables import Session, StoredEvent
from running.pen import Pen, take


@pytest.fixture
def five(session: Session, pen: Pen) -> Session:
    """A record of five entries."""
    take(session, *[pen.part(f"p{n}") for n in range(5)])
    session.rollback()
    return session


def test_a_record_as_written_is_sound(five: Session) -> None:
    assert check_chain(five) == []


def test_an_empty_record_is_sound(session: Session) -> None:
    assert check_chain(session) == []


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("raw", b"{}"),
        ("received_at", 1),
        ("effective_at", 1),
        ("chain", "0" * 64),
    ],
)
def test_what_the_chain_covers_cannot_be_altered_unseen(
    five: Session, column: str, value: object
) -> None:
    five.execute(update(StoredEvent).where(StoredEvent.position == 3).values({column: value}))
    assert check_chain(five)[0].startswith("Entry 3 is not as it was written")


@pytest.mark.parametrize("column", ["id", "kind", "subject", "device", "seq"])
def test_what_is_repeated_for_searching_says_the_same_as_the_bytes(
    five: Session, column: str
) -> None:
    value: object = 99 if column == "seq" else "something else"
    five.execute(update(StoredEvent).where(StoredEvent.position == 3).values({column: value}))
    (sentence,) = check_chain(five)
    assert sentence.startswith("Entry 3 is filed under something")


def test_a_missing_entry_shows(five: Session) -> None:
    five.execute(delete(StoredEvent).where(StoredEvent.position == 3))
    first, second = check_chain(five)
    assert first == "Entry 4 follows entry 2: some are missing."
    assert second.startswith("Entry 4 is not as it was written")


def test_two_entries_in_each_others_place_show(five: Session) -> None:
    for old, new in ((2, 99), (3, 2), (99, 3)):
        five.execute(text(f"UPDATE events SET position = {new} WHERE position = {old}"))
    assert len(check_chain(five)) >= 2


def test_many_faults_are_cut_short(session: Session, pen: Pen) -> None:
    take(session, *[pen.part() for _ in range(40)])
    session.execute(update(StoredEvent).values(received_at=1))
    assert len(check_chain(session)) == 20
