"""Taking events up: what is stored, what is set aside, and what is never half done."""

from __future__ import annotations

import json
from typing import Any

import pytest
from sqlalchemy import func, select

from bucktail.storage import cards
from bucktail.storage.chain import check_chain
from bucktail.storage.eventlog import OtherWorkshop, head
from bucktail.storage.set_aside import all_set_aside
from bucktail.storage.tables import Card, Session, StoredEvent
from running.pen import NOW, Pen, look, new_id, raw, take

BAD_BODY: dict[str, Any] = {"op": "countersink", "result": "perhaps", "done": None, "of": None}


def stored(session: Session) -> list[StoredEvent]:
    """All rows of the record, in order."""
    rows = session.execute(select(StoredEvent).order_by(StoredEvent.position)).scalars().all()
    return list(rows)


def results(taken: list[Any]) -> list[str]:
    """What became of each."""
    return [one.result for one in taken]


def card(session: Session, subject: str) -> dict[str, Any]:
    """A thing's card."""
    found = session.get(Card, subject)
    assert found is not None
    read: dict[str, Any] = json.loads(found.text)
    return read


def test_bytes_are_kept_as_they_came_at_positions_without_a_gap(session: Session, pen: Pen) -> None:
    spaced = json.dumps(pen.part("Rib “4” 🛩️"), ensure_ascii=False, indent=None).encode()
    taken = take(session, spaced, pen.part(), pen.part())
    assert [(one.result, one.position) for one in taken] == [
        ("stored", 1),
        ("stored", 2),
        ("stored", 3),
    ]
    rows = stored(session)
    assert rows[0].raw == spaced
    assert [row.position for row in rows] == [1, 2, 3]
    assert head(session) == (3, rows[-1].chain)
    assert check_chain(session) == []


def test_an_event_that_is_there_already_is_known_and_stays_as_it_was(
    session: Session, pen: Pen
) -> None:
    event = pen.part()
    (first,) = take(session, event)
    (second,) = take(session, event, now=NOW + 90_000, offset=5_000)
    assert (second.result, second.position) == ("known", 1)
    assert second.effective_at == first.effective_at == NOW
    assert len(stored(session)) == 1


def test_the_same_event_twice_in_one_push_is_stored_once(session: Session, pen: Pen) -> None:
    event = pen.part()
    assert results(take(session, event, event)) == ["stored", "known"]


def test_another_event_with_the_same_number_is_set_aside_once(session: Session, pen: Pen) -> None:
    event = pen.part("Rib 4")
    other = {**event, "body": {"name": "Rib 5"}}
    assert results(take(session, event)) == ["stored"]
    for _ in range(2):
        (answer,) = take(session, other)
        assert answer.result == "aside"
        assert "same number" in (answer.reason or "")
    assert [one.raw for one in all_set_aside(session)] == [raw(other)]
    assert card(session, event["subject"])["state"]["name"] == "Rib 4"


def test_two_with_the_same_number_in_one_push(session: Session, pen: Pen) -> None:
    event = pen.part("Rib 4")
    taken = take(session, event, {**event, "body": {"name": "Rib 5"}}, pen.part("Rib 6"))
    assert results(taken) == ["stored", "aside", "stored"]


def test_a_kind_that_is_not_known_is_stored_and_changes_nothing(session: Session, pen: Pen) -> None:
    part = pen.part()
    # a newer version may write what this one would not: a fraction
    newer = json.dumps(pen.write("hologram.made.v7", {"any": [1.5]}, part["subject"])).encode()
    assert results(take(session, part, newer)) == ["stored", "stored"]
    assert stored(session)[1].raw == newer
    found = card(session, part["subject"])
    assert "body" not in found["facts"][1]
    assert found["state"]["touched"] == found["facts"][0]["at"]


