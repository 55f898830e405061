"""Fit curves beside the record: which outlines wait, and that none is lost or tried for ever."""

from __future__ import annotations

import json
from typing import Any

import pytest

from bucktail.storage import curves
from bucktail.storage.rebuilding import rebuild
from bucktail.storage.tables import Session
from running.oddstock import ell, odd
from running.pen import Pen, look, take

SMALL, LARGE = ell(100, 80, 30, 30), ell(400, 300, 90, 90)


def offcut(pen: Pen, shape: dict[str, Any] = SMALL, **change: Any) -> dict[str, Any]:
    """An odd offcut is entered."""
    return pen.write("offcut.added.v1", odd(shape), **change)


def next_one(session: Session) -> curves.ToMeasure | None:
    """What is measured next; its try is committed."""
    session.rollback()
    with session.begin():
        return curves.take_next(session)


def keep(session: Session, event: str, text: str = '{"v":1}') -> int:
    """A curve is kept."""
    session.rollback()
    with session.begin():
        return curves.keep(session, event, text)


def test_an_outline_waits_until_it_has_a_curve(session: Session, pen: Pen) -> None:
    added = offcut(pen)
    take(session, added, pen.part())
    assert curves.waiting(session) == 1
    found = next_one(session)
    assert found == curves.ToMeasure(added["id"], SMALL, 0)
    assert keep(session, added["id"]) == 1
    assert curves.waiting(session) == 0
    assert next_one(session) is None
    assert curves.after(session, 0, 10) == [(1, added["id"], '{"v":1}')]


def test_a_rectangle_never_waits(session: Session, pen: Pen) -> None:
    shape = {"kind": "rectangle", "a": {"nm": 5, "text": "5"}, "b": {"nm": 6, "text": "6"}}
    take(session, offcut(pen, shape))
    assert curves.waiting(session) == 0


def test_another_shape_waits_anew_and_the_old_one_no_more(session: Session, pen: Pen) -> None:
    added = offcut(pen)
    take(session, added)
    look(pen, session)
    changed = pen.write("offcut.described.v1", {"shape": LARGE}, added["subject"])
    renamed = pen.write("offcut.described.v1", {"name": "L"}, added["subject"])
    take(session, changed, renamed)
    found = next_one(session)
    assert found is not None
    assert (found.event, found.shape) == (changed["id"], LARGE)
    keep(session, changed["id"])
    assert curves.waiting(session) == 0
    # taken back, the first one counts again
    take(session, pen.write("event.withdrawn.v1", {"event": changed["id"]}, added["subject"]))
    found = next_one(session)
    assert found is not None and found.event == added["id"]


def test_what_is_used_up_is_not_measured_and_waits_again_once_it_is_back(
    session: Session, pen: Pen
) -> None:
    added = offcut(pen)
    gone = pen.write("thing.retired.v1", {"why": "scrapped"}, added["subject"])
    take(session, added, gone)
    assert curves.waiting(session) == 0
    take(session, pen.write("event.withdrawn.v1", {"event": gone["id"]}, added["subject"]))
    assert curves.waiting(session) == 1


def test_the_newest_goes_first_and_one_that_was_tried_last(session: Session, pen: Pen) -> None:
    one, two, three = (offcut(pen) for _ in range(3))
    take(session, one, two, three)
    order = []
    for _ in range(6):
        found = next_one(session)
        assert found is not None
        order.append((found.event, found.tries))
    newest_first = [three["id"], two["id"], one["id"]]
    assert order == [(event, tries) for tries in (0, 1) for event in newest_first]


def test_numbers_only_rise_so_a_phone_misses_none(session: Session, pen: Pen) -> None:
    events = [offcut(pen) for _ in range(4)]
    take(session, *events)
    assert [keep(session, event["id"]) for event in events] == [1, 2, 3, 4]
    assert keep(session, events[3]["id"], '{"v":2}') == 5
    assert keep(session, events[0]["id"], '{"v":3}') == 6
    assert [n for n, _, _ in curves.after(session, 0, 10)] == [2, 3, 5, 6]
    assert [n for n, _, _ in curves.after(session, 3, 1)] == [5]
    assert curves.last(session) == 6


def test_a_rebuild_keeps_curves_and_tries_again_what_failed(session: Session, pen: Pen) -> None:
    good, bad, new = (offcut(pen) for _ in range(3))
    take(session, good, bad, new)
    keep(session, good["id"])
    keep(session, bad["id"], curves.cannot("it is too thin"))
    next_one(session)
    session.rollback()
    with session.begin():
        rebuild(session)
    assert curves.waiting(session) == 2
    found = [next_one(session), next_one(session)]
    assert {one.event for one in found if one} == {bad["id"], new["id"]}
    assert {one.tries for one in found if one} == {0}
    # until it is tried again, what is known of it stands
    assert len(curves.after(session, 0, 10)) == 2


def test_what_grew_event_by_event_is_what_a_rebuild_finds(session: Session, pen: Pen) -> None:
    events = [offcut(pen) for _ in range(3)]
    gone = pen.write("thing.retired.v1", {"why": "scrapped"}, events[1]["subject"])
    take(session, *events, gone)
    before = curves.waiting(session)
    session.rollback()
    with session.begin():
        assert rebuild(session) == (3, 0)
    assert (before, curves.waiting(session)) == (2, 2)


def test_curves_of_an_earlier_making_serve_until_the_new_ones_are_there(
    session: Session, pen: Pen, monkeypatch: pytest.MonkeyPatch
) -> None:
    added = offcut(pen)
    take(session, added)
    keep(session, added["id"])
    session.rollback()
    monkeypatch.setattr(curves, "MADE_BY", curves.MADE_BY + 1)
    assert curves.waiting(session) == 1
    assert len(curves.after(session, 0, 10)) == 1
    assert keep(session, added["id"], '{"v":2}') == 2
    assert curves.waiting(session) == 0
    assert curves.after(session, 0, 10) == [(2, added["id"], '{"v":2}')]


def test_why_an_outline_cannot_be_measured_is_json() -> None:
    said = json.loads(curves.cannot("two sides cross at “3 in”"))
    assert said == {"v": 1, "why": "two sides cross at “3 in”"}
