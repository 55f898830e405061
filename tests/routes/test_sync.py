"""Push and pull over HTTP: what is sent, what comes back, and what a full disk does to it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from flask import Flask
from sqlalchemy import delete, event, select, update

from bucktail.routes import sync as routes
from bucktail.storage.chain import check_chain
from bucktail.storage.pairing_store import StoredPairings
from bucktail.storage.rebuilding import rebuild
from bucktail.storage.set_aside import all_set_aside
from bucktail.storage.tables import Card, StoredEvent, db
from bucktail.storage.trouble import DatabaseTrouble
from running.browser import Browser, database_of, page
from running.pen import new_id
from running.workshop import now_ms


def count(app: Flask) -> int:
    """How many events the record holds."""
    with database_of(app) as session:
        return len(session.execute(select(StoredEvent.position)).all())


def restore(app: Flask, position: int) -> None:
    """The record as it was at a position, from an archive."""
    with database_of(app) as session, session.begin():
        session.execute(delete(StoredEvent).where(StoredEvent.position > position))
        rebuild(session)


class TestPush:
    """Events come as lines."""

    def test_each_is_answered_for_in_its_place(self, app: Flask, phone: Browser) -> None:
        part = phone.pen.part()
        bad = phone.pen.step(part["subject"], "film", "perhaps")
        told = phone.push(part, bad, part).get_json()
        assert [(one["id"], one["result"]) for one in told["answers"]] == [
            (part["id"], "stored"),
            (bad["id"], "aside"),
            (part["id"], "known"),
        ]
        assert set(told["answers"][0]) == {"id", "result", "position", "effective_at", "reason"}
        assert told["position"] == 1
        assert len(told["chain"]) == 64

    def test_a_line_that_is_no_event_is_set_aside_and_the_others_stored(
        self, app: Flask, phone: Browser
    ) -> None:
        answer = phone.push(phone.pen.part(), b'{"half":', b"\xff\xff", phone.pen.part())
        results = [one["result"] for one in answer.get_json()["answers"]]
        assert results == ["stored", "aside", "aside", "stored"]
        with database_of(app) as session:
            assert {one.raw for one in all_set_aside(session)} == {b'{"half":', b"\xff\xff"}

    def test_blank_lines_are_nothing(self, phone: Browser) -> None:
        answer = phone.post("/api/push", data=b"\n\n  \n")
        assert answer.get_json()["answers"] == []

    def test_the_clock_is_set_right_by_what_was_measured(self, app: Flask, phone: Browser) -> None:
        behind = now_ms() - 3_600_000
        event_of_now = {**phone.pen.part(), "at": behind - 1_000}
        (answer,) = phone.push(event_of_now, now=str(behind)).get_json()["answers"]
        assert abs(answer["effective_at"] - (now_ms() - 1_000)) < 5_000

    @pytest.mark.parametrize("now", ["", "soon", "1.5", "9" * 400])
    def test_a_clock_that_is_none(self, app: Flask, phone: Browser, now: str) -> None:
        answer = phone.push(phone.pen.part(), now=now)
        if answer.status_code == 200:  # a number, if a strange one: the time of arrival counts
            assert now.isdigit()
        else:
            assert (answer.status_code, answer.get_json()["problem"]) == (400, "clock")

    def test_of_another_workshop_nothing_is_taken_up(self, app: Flask, phone: Browser) -> None:
        stranger = {**phone.pen.part(), "workshop": new_id()}
        answer = phone.push(phone.pen.part(), stranger)
        assert (answer.status_code, answer.get_json()["problem"]) == (409, "other workshop")
        assert "the phone keeps them" in answer.get_json()["sentence"]
        assert count(app) == 0

    def test_of_another_device_it_is_set_aside(self, app: Flask, phone: Browser) -> None:
        other = Browser(app, "other", "Kim")
        (answer,) = phone.push(other.pen.part()).get_json()["answers"]
        assert answer["result"] == "aside"

    def test_too_many_at_a_time(self, app: Flask, phone: Browser) -> None:
        answer = phone.push(*[b"{}"] * (routes.MOST_EVENTS + 1))
        assert (answer.status_code, answer.get_json()["problem"]) == (413, "too many")

    @pytest.mark.parametrize("seen", ["1 " + "ab" * 32, "7 ", "2 "])
    def test_a_phone_that_has_read_another_record_sends_nothing(
        self, app: Flask, phone: Browser, seen: str
    ) -> None:
        phone.push(phone.pen.part())
        answer = phone.push(phone.pen.part(), seen=seen)
        assert (answer.status_code, answer.get_json()["problem"]) == (409, "restored")
        assert count(app) == 1

    def test_a_phone_that_has_read_this_one_or_nothing_does(
        self, app: Flask, phone: Browser
    ) -> None:
        told = phone.push(phone.pen.part()).get_json()
        seen = f"{told['position']} {told['chain']}"
        assert phone.push(phone.pen.part(), seen=seen).status_code == 200
        assert phone.push(phone.pen.part(), seen="0 ").status_code == 200


class TestPull:
    """Cards go page by page, each line byte for byte."""

    def test_a_first_line_and_a_card_a_line(self, app: Flask, phone: Browser) -> None:
        part = phone.pen.part("Rib “4” 🛩️ \u2028 \x85 =1+1\n")
        phone.push(part)
        first, card = page(phone.pull())
        told = json.loads(first)
        assert set(told) == {
            "position",
            "chain",
            "more",
            "edition",
            "seq",
            "people",
            "unit",
            "name",
            "sawing",
            "now",
            "curves",
        }
        assert (told["position"], told["more"], told["seq"]) == (1, False, 1)
        assert told["edition"]
        assert "Sam" in told["people"].values()
        with database_of(app) as session:
            assert card == session.execute(select(Card.text)).scalar_one()
        assert json.loads(card)["state"]["name"] == part["body"]["name"]

    def test_only_what_changed_since(self, phone: Browser) -> None:
        one, two = phone.pen.part("one"), phone.pen.part("two")
        told = phone.push(one, two).get_json()
        phone.push(phone.pen.step(one["subject"], "film"))
        first, *cards = page(phone.pull(told["position"], told["chain"]))
        assert [json.loads(card)["id"] for card in cards] == [one["subject"]]
        assert json.loads(first)["position"] == 3
        again = json.loads(first)
        assert len(page(phone.pull(again["position"], again["chain"]))) == 1

    def test_more_than_a_page(self, phone: Browser) -> None:
        events = [phone.pen.part(f"p{n}") for n in range(routes.PAGE + 20)]
        for start in range(0, len(events), 260):
            assert phone.push(*events[start : start + 260]).status_code == 200
        first, *cards = page(phone.pull())
        told = json.loads(first)
        assert (len(cards), told["more"], told["position"]) == (routes.PAGE, True, routes.PAGE)
        rest = page(phone.pull(told["position"], told["chain"]))
        assert (len(rest) - 1, json.loads(rest[0])["more"]) == (20, False)
        assert set(phone.cards()) == {event["subject"] for event in events}

    @pytest.mark.parametrize("together", [1, 2, 5, 9])
    def test_cards_on_one_position_are_not_parted(
        self, app: Flask, phone: Browser, monkeypatch: pytest.MonkeyPatch, together: int
    ) -> None:
        monkeypatch.setattr(routes, "PAGE", 4)
        events = [phone.pen.part(f"p{n}") for n in range(12)]
        phone.push(*events)
        with database_of(app) as session, session.begin():
            session.execute(
                update(Card).where(Card.position.between(3, 2 + together)).values(position=3)
            )
        assert set(phone.cards()) == {event["subject"] for event in events}

    @pytest.mark.parametrize("position", ["-1", "1.5", "x", "", "9" * 40, "١"])
    def test_a_position_that_is_none(self, phone: Browser, position: str) -> None:
        answer = phone.pull(position)
        assert (answer.status_code, answer.get_json()["problem"]) == (400, "position")

    def test_the_record_was_restored(self, app: Flask, phone: Browser) -> None:
        told = phone.push(*[phone.pen.part() for _ in range(6)]).get_json()
        restore(app, 4)
        answer = phone.pull(told["position"], told["chain"])
        assert (answer.status_code, answer.get_json()["problem"]) == (409, "restored")
        # also once the record has grown past that position again, with other entries
        phone.push(*[phone.pen.part() for _ in range(5)])
        assert phone.pull(told["position"], told["chain"]).status_code == 409
        assert phone.pull().status_code == 200

    def test_other_cards_have_another_edition(self, app: Flask, phone: Browser) -> None:
        phone.push(phone.pen.part())
        before = json.loads(page(phone.pull())[0])["edition"]
        with database_of(app) as session, session.begin():
            session.execute(update(Card).values(text="{}"))
            rebuild(session)
        assert json.loads(page(phone.pull())[0])["edition"] != before


class TestTrouble:
    """A disk that is full, a database that is busy: a sentence, and nothing half kept."""

    @contextmanager
    def pragma(self, app: Flask, line: str) -> Iterator[None]:
        """Say something to every connection while it lasts."""

        def speak(connection: Any, *_: Any) -> None:
            connection.execute(line)

        with app.app_context():
            engine = db.engine
            engine.dispose()
            event.listen(engine, "connect", speak)
        try:
            yield
        finally:
            event.remove(engine, "connect", speak)
            engine.dispose()

    def pages(self, app: Flask) -> int:
        with database_of(app) as session:
            pages = session.connection().exec_driver_sql("PRAGMA page_count").scalar()
        return int(str(pages))

    def long(self, phone: Browser, group: str | None = None) -> dict[str, Any]:
        body = {"name": "long", "note": "x" * 4000}
        return phone.pen.write("part.added.v1", body, group=group)

    def test_a_full_disk(self, app: Flask, phone: Browser) -> None:
        first = self.long(phone)
        assert phone.push(first).status_code == 200
        before = phone.cards()
        group = new_id()
        events = [self.long(phone, group) for _ in range(40)]
        with self.pragma(app, f"PRAGMA max_page_count = {self.pages(app) + 10}"):
            answer = phone.push(*events)
            assert (answer.status_code, answer.get_json()["problem"]) == (507, "disk full")
            assert "the phone keeps everything" in answer.get_json()["sentence"]
            # what is there can still be read, and a phone is still let in
            assert phone.cards() == before
            assert phone.push(*events).status_code == 507
        assert count(app) == 1
        with database_of(app) as session:
            assert check_chain(session) == []
            assert all_set_aside(session) == []
        answers = phone.push(*events).get_json()["answers"]
        assert {one["result"] for one in answers} == {"stored"}
        assert [one["position"] for one in answers] == list(range(2, 42))

    def test_a_disk_that_has_no_room_to_note_a_visit(
        self, app: Flask, phone: Browser, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        phone.push(phone.pen.part())
        with database_of(app) as session, session.begin():
            session.connection().exec_driver_sql("UPDATE devices SET last_seen = 0")
        tried: list[str] = []

        def full(_self: StoredPairings, device: str, **_values: int) -> None:
            tried.append(device)
            raise DatabaseTrouble("UPDATE", {}, Exception("database or disk is full"))

        monkeypatch.setattr(StoredPairings, "_set", full)
        assert len(page(phone.pull())) == 2
        assert tried == [phone.pen.device]

    def test_a_database_that_is_busy(self, app: Flask, phone: Browser) -> None:
        with self.pragma(app, "PRAGMA busy_timeout = 50"), app.app_context():
            blocker = db.engine.connect()
            blocker.exec_driver_sql("SELECT 1")
            blocking = blocker.begin_nested()
            try:
                answer = phone.push(phone.pen.part())
            finally:
                blocking.rollback()
                blocker.close()
            assert (answer.status_code, answer.get_json()["problem"]) == (503, "database busy")
            assert "sends it again" in answer.get_json()["sentence"]
        assert phone.push(phone.pen.part()).status_code == 200