def test_what_cannot_be_read_is_set_aside_and_never_blocks(session: Session, pen: Pen) -> None:
    subject = new_id()
    whole = pen.write("part.added.v1", {"name": "Skin"}, subject)
    bad = pen.write("step.recorded.v1", BAD_BODY, subject)
    taken = take(session, b"\xff\xfe not text", bad, b"[1,2]", b"{}", whole)
    assert results(taken) == ["aside", "aside", "aside", "aside", "stored"]
    assert taken[1].id == bad["id"]
    assert "result" in (taken[1].reason or "")
    kept = {one.raw for one in all_set_aside(session)}
    assert kept == {b"\xff\xfe not text", raw(bad), b"[1,2]", b"{}"}
    assert all(one.reason for one in all_set_aside(session))


def test_another_workshop_is_refused_whole_and_nothing_is_kept(session: Session, pen: Pen) -> None:
    stranger = Pen(new_id())
    pushes: list[list[dict[str, Any] | bytes]] = [
        [pen.part(), stranger.part()],
        [b"not an event", stranger.write("step.recorded.v1", BAD_BODY)],
        [stranger.write("newer.kind.v1", {})],
    ]
    for push in pushes:
        with pytest.raises(OtherWorkshop):
            take(session, *push)
        assert stored(session) == []
        assert all_set_aside(session) == []


def test_what_another_device_wrote_is_set_aside(session: Session, pen: Pen) -> None:
    other = Pen(pen.workshop)
    mine, theirs = pen.part(), other.part()
    taken = take(session, mine, theirs, device=pen.device)
    assert results(taken) == ["stored", "aside"]
    # brought over as a file it is taken up, whoever sends it
    assert results(take(session, theirs)) == ["stored"]


class TestGroups:
    """What was recorded together is taken up together, or not at all."""

    def three(self, pen: Pen) -> list[dict[str, Any]]:
        group = new_id()
        return [pen.part(f"p{n}", group=group) for n in range(3)]

    def spoil(self, event: dict[str, Any], how: str) -> dict[str, Any]:
        if how == "body":
            return {**event, "body": {"name": 7}}
        if how == "envelope":
            return {**event, "tz": "no zone!"}
        if how == "device":
            return {**event, "device": new_id()}
        return {**event, "at": event["at"] + 1}

    @pytest.mark.parametrize("how", ["body", "envelope", "device", "number"])
    @pytest.mark.parametrize("which", [0, 1, 2])
    def test_one_that_cannot_be_taken_up_takes_the_others_along(
        self, session: Session, pen: Pen, how: str, which: int
    ) -> None:
        events = self.three(pen)
        events[which] = self.spoil(events[which], how)
        if how == "number":
            take(session, {**events[which], "at": NOW, "group": None})
        before = len(stored(session))
        alone = pen.part("alone")
        taken = take(session, *events, alone, device=pen.device)
        assert results(taken) == ["aside", "aside", "aside", "stored"]
        assert len(stored(session)) == before + 1
        assert {one.raw for one in all_set_aside(session)} == {raw(event) for event in events}
        others = [one.reason for n, one in enumerate(taken[:3]) if n != which]
        assert all("belongs to it" in (reason or "") for reason in others)

    def test_a_whole_one_is_stored_and_known_the_second_time(
        self, session: Session, pen: Pen
    ) -> None:
        events = self.three(pen)
        assert results(take(session, *events)) == ["stored"] * 3
        assert results(take(session, *events)) == ["known"] * 3

    def test_what_is_kept_already_stays_kept(self, session: Session, pen: Pen) -> None:
        events = self.three(pen)
        take(session, *events)
        spoiled = {**events[0], "id": new_id(), "body": {"name": 7}}
        assert results(take(session, spoiled, *events[1:])) == ["aside", "known", "known"]


