"""What this computer reckons otherwise stands beside the kept sum, once and for good."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from sqlalchemy import select

from bucktail.rules.rulebook import version
from bucktail.storage.cards import state_of
from bucktail.storage.chain import check_chain
from bucktail.storage.eventlog import take_up
from bucktail.storage.judgements import all_judged
from bucktail.storage.rebuilding import rebuild
from bucktail.storage.settings import ensure_workshop
from bucktail.storage.tables import Card, Session
from bucktail.sync.wire.reading import read_event
from bucktail.workshop.outbox_file import bring_in
from running.pen import NOW, Pen, raw, take

SUM: dict[str, Any] = {
    "sum": "rivet",
    "inputs": {"stack": ".032,.040", "diameter": "1/8"},
    "unit": "in",
    "rulebook": "0123456789ab",
    "answer": {"verdict": "meets", "dash": "4"},
}
PIECE: dict[str, Any] = {
    "what": "shim",
    "name": "Shim under rib 4",
    "clad": "bare",
    "thickness": {"nm": 812_800, "text": ".032"},
    "a": {"nm": 50_800_000, "text": "2"},
    "b": {"nm": 19_050_000, "text": "3/4"},
    "grain": "any",
    "count": 1,
}
OTHERWISE = {"rulebook": "ba9876543210", "answer": {"verdict": "check"}}


def sums(session: Session, subject: str) -> list[dict[str, Any]]:
    """The sums on a thing's card."""
    state = state_of(session, subject)
    assert state is not None
    kept: list[dict[str, Any]] = state["sums"]
    return kept


def take_judged(session: Session, *events: dict[str, Any], judge: Any) -> list[Any]:
    """One push, its sums judged by `judge`."""
    session.rollback()
    with session.begin():
        return take_up(
            session,
            [raw(event) for event in events],
            read_event,
            workshop=ensure_workshop(session).id,
            received_at=NOW,
            offset=0,
            device=None,
            judge=judge,
        )


def test_an_answer_changed_by_hand_shows_beside_what_is_reckoned_here(
    session: Session, pen: Pen
) -> None:
    part = pen.part()
    body = {**SUM, "answer": {**SUM["answer"], "dash": "4.5"}}
    take(session, part, pen.write("sum.kept.v1", body, part["subject"]))
    (kept,) = sums(session, part["subject"])
    assert kept["answer"] == body["answer"]
    assert kept["judged"]["rulebook"] == version()
    assert kept["judged"]["answer"]["dash"] == "4"
    assert kept["judged"]["answer"]["part_number"] == "MS20470AD4-4"
    (fact,) = (
        fact
        for fact in json.loads(session.execute(select(Card.text)).scalar_one())["facts"]
        if fact["kind"] == "sum.kept.v1"
    )
    assert fact["judged"] == kept["judged"]


def test_the_same_answer_has_nothing_beside_it(session: Session, pen: Pen) -> None:
    part = pen.part()
    take(session, part, pen.write("sum.kept.v1", SUM, part["subject"]))
    answer = sums(session, part["subject"])[0]["judged"]["answer"]
    whole = pen.write("sum.kept.v1", {**SUM, "answer": answer}, part["subject"])
    take(session, whole)
    assert "judged" not in sums(session, part["subject"])[1]
    assert list(all_judged(session)) == [2]


def test_only_kept_sums_are_judged_and_each_once(session: Session, pen: Pen) -> None:
    asked: list[dict[str, Any]] = []

    def judge(body: dict[str, Any]) -> dict[str, Any]:
        asked.append(body)
        return OTHERWISE

    part = pen.part()
    events = [part, pen.step(part["subject"], "film")]
    events.append(pen.write("sum.kept.v1", SUM, part["subject"]))
    for result in ("stored", "known"):
        taken = take_judged(session, *events, judge=judge)
        assert [one.result for one in taken] == [result] * 3
    assert asked == [SUM]
    assert all_judged(session) == {3: OTHERWISE}
    assert sums(session, part["subject"])[0]["judged"] == OTHERWISE


def test_it_stays_as_it_was_when_cards_are_made_anew(session: Session, pen: Pen) -> None:
    part = pen.part()
    event = pen.write("sum.kept.v1", SUM, part["subject"])
    take_judged(session, part, event, judge=lambda _: OTHERWISE)
    with session.begin():
        assert rebuild(session) == (1, 0)
    assert sums(session, part["subject"])[0]["judged"] == OTHERWISE
    assert check_chain(session) == []


def test_nothing_is_judged_of_what_is_set_aside(session: Session, pen: Pen) -> None:
    broken = pen.write("sum.kept.v1", {**SUM, "unit": "ell"})
    (taken,) = take_judged(session, broken, judge=lambda _: OTHERWISE)
    assert taken.result == "aside"
    assert all_judged(session) == {}


def test_what_was_brought_over_as_a_file_is_judged_too(
    session: Session, folder: Path, pen: Pen
) -> None:
    part = pen.part()
    changed = {**SUM, "answer": {**SUM["answer"], "dash": "6"}}
    piece = pen.write("piece.wanted.v1", PIECE)
    met = pen.write("piece.met.v1", {"part": part["subject"]}, piece["subject"])
    events = [part, pen.write("sum.kept.v1", changed, part["subject"]), piece, met]
    first = {"bucktail": "outbox", "version": 1, "workshop": pen.workshop, "entries": 4}
    file = b"\n".join([json.dumps(first).encode(), *map(raw, events)])
    session.rollback()
    with session.begin():
        done = bring_in(session, folder, file, NOW)
    assert (done.stored, done.aside, done.missing) == (4, [], 0)
    assert sums(session, part["subject"])[0]["judged"]["answer"]["dash"] == "4"
    state = state_of(session, piece["subject"])
    assert state is not None
    assert (state["sort"], state["met"]) == ("wanted", part["subject"])