class TestAFault:
    """A fault of this version with one event keeps nothing else back."""

    @pytest.fixture
    def stumbles(self, monkeypatch: pytest.MonkeyPatch) -> None:
        real = cards.fold

        def fold(facts: list[Any]) -> Any:
            if any(fact["body"].get("name") == "stumble" for fact in facts):
                raise KeyError("no such thing")
            return real(facts)

        monkeypatch.setattr(cards, "fold", fold)

    @pytest.mark.usefixtures("stumbles")
    def test_sets_that_one_aside(self, session: Session, pen: Pen) -> None:
        taken = take(session, pen.part("a"), pen.part("stumble"), pen.part("b"))
        assert results(taken) == ["stored", "aside", "stored"]
        assert [row.position for row in stored(session)] == [1, 2]
        assert "cannot work with it (KeyError)" in (taken[1].reason or "")
        assert check_chain(session) == []
        count = session.execute(select(func.count()).select_from(Card)).scalar()
        assert count == 2

    @pytest.mark.usefixtures("stumbles")
    def test_takes_its_group_along(self, session: Session, pen: Pen) -> None:
        group = new_id()
        together = [pen.part(name, group=group) for name in ("a", "stumble", "b")]
        assert results(take(session, *together, pen.part("c"))) == ["aside"] * 3 + ["stored"]
        assert len(stored(session)) == 1


class TestSeen:
    """What the writer had seen, as far as this record has it."""

    def test_a_position_of_this_record_counts(self, session: Session, pen: Pen) -> None:
        take(session, pen.part(), pen.part())
        look(pen, session)
        take(session, pen.part())
        assert [row.base for row in stored(session)] == [0, 0, 2]

    @pytest.mark.parametrize("chain", ["", "ab" * 32])
    @pytest.mark.parametrize("position", [2, 3, 4, 900])
    def test_a_position_of_another_record_does_not(
        self, session: Session, pen: Pen, position: int, chain: str
    ) -> None:
        other = Pen(pen.workshop)
        take(session, other.part(), other.part())
        pen.seen = (position, chain)
        event = pen.part()
        assert results(take(session, event)) == ["stored"]
        assert stored(session)[-1].base == 0
        assert card(session, event["subject"])["facts"][0]["base"] == 0

    def test_then_it_had_seen_what_its_event_before_had(self, session: Session, pen: Pen) -> None:
        take(session, pen.part(), pen.part())
        look(pen, session)
        take(session, pen.part())
        pen.seen = (40, "cd" * 32)
        take(session, pen.part())
        assert [row.base for row in stored(session)] == [0, 0, 2, 2]


class TestTime:
    """When an event counts as having happened."""

    def times(self, session: Session) -> list[int]:
        return [row.effective_at - NOW for row in stored(session)]

    def test_the_phones_time_corrected_by_what_was_measured(
        self, session: Session, pen: Pen
    ) -> None:
        take(session, pen.part(at=NOW - 7_000), now=NOW + 60_000, offset=2_000)
        assert self.times(session) == [-5_000]

    def test_not_after_arrival(self, session: Session, pen: Pen) -> None:
        take(session, pen.part(at=NOW + 86_400_000), now=NOW)
        assert self.times(session) == [0]

    def test_not_before_the_devices_own_event_before(self, session: Session, pen: Pen) -> None:
        take(session, pen.part(at=NOW), now=NOW + 10)
        take(session, pen.part(at=NOW - 99_000), now=NOW + 20)
        assert self.times(session) == [0, 0]

    def test_not_before_what_it_had_seen_of_the_thing(self, session: Session, pen: Pen) -> None:
        other = Pen(pen.workshop)
        part = pen.part(at=NOW)
        take(session, part, now=NOW + 10)
        look(other, session)
        seen = other.step(part["subject"], "film")
        blind = Pen(pen.workshop).step(part["subject"], "film")
        early = {"at": NOW - 50_000}
        take(session, {**seen, **early}, {**blind, **early}, now=NOW + 20)
        assert self.times(session) == [0, 0, -50_000]

    def test_not_before_an_unknown_kind_of_event_on_the_thing(
        self, session: Session, pen: Pen
    ) -> None:
        part = pen.part(at=NOW - 10)
        take(session, part, pen.write("newer.kind.v1", {}, part["subject"], at=NOW))
        other = Pen(pen.workshop)
        look(other, session)
        take(session, {**other.step(part["subject"], "film"), "at": 0})
        assert self.times(session) == [-10, 0, 0]
